"""A published later revision says on its first page what it corrects; a draft does not."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from benchlog.shelf import SqlShelf, open_shelf
from tests.made_shelves import fresh_shelf
from tests.sheet.reading_back import pages, write
from tests.small_trade import SCALE, TAPE, HandClock, small_lineup
from tests.tasks.publishing_scenes import publish, put_right, read_two, record_now

SAID = "Revision 2: read a mark too low. Amber · Strip length: 1204 mm → 1240 mm"


@pytest.fixture
def shelf(tmp_path: Path) -> Iterator[SqlShelf]:
    with open_shelf(fresh_shelf(tmp_path / "shelf")) as opened:
        opened.save_lineup(small_lineup())
        opened.save_instrument(SCALE)
        opened.save_instrument(TAPE)
        yield opened


def first_page(shelf: SqlShelf, folder: Path) -> str:
    return pages(write(record_now(shelf), folder))[0]


def test_second_revision_tells_its_correction(shelf: SqlShelf, tmp_path: Path) -> None:
    clock = HandClock()
    read_two(shelf, clock)
    publish(shelf, clock)
    assert "Revision 1" not in first_page(shelf, tmp_path)
    put_right(shelf, clock)
    draft = first_page(shelf, tmp_path)
    assert "draft, not published" in draft
    assert "Revision 2:" not in draft
    publish(shelf, clock)
    assert SAID in first_page(shelf, tmp_path)
    put_right(shelf, clock, "1250", "read again")
    assert SAID not in first_page(shelf, tmp_path)  # a third one is being drawn up
