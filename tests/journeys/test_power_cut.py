"""Killed twenty times at random moments: nothing acknowledged is lost, the bench goes on there."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from benchlog.shelf import check_shelf, open_shelf
from benchlog.tasks.walk import Teardown
from tests.journeys.cutting import said_until_cut
from tests.small_trade import SCALE, SMALL, HandClock, small_lineup

CUTS = 20


@pytest.mark.timeout(240)
def test_power_cuts_lose_nothing(tmp_path: Path) -> None:
    chance = random.Random(20260504)
    folder = tmp_path / "shelf"
    with open_shelf(folder) as shelf:
        shelf.save_lineup(small_lineup())
        shelf.save_instrument(SCALE)
    acknowledged: set[str] = set()
    for _ in range(CUTS):
        seen = said_until_cut(
            "bench_child", folder, chance.randint(2, 25), chance.uniform(0.0, 0.05)
        )
        done = [line[1:] for line in seen if line[0] == "done"]
        acknowledged |= {line[1] for line in done}
        assert check_shelf(folder) == []
        with open_shelf(folder) as shelf:
            kept = shelf.readings("l-1")
            place = Teardown(shelf, HandClock(), SMALL, "l-1").place
        assert acknowledged <= {r.id for r in kept}
        # At most the one reading that was being stored when the power went may be there besides.
        unacknowledged = len(kept) - int(done[-1][0])
        assert unacknowledged in (0, 1)
        if not unacknowledged and seen[-1][0] != "moving":
            assert [place.station, place.attribute, place.specimen_id] == done[-1][2:]
    assert len(acknowledged) > CUTS
