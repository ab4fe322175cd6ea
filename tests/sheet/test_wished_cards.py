"""Cards go out in the sizes wanted, with those of a stand-in check when it is asked for."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import PlanRefused
from benchlog.sheet.cards import write_cards
from benchlog.sheet.outputs import CardsOutput
from benchlog.tasks.stand_in_wish import StandInWish, first_wish
from tests.tasks.sample_records import sample_record


class NoPhotos:
    """A shelf of which only photos are asked, and which has none."""

    def photo_bytes(self, photo_id: str) -> bytes:
        raise KeyError(photo_id)


class NoProgress:
    def step(self, _done: int, _total: int, _what: str) -> None:
        return


@pytest.fixture(autouse=True)
def drawn_quickly(monkeypatch: pytest.MonkeyPatch) -> None:
    """Which cards there are is asked here, not how they look."""
    monkeypatch.setattr(write_cards, "card_as_png", lambda *_: b"png")
    monkeypatch.setattr(write_cards, "card_as_svg", lambda *_: "<svg/>")


def written(folder: Path, **wishes: object) -> tuple[list[str], list[str]]:
    """Return the files and the titles of the cards."""
    record = replace(sample_record(), photos=())
    files = CardsOutput(**wishes).write(record, NoPhotos(), folder, NoProgress())
    cards = json.loads((folder / "cards" / "cards.json").read_text(encoding="utf-8"))["cards"]
    return list(files), [card["title"] for card in cards]


def test_one_size_alone_is_written(tmp_path: Path) -> None:
    files, _ = written(tmp_path, heights=(1080,))
    assert any("1920x1080/" in name for name in files)
    assert not any("3840x2160/" in name for name in files)
    assert all((tmp_path / name).is_file() for name in files)


def test_both_sizes_are_usual(tmp_path: Path) -> None:
    files, titles = written(tmp_path)
    for size in ("1920x1080", "3840x2160"):
        assert any(f"{size}/" in name for name in files)
    assert "Stand-in check" not in titles


def test_stand_in_has_cards_when_asked_for(tmp_path: Path) -> None:
    wish = replace(first_wish(sample_record().lineup), handbook="TB-4411", on_cards=True)
    _, titles = written(tmp_path, stand_in=wish)
    assert titles.count("Stand-in check") == 1


def test_stand_in_of_a_gone_specimen_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PlanRefused, match="gone"):
        written(tmp_path, stand_in=StandInWish("x", "y", on_cards=True))
