"""Scratching right after a whole group was corrected."""

from __future__ import annotations

import pytest

from benchlog.errors import EntryRefused
from benchlog.measure.check import Remedy
from benchlog.shelf import SqlShelf
from benchlog.tasks.group_correct import correct_group, take_back_group
from tests.small_trade import HandClock
from tests.tasks.check_scenes import DriftingBench


@pytest.fixture
def bench(shelf: SqlShelf, clock: HandClock) -> DriftingBench:
    made = DriftingBench(shelf, clock)
    made.read("12.35")
    made.read("12.40")
    return made


def shift(bench: DriftingBench) -> str:
    failed = bench.check("0.05")
    done = correct_group(bench.shelf, bench.clock, "l-1", failed.id, Remedy.SHIFT, "a chip")
    bench.walk.reload()
    return done.id


def test_shifted_reading_is_not_scratched_by_surprise(bench: DriftingBench) -> None:
    shift(bench)
    with pytest.raises(EntryRefused, match=r"whole group.*under Checks"):
        bench.walk.scratch_last()
    assert bench.values() == ["12.30", "12.35"]


def test_own_reading_after_it_is_scratched_and_no_more(bench: DriftingBench) -> None:
    shift(bench)
    bench.read("12.50")
    bench.walk.scratch_last()
    assert bench.values() == ["12.30", "12.35"]
    with pytest.raises(EntryRefused, match="whole group"):
        bench.walk.scratch_last()


def test_reading_put_back_by_a_group_is_not_scratched(bench: DriftingBench) -> None:
    done = shift(bench)
    take_back_group(bench.shelf, bench.clock, "l-1", done, "no")
    bench.walk.reload()
    with pytest.raises(EntryRefused, match=r"took the correction.*back.*under Verdict"):
        bench.walk.scratch_last()
    assert bench.values() == ["12.35", "12.40"]


def test_scratch_before_the_group_can_still_be_put_back(bench: DriftingBench) -> None:
    bench.read("12.50")
    bench.walk.scratch_last()
    bench.walk.put_back()
    bench.walk.scratch_last()
    assert bench.values() == ["12.35", "12.40"]
