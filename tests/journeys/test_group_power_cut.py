"""Killed in the middle of correcting a group: all of its readings are superseded, or none."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from benchlog.measure.check import CheckMoment
from benchlog.measure.reading import standing
from benchlog.shelf import check_shelf, open_shelf
from benchlog.tasks.checks import check_instrument
from benchlog.tasks.walk import Teardown
from tests.journeys.cutting import said_until_cut
from tests.small_trade import SMALL, TAPE, HandClock, small_lineup

CUTS = 8
READINGS = 12


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A shelf with a bracket of a tape that failed its closing check."""
    with open_shelf(tmp_path / "shelf") as shelf:
        shelf.save_lineup(small_lineup())
        shelf.save_instrument(TAPE)
        bench = Teardown(shelf, HandClock(), SMALL, "l-1")
        bench.go_to("media_length", "s-a")
        for number in range(READINGS):
            bench.go_to("media_length", "s-a")
            bench.accept(f"{1400 + number} mm")
        check_instrument(shelf, HandClock(), "l-1", TAPE.id, CheckMoment.CLOSING, "3 mm")
    return tmp_path / "shelf"


@pytest.mark.timeout(120)
def test_power_cut_leaves_whole_groups(folder: Path) -> None:
    chance = random.Random(20261125)
    acknowledged: list[str] = []
    for _ in range(CUTS):
        seen = said_until_cut("group_child", folder, 1, chance.uniform(0.02, 0.2))
        acknowledged += [" ".join(line) for line in seen[1:]]
        assert check_shelf(folder) == []
        with open_shelf(folder, read_only=True) as view:
            readings = view.readings("l-1")
            made = view.group_corrections("l-1")
        assert set(acknowledged) <= {one.id for one in made}
        assert len(readings) == READINGS * (1 + len(made))
        for one in made:
            assert sum(r.group == one.id for r in readings) == READINGS
        left = 3 if len(made) % 2 else 0
        values = [r.said.value for r in standing(readings) if r.said]
        assert values == [1400 + n - left for n in range(READINGS)]
    assert len(acknowledged) > CUTS
