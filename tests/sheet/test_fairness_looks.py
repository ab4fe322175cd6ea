"""Pages that tell of fairness stay legible: nothing small, nothing on top of anything."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest

from benchlog.judge.blind import Poll
from benchlog.sheet.typography import PAPERS, use_fonts
from benchlog.tasks.record import Record
from tests.sheet.fairness_record import fair_record
from tests.sheet.reading_back import outline, write
from tests.sheet.sample_record import LINEUP, START, record
from tests.sheet.test_fairness_front import everything
from tests.sheet.test_front_page import crowded
from tests.sheet.text_boxes import runs_of

SMALLEST = 9.0


def crowded_with_all(count: int) -> Record:
    shown = everything(crowded(count))
    votes = tuple((s.id, 10_000 + i) for i, s in enumerate(shown.lineup.specimens))
    asked = tuple(Poll(f"p{i}", LINEUP, "Which? " * 60, votes, i == 0, START) for i in range(3))
    return replace(shown, polls=asked)


def with_all(count: int) -> Record:
    return everything(record(count))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("make", [with_all, crowded_with_all])
@pytest.mark.parametrize("count", [1, 3, 6])
def test_all_told_overlays_nothing(tmp_path: Path, make, paper: str, count: int) -> None:
    use_fonts()
    for runs in runs_of(write(make(count), tmp_path, paper)):
        assert min(run.size for run in runs) >= SMALLEST
        for one, other in combinations(runs, 2):
            assert not one.meets(other), (one, other)


def test_fair_pages_are_half_full(tmp_path: Path) -> None:
    """All but those where a section ends before the next one begins on its own page."""
    use_fonts()
    path = write(fair_record(), tmp_path)
    page = PAPERS["A4"]
    middle = page.bottom + (page.height - page.bottom - page.top) / 2
    begun = {number for level, _, number in outline(path) if level == 0}
    for number, runs in enumerate(runs_of(path)[:-1]):
        if number + 1 in begun:
            continue
        body = [run.y for run in runs if run.y > page.bottom]
        assert min(body) < middle, number + 1
