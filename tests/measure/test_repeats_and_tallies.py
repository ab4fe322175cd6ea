"""Repeats, their spread, and counts of the same thing. Rules of counting: common practice."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.finding import Finding
from benchlog.measure.observe import Observer
from benchlog.measure.reading import Reading, standing
from benchlog.measure.repeats import counted, degrees_of_freedom, spread, values_of
from benchlog.measure.state import MEANING, WITHOUT_VALUE, State
from benchlog.measure.tally import tally

Read = Callable[..., Reading]


def test_spread_is_largest_less_smallest(read: Read) -> None:
    readings = [read("12.0 mm"), read("0.5 in"), read("12.4 mm")]
    finding = Observer(()).observe("thing", "a", readings, "millimeter")
    assert values_of(finding) == pytest.approx([12.0, 12.7, 12.4])
    assert spread(finding) == pytest.approx(0.7)
    assert degrees_of_freedom(finding) == 2  # JCGM 100 4.2.6: n - 1


def test_single_value_has_no_spread(read: Read) -> None:
    finding = Observer(()).observe("thing", "a", [read("12.0 mm")], "millimeter")
    assert spread(finding) is None
    assert degrees_of_freedom(finding) is None


def test_without_value_there_is_no_spread() -> None:
    finding = Finding("thing", "a", State.NOT_MEASURED)
    assert values_of(finding) == []
    assert spread(finding) is None


def test_estimates_count_only_alone(read: Read) -> None:
    guess, measured = read("~7", state=State.ESTIMATE), read("5.02")
    missing = read("", state=State.SPOILED)
    assert counted([guess, measured, missing]) == [measured]
    assert counted([guess, missing]) == [guess]
    assert counted([missing]) == []


def test_correction_of_correction_leaves_the_last(read: Read) -> None:
    first = read("1.0")
    second = read("2.0", supersedes=first.id)
    third = read("3.0", supersedes=second.id)
    assert standing([first, second, third]) == [third]


TALLIES = [
    # counts, value, half-width of the rectangle, agreed
    ([52.0], 52.0, 0.0, True),
    ([52.0, 52.0], 52.0, 0.0, True),
    ([49.0, 51.0], 50.0, 1.0, False),
    ([49.0, 50.0, 50.0], 50.0, 0.5, False),
    ([49.0, 50.0, 52.0], 50.0, 1.5, False),
    ([5.5, 5.5, 6.0], 5.5, 0.25, False),
]


@pytest.mark.parametrize(("counts", "value", "half", "agreed"), TALLIES)
def test_counts_come_to_one(counts: list[float], value: float, half: float, agreed: bool) -> None:
    result = tally(counts)
    assert (result.value, result.agreed) == (value, agreed)
    assert result.uncertainty == pytest.approx(half / math.sqrt(3))  # JCGM 100 4.3.7


@given(st.lists(st.integers(0, 200).map(float), min_size=1, max_size=7), st.randoms())
def test_order_of_counting_does_not_matter(counts: list[float], random: object) -> None:
    shuffled = counts[:]
    random.shuffle(shuffled)
    assert tally(shuffled) == tally(counts)
    assert tally(counts).low <= tally(counts).value <= tally(counts).high


def test_seven_states_two_with_value() -> None:
    assert set(State) == set(MEANING)
    assert {s for s in State if s.has_value} == {State.MEASURED, State.ESTIMATE}
    assert set(WITHOUT_VALUE) == set(State) - {State.MEASURED, State.ESTIMATE}
