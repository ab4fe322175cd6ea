"""Every page of a written sheet: sizes of type, room, and nothing on top of anything."""

from __future__ import annotations

import tempfile
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from benchlog.settings import BOTH
from benchlog.sheet.typography import PAPERS, use_fonts
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from tests.sheet.reading_back import outline, with_photos, write
from tests.sheet.sample_record import record
from tests.sheet.test_front_page import crowded
from tests.sheet.text_boxes import Run, runs_of
from tests.sheet.worked_record import worked

SMALLEST = 9.0
FULL = SheetWishes(BOTH, sums=True)


@cache
def worked_runs(wishes: SheetWishes = USUAL) -> list[list[Run]]:
    """The runs of the sample line-up's sheet, on A4."""
    with tempfile.TemporaryDirectory() as place:
        return looked_at(worked(), Path(place), wishes, "A4")


def looked_at(made: Record, folder: Path, wishes: SheetWishes, paper: str) -> list[list[Run]]:
    use_fonts()
    return runs_of(write(made, folder, paper, wishes=wishes))


@pytest.mark.parametrize("wishes", [USUAL, FULL])
def test_worked_sheet_is_legible(wishes: SheetWishes) -> None:
    for runs in worked_runs(wishes):
        assert min(run.size for run in runs) >= SMALLEST
        for one, other in combinations(runs, 2):
            assert not one.meets(other), (one, other)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("make", [record, crowded])
@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6])
def test_nothing_small_nothing_overlaid(tmp_path: Path, make, paper: str, count: int) -> None:
    for runs in looked_at(make(count), tmp_path, FULL, paper):
        assert min(run.size for run in runs) >= SMALLEST
        for one, other in combinations(runs, 2):
            assert not one.meets(other), (one, other)


def test_pages_are_at_least_half_full(tmp_path: Path) -> None:
    use_fonts()
    path = write(worked(), tmp_path)
    page = PAPERS["A4"]
    middle = page.bottom + (page.height - page.bottom - page.top) / 2
    begun = {number for level, _, number in outline(path) if level == 0}
    for number, runs in enumerate(runs_of(path)[:-1]):
        body = [run.y for run in runs if run.y > page.bottom]
        assert min(body) < middle or number + 1 in begun, number + 1


def test_no_heading_ends_a_page() -> None:
    for runs in worked_runs(FULL):
        body = [run for run in runs if run.y > PAPERS["A4"].bottom]
        lowest = min(body, key=lambda run: run.y)
        assert lowest.size < 11.5, lowest


@pytest.mark.parametrize("count", [1, 2, 3, 6])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_section_begins_with_some_of_it(tmp_path: Path, paper: str, count: int) -> None:
    use_fonts()
    full, shelf = with_photos(record(count))
    for runs in runs_of(write(full, tmp_path, paper, shelf))[1:]:
        titles = [run.y for run in runs if run.size > 15]
        if titles:
            # more than the lead, which is set larger: cells, captions or labels
            assert [run for run in runs if 55 < run.y < min(titles) and run.size < 10]


@pytest.mark.parametrize("count", [2, 3, 5])
def test_photos_find_room(tmp_path: Path, count: int) -> None:
    use_fonts()
    full, shelf = with_photos(record(count))
    for runs in runs_of(write(full, tmp_path, "A4", shelf)):
        for one, other in combinations(runs, 2):
            assert not one.meets(other), (one, other)
