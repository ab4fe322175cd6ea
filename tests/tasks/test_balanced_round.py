"""A line-up may ask for turns at being first; the round at each station then has its own order."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.shelf import SqlShelf
from benchlog.tasks.plan import fresh_specimen
from benchlog.tasks.slots import asked_at, balanced_stations, round_of
from benchlog.tasks.walk import Teardown
from benchlog.trade.specimen import Lineup
from tests.small_trade import SMALL, HandClock, small_lineup
from tests.tasks.fair_scenes import SPIN_ON, spin_on_lineup


def of_size(size: int, **more: object) -> Lineup:
    return spin_on_lineup(specimens=tuple(fresh_specimen(n) for n in range(size)), **more)


@given(st.integers(1, 6), st.sets(st.sampled_from([a.key for a in SPIN_ON.attributes])))
def test_turns_are_shared_over_the_stations(size: int, attributes: set[str]) -> None:
    asked = tuple(a.key for a in SPIN_ON.attributes if a.key in attributes)
    lineup = of_size(size, attributes=asked)
    orders = balanced_stations(SPIN_ON, lineup)
    assert set(orders) == {s.key for s in SPIN_ON.stations if asked_at(SPIN_ON, lineup, s.key)}
    ids = [specimen.id for specimen in lineup.specimens]
    assert all(sorted(order) == sorted(ids) for order in orders.values())
    for place in range(size):
        there = Counter(order[place] for order in orders.values())
        assert max(there.values(), default=0) - min(there.get(one, 0) for one in ids) <= 1


@pytest.mark.parametrize("size", [2, 3, 4, 5, 6])
def test_usual_bench_gives_nobody_the_first_place(size: int) -> None:
    lineup = of_size(size)
    orders = list(balanced_stations(SPIN_ON, lineup).values())
    firsts = Counter(order[0] for order in orders)
    assert len(firsts) == size
    pairs = Counter(pair for order in orders for pair in pairwise(order))
    most = -(-len(orders) * (size - 1) // (size * (size - 1)))
    assert max(pairs.values()) <= most + 2


@pytest.mark.parametrize("by_specimen", [False, True])
def test_balanced_round_asks_the_same_in_another_order(by_specimen: bool) -> None:
    plain, turned = spin_on_lineup(), spin_on_lineup(balanced=True)
    moved = 0
    for station in SPIN_ON.stations:
        usual = round_of(SPIN_ON, plain, station.key, by_specimen=by_specimen)
        other = round_of(SPIN_ON, turned, station.key, by_specimen=by_specimen)
        assert sorted(usual, key=str) == sorted(other, key=str)
        moved += usual != other
        if other:
            order = balanced_stations(SPIN_ON, turned)[station.key]
            assert tuple(dict.fromkeys(slot.specimen_id for slot in other)) == order
    assert moved > len(SPIN_ON.stations) / 3


def test_bench_walks_the_balanced_round(shelf: SqlShelf, clock: HandClock) -> None:
    lineup = small_lineup(balanced=True)
    shelf.save_lineup(lineup)
    bench = Teardown(shelf, clock, SMALL, "l-1")
    bench.go_to_station("before")
    order = balanced_stations(SMALL, lineup)["before"]
    assert order != tuple(one.id for one in lineup.specimens)
    walked = []
    for _ in order:
        assert bench.slot is not None
        walked.append(bench.slot.specimen_id)
        bench.accept("yes")
    assert tuple(walked) == order
