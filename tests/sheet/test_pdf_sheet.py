from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader
from pypdf.generic import DictionaryObject

from benchlog.errors import PublishRefused
from benchlog.sheet.pdf_sheet import PdfSheet
from benchlog.tasks.ports import SheetWriter
from tests.sheet.reading_back import outline, pages, with_photos, write
from tests.sheet.sample_record import PictureShelf, Told, record


@pytest.mark.parametrize(
    ("paper", "size"),
    [("A4", (595.28, 841.89)), ("Letter", (612.0, 792.0))],  # ISO 216; ANSI Y14.1 size A
)
def test_paper_has_its_size(tmp_path: Path, paper: str, size: tuple[float, float]) -> None:
    reader = PdfReader(write(record(), tmp_path, paper))
    for page in reader.pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            size, abs=0.01
        )


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_any_line_up_prints(tmp_path: Path, count: int, paper: str) -> None:
    full, shelf = with_photos(record(count))
    found = pages(write(full, tmp_path, paper, shelf))
    assert len(found) >= 6
    for specimen in full.lineup.specimens:
        assert specimen.nickname in found[1]


def test_same_record_same_bytes(tmp_path: Path) -> None:
    full, shelf = with_photos(record())
    first = write(full, tmp_path, "A4", shelf).read_bytes()
    assert write(full, tmp_path, "A4", shelf).read_bytes() == first


def test_other_record_other_bytes(tmp_path: Path) -> None:
    first = write(record(), tmp_path).read_bytes()
    assert write(replace(record(), revision=3), tmp_path).read_bytes() != first


def fonts_of(path: Path) -> dict[str, DictionaryObject]:
    """Return every font that the file names anywhere, by its name."""
    reader = PdfReader(path)
    objects = (reader.get_object(i) for i in range(1, int(reader.trailer["/Size"])))
    return {
        str(o["/BaseFont"]): o
        for o in objects
        if isinstance(o, DictionaryObject) and o.get("/Type") == "/Font"
    }


def test_all_fonts_embedded(tmp_path: Path) -> None:
    full, shelf = with_photos(record())
    fonts = fonts_of(write(full, tmp_path, "A4", shelf))
    assert fonts
    for name, font in fonts.items():
        assert "DejaVuSansCondensed" in name
        assert "/FontFile2" in font["/FontDescriptor"].get_object()
        assert "/ToUnicode" in font


def test_metadata_from_the_record(tmp_path: Path) -> None:
    reader = PdfReader(write(record(), tmp_path))
    told = reader.metadata
    assert told is not None
    assert told.title == "Three for the same mount, revision 2"
    assert told.author == "R. Benchwright"
    assert told.subject == record().lineup.question
    assert record().digest in str(told["/Keywords"])
    assert reader.trailer["/Root"]["/Lang"] == "en-GB"


def test_outline_leads_to_pages(tmp_path: Path) -> None:
    full, shelf = with_photos(record())
    path = write(full, tmp_path, "A4", shelf)
    entries = outline(path)
    sections = [title for level, title, _ in entries if level == 0]
    assert sections == [
        "The answer at a glance",
        "Who paid, and which filters these are",
        "Makers’ claims, not tested here",
        "Fit card",
        "Outside",
        "Inside",
        "Media",
        "Bench tests",
        "The same numbers, drawn",
        "Why, component by component",
        "Method",
        "Cautions",
    ]
    text = pages(path)
    for _, title, page in entries[1:]:
        assert title in text[page]
    assert (1, "Corrections") in [(level, title) for level, title, _ in entries]


def test_every_page_is_numbered(tmp_path: Path) -> None:
    found = pages(write(record(), tmp_path))
    for number, text in enumerate(found, start=1):
        assert f"page {number} of {len(found)}" in text


def test_every_page_says_who_paid(tmp_path: Path) -> None:
    for text in pages(write(record(), tmp_path)):
        assert "Who paid: 1 bought by the reviewer, 1 given by the maker" in text
        assert "revision 2" in text
        assert record().digest[:12] in text


def test_rehearsal_says_so_everywhere(tmp_path: Path) -> None:
    sample = record()
    rehearsal = replace(sample, lineup=replace(sample.lineup, rehearsal=True))
    for text in pages(write(rehearsal, tmp_path)):
        assert "REHEARSAL" in text
    for text in pages(write(sample, tmp_path)):
        assert "REHEARSAL" not in text


def test_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PublishRefused) as caught:
        write(record(), tmp_path / "nowhere")
    assert "nowhere" in caught.value.what
    assert "another folder" in caught.value.do


def test_folder_in_the_way_is_refused(tmp_path: Path) -> None:
    (tmp_path / "sheet.pdf").mkdir()
    with pytest.raises(PublishRefused):
        write(record(), tmp_path)
    assert [p.name for p in tmp_path.iterdir()] == ["sheet.pdf"]


def test_unknown_paper_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PublishRefused, match="A4 or Letter"):
        write(record(), tmp_path, "A5")
    assert not list(tmp_path.iterdir())


def test_broken_off_sheet_keeps_the_old(tmp_path: Path) -> None:
    class Stops(Told):
        def step(self, done: int, total: int, what: str) -> None:
            super().step(done, total, what)
            if what == "page 3":
                raise KeyboardInterrupt

    path = tmp_path / "sheet.pdf"
    path.write_bytes(b"the old sheet")
    with pytest.raises(KeyboardInterrupt):
        PdfSheet().write(record(), PictureShelf({}), path, "A4", Stops())  # type: ignore[arg-type]
    assert path.read_bytes() == b"the old sheet"
    assert os.listdir(tmp_path) == ["sheet.pdf"]  # noqa: PTH208


def test_progress_runs_to_its_end(tmp_path: Path) -> None:
    full, shelf = with_photos(record())
    told = Told()
    writer: SheetWriter = PdfSheet()
    writer.write(full, shelf, tmp_path / "s.pdf", "A4", told)  # type: ignore[arg-type]
    totals = {total for _, total, _ in told.steps}
    done = [step for step, _, _ in told.steps]
    assert totals == {len(full.photos) + 2}
    assert done == sorted(done)
    assert told.steps[-1][0] == told.steps[-1][1]
