"""All cards of a record: their order, their files, what tells of them, and stopping in between."""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from benchlog.errors import PublishRefused
from benchlog.sheet.cards.all_cards import CardWishes, all_cards
from benchlog.sheet.cards.write_cards import SIDECAR, WrittenCards, file_name, write_cards
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from tests.sheet.cards.card_scenes import pictured, sample_cards, stand_in
from tests.sheet.sample_record import PictureShelf, Told, record

FEW = CardWishes(subjects=("exposed_area",))


class Stop(Exception):
    """A wish to stop."""


class Stopping:
    """Progress that stops at the third card."""

    def step(self, done: int, _total: int, _what: str) -> None:
        if done == 2:
            raise Stop


def few(count: int) -> tuple[Record, PictureShelf]:
    """A record with one award and its pictures: as few cards as show every kind of file."""
    shown, shelf = pictured(count)
    awards = tuple(a for a in shown.verdict.awards if a.component is Component.MEDIA)
    return replace(shown, verdict=replace(shown.verdict, awards=awards)), shelf


def written(folder: Path, told: Told | None = None) -> WrittenCards:
    shown, shelf = few(2)
    return write_cards(shown, folder, shelf.photo_bytes, told or Told(), FEW, (1080,))


def test_cards_follow_the_video() -> None:
    names = [card.name for card in sample_cards().cards]
    kinds = [name.split("_")[0] for name in names]
    assert kinds[:4] == ["disclosure", "lower", "lower", "lower"]
    assert kinds.index("correction") > max(n for n, k in enumerate(kinds) if k == "award")
    assert kinds[-1] == "title"
    strip = names.index("side_by_side_exposed_area")
    assert names[strip + 1 : strip + 4] == [
        f"number_exposed_area_{shape}" for shape in ("circle", "square", "triangle")
    ]
    assert names.index("award_media") > strip
    assert names.index("stand_in") < len(names) - 1
    assert len(set(names)) == len(names)


def test_a_record_without_values_still_has_its_cards() -> None:
    shown = record(1)
    names = [card.name for card in all_cards(shown, CardWishes(subjects=())).cards]
    assert names[:2] == ["disclosure", "lower_third_circle"]
    assert not any(name.startswith(("number", "side")) for name in names)


def test_files_are_numbered_in_order(tmp_path: Path) -> None:
    made = written(tmp_path / "cards")
    stems = sorted(p.stem for p in (tmp_path / "cards").rglob("*.png"))
    assert stems[0] == "01_disclosure"
    assert [stem[:2] for stem in stems] == [f"{n:02d}" for n in range(1, len(made.cards) + 1)]
    assert file_name(made.cards[0], 7, 120) == "007_disclosure"
    assert all(path.is_file() for path in made.files)


def test_every_card_is_there_as_png_and_svg_in_its_sizes(tmp_path: Path) -> None:
    shown, shelf = few(1)
    folder = tmp_path / "cards"
    write_cards(shown, folder, shelf.photo_bytes, Told(), CardWishes(subjects=()))
    for path in folder.rglob("*.png"):
        assert path.with_suffix(".svg").is_file()
        with Image.open(path) as image:
            assert f"{image.width}x{image.height}" == path.parent.name
    sizes = {path.name for path in folder.iterdir() if path.is_dir()}
    assert sizes == {"1920x1080", "3840x2160", "1280x720"}


def test_sidecar_tells_readings_and_checksums(tmp_path: Path) -> None:
    made = written(tmp_path / "cards")
    told = json.loads((tmp_path / "cards" / SIDECAR).read_text(encoding="utf-8"))
    assert told["digest"] == record(2).digest
    assert told["revision"] == 2
    assert [entry["title"] for entry in told["cards"]] == [card.title for card in made.cards]
    for entry, card in zip(told["cards"], made.cards, strict=True):
        assert tuple(entry["readings"]) == card.readings
        for name, digest in entry["files"].items():
            data = (tmp_path / "cards" / name).read_bytes()
            assert hashlib.sha256(data).hexdigest() == digest
    assert told["cards"][-1]["photos"]


def test_same_record_gives_the_same_files(tmp_path: Path) -> None:
    one, other = written(tmp_path / "a"), written(tmp_path / "b")
    for first, second in zip(one.files, other.files, strict=True):
        assert first.read_bytes() == second.read_bytes()


def test_progress_counts_every_card(tmp_path: Path) -> None:
    told = Told()
    made = written(tmp_path / "cards", told)
    count = len(made.cards)
    assert [done for done, _, _ in told.steps] == list(range(count + 1))
    assert {total for _, total, _ in told.steps} == {count}
    assert told.steps[0][2] == "Who paid"


def test_stopping_leaves_nothing_behind(tmp_path: Path) -> None:
    shown, shelf = pictured(2)
    with pytest.raises(Stop):
        write_cards(shown, tmp_path / "cards", shelf.photo_bytes, Stopping(), FEW, (1080,))
    assert list(tmp_path.iterdir()) == []


def test_a_folder_in_use_is_refused(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("kept")
    with pytest.raises(PublishRefused, match="not an empty folder"):
        written(tmp_path)
    assert [p.name for p in tmp_path.iterdir()] == ["mine.txt"]


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(PublishRefused, match="cannot be written"):
        written(tmp_path / "file" / "cards")


def test_stand_in_checks_come_when_asked() -> None:
    plain, asked = all_cards(record(2)), all_cards(record(2), CardWishes(stand_ins=(stand_in(),)))
    assert not any(card.name.startswith("stand_in") for card in plain.cards)
    assert any(card.name.startswith("stand_in") for card in asked.cards)
