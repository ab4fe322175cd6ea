"""A damaged file: told in words, and left exactly as it was found."""

from __future__ import annotations

import random
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from benchlog.errors import ShelfDamaged
from benchlog.shelf import check_shelf, open_shelf
from tests.shelf import scenes
from tests.shelf.looks import listing


@pytest.fixture
def used(folder: Path) -> Path:
    """A closed shelf with a hundred readings and a photo."""
    with open_shelf(folder) as shelf:
        scenes.set_up(shelf)
        shelf.add_photo(scenes.photo(), scenes.PICTURE)
        for number in range(100):
            shelf.add_reading(scenes.reading(f"reading {number}"))
    return folder


def overwrite_a_page(file: Path) -> None:
    """Put random bytes over the first page that holds what the scale sent."""
    data = bytearray(file.read_bytes())
    at = data.index(b"ST,GS") // 4096 * 4096
    data[at : at + 4096] = random.Random(5).randbytes(4096)
    file.write_bytes(data)


def refused(folder: Path, why: str) -> None:
    """Check that the shelf opens in no way, says why, and is left alone."""
    before = listing(folder)
    for read_only in (False, True):
        with pytest.raises(ShelfDamaged, match=why) as refusal:
            open_shelf(folder, read_only=read_only)
        assert "backups" in refusal.value.do
    assert len(check_shelf(folder)) == 1
    assert {k: v for k, v in listing(folder).items() if k != "in-use.lock"} == {
        k: v for k, v in before.items() if k != "in-use.lock"
    }


@pytest.mark.parametrize("length", [10, 99, 100, 4096, 20_000])
def test_shortened_file_is_refused(used: Path, length: int) -> None:
    file = used / "shelf.sqlite"
    file.write_bytes(file.read_bytes()[:length])
    refused(used, "shorter than it should be")


def test_random_bytes_are_refused(used: Path) -> None:
    (used / "shelf.sqlite").write_bytes(random.Random(4).randbytes(30_000))
    refused(used, "damaged")


def test_text_file_is_refused(used: Path) -> None:
    (used / "shelf.sqlite").write_text("mass: 287.4 g\n" * 200)
    refused(used, "damaged")


def test_emptied_file_is_refused(used: Path) -> None:
    (used / "shelf.sqlite").write_bytes(b"")
    refused(used, "missing or empty")


def test_lost_file_is_refused(used: Path) -> None:
    (used / "shelf.sqlite").unlink()
    refused(used, "missing or empty")


def test_missing_layout_is_refused(used: Path) -> None:
    with closing(sqlite3.connect(used / "shelf.sqlite", isolation_level=None)) as raw:
        raw.execute("DELETE FROM alembic_version")
    refused(used, "which layout")


def test_damaged_page_is_told(used: Path) -> None:
    """The reading's own pages are overwritten; the shelf opens, and reading them is refused."""
    file = used / "shelf.sqlite"
    overwrite_a_page(file)
    data = file.read_bytes()
    with open_shelf(used) as shelf, pytest.raises(ShelfDamaged, match="nothing in it was changed"):
        shelf.readings("spring")
    problems = check_shelf(used)
    assert problems
    assert all("damaged" in problem for problem in problems)
    assert file.read_bytes() == data


def test_damage_behind_a_crash_is_found(used: Path, tmp_path: Path) -> None:
    with open_shelf(used) as shelf:
        shelf.add_reading(scenes.reading("last"))
        crashed = shutil.copytree(used, tmp_path / "crashed")
    with open_shelf(shutil.copytree(crashed, tmp_path / "sound")) as shelf:
        assert shelf.readings("spring")[-1].id == "last"
    overwrite_a_page(crashed / "shelf.sqlite")
    with pytest.raises(ShelfDamaged):
        open_shelf(crashed)


def test_unknown_word_is_damage(used: Path) -> None:
    with closing(sqlite3.connect(used / "shelf.sqlite", isolation_level=None)) as raw:
        raw.execute("UPDATE specimen SET paid = 'in shells' WHERE id = 'alfa'")
    with open_shelf(used) as shelf, pytest.raises(ShelfDamaged, match="in shells"):
        shelf.lineup("spring")
    assert any("in shells" in problem for problem in check_shelf(used))
