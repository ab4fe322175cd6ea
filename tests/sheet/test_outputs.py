"""Each output writes the files that it names, and nothing beside them, from the one record."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import PublishRefused
from benchlog.sheet.outputs import (
    CardsOutput,
    DataOutput,
    DescriptionOutput,
    SheetOutput,
    VideoOutput,
)
from benchlog.tasks.ports import OutputWriter
from benchlog.tasks.publish_wishes import KINDS
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_words
from benchlog.wiring import OUTPUT_KINDS, output_writers
from tests.sheet.sample_record import PictureShelf, Told
from tests.tasks.sample_records import sample_record
from tests.tasks.video_scenes import filmed


def written(writer: OutputWriter, record: Record, folder: Path) -> tuple[str, ...]:
    """Write one output, and see that its files are those that it names."""
    names = writer.write(record, PictureShelf({}), folder, Told())  # type: ignore[arg-type]
    there = sorted(p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())
    assert sorted(names) == there
    assert len(set(names)) == len(names)
    return names


@pytest.fixture(scope="module")
def record() -> Record:
    """The sample without its photos, as its second revision."""
    return replace(sample_record(), photos=(), revision=2, draft=False)


def test_sheet_is_one_pdf(record: Record, tmp_path: Path) -> None:
    assert written(SheetOutput("Letter"), record, tmp_path) == ("sheet.pdf",)


def test_data_is_one_zip(record: Record, tmp_path: Path) -> None:
    assert written(DataOutput("CC0-1.0"), record, tmp_path) == ("data.zip",)
    with pytest.raises(PublishRefused, match="no licence known"):
        DataOutput("mine").write(record, PictureShelf({}), tmp_path / "b", Told())  # type: ignore[arg-type]


def test_cards_come_in_every_size_and_form(record: Record, tmp_path: Path) -> None:
    # Without awards few cards are left; which ones there are is looked at with the cards.
    few = replace(record, verdict=replace(record.verdict, awards=()), corrections=())
    few = replace(few, readings=tuple(r for r in few.readings if not r.supersedes))
    names = written(CardsOutput(heights=(1080,)), few, tmp_path)
    assert {Path(name).suffix for name in names} == {".png", ".svg", ".json"}
    assert all(name.startswith("cards/") for name in names)


def test_video_files_come_with_what_was_read(tmp_path: Path) -> None:
    names = written(VideoOutput(), filmed(60), tmp_path)
    kept = {f"video/{n}" for n in ("chapters.txt", "chapters.vtt", "subtitles.vtt", "markers.csv")}
    assert kept <= set(names)
    assert (tmp_path / "video" / "chapters.txt").read_text("utf-8").startswith("0:00 ")


def test_nothing_read_at_the_bench_gives_no_video_files(record: Record, tmp_path: Path) -> None:
    bare = replace(record, readings=(), moments=(), checks=(), corrections=())
    assert written(VideoOutput(), bare, tmp_path) == ()


def test_description_says_its_revision(record: Record, tmp_path: Path) -> None:
    names = written(DescriptionOutput(), record, tmp_path)
    assert names == ("description.txt", "description.md")
    for name in names:
        assert revision_words(record) in (tmp_path / name).read_text("utf-8")


def test_wanted_kinds_are_written_and_no_others() -> None:
    assert OUTPUT_KINDS == KINDS
    assert [w.kind for w in output_writers(licence="CC0-1.0")] == list(OUTPUT_KINDS)
    assert "data" not in [w.kind for w in output_writers()]
    assert [w.kind for w in output_writers(kinds=("sheet", "chapters"))] == ["sheet", "chapters"]
