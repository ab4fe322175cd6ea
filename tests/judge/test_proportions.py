"""Shares and their intervals, against scipy and against Newcombe's printed table."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from benchlog.judge.proportions import apart, paired, wilson


@given(st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_interval_is_scipys_wilson(case):
    won, cases = case
    theirs = binomtest(won, cases).proportion_ci(0.95, method="wilson")
    found = wilson(won / cases, cases)
    assert (found.low, found.high) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


# R. G. Newcombe, Statistics in Medicine 17 (1998) 873, table II, method 10: the eight examples.
@pytest.mark.parametrize(
    ("one", "other", "low", "high"),
    [
        ((56, 70), (48, 80), 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.1705, 0.8090),
        ((6, 7), (2, 7), 0.0582, 0.8062),
        ((5, 56), (0, 29), -0.0381, 0.1926),
        ((0, 10), (0, 20), -0.1611, 0.2775),
        ((0, 10), (0, 10), -0.2775, 0.2775),
        ((10, 10), (0, 20), 0.6791, 1.0),
        ((10, 10), (0, 10), 0.6075, 1.0),
    ],
)
def test_difference_is_newcombes(one, other, low, high):
    found = apart(wilson(one[0] / one[1], one[1]), wilson(other[0] / other[1], other[1]))
    assert found == pytest.approx((low, high), abs=6e-5)


def test_paired_yes_or_no_is_wilson_of_who_won():
    """In line-ups of two one wins what the other loses: the gap is 2 p - 1."""
    found = paired([1.0] * 12 + [-1.0] * 4)
    who = wilson(12 / 16, 16)
    assert found.value == pytest.approx(2 * who.value - 1)
    assert (found.low, found.high) == pytest.approx((2 * who.low - 1, 2 * who.high - 1))


@given(st.lists(st.floats(-1, 1), min_size=1, max_size=30))
def test_paired_interval_holds_its_mean(gaps):
    found = paired(gaps)
    assert -1 - 1e-12 <= found.low <= found.value + 1e-9
    assert found.value - 1e-9 <= found.high <= 1 + 1e-12
    assert found.cases == len(gaps)


@given(st.lists(st.floats(-1, 1), min_size=1, max_size=30))
def test_turned_pairs_turn_the_interval(gaps):
    one, other = paired(gaps), paired([-gap for gap in gaps])
    assert (one.low, one.high) == pytest.approx((-other.high, -other.low), abs=1e-9)


@pytest.mark.parametrize(("value", "cases"), [(0.5, 0), (1.2, 5), (-0.1, 5)])
def test_impossible_share_is_refused(value, cases):
    with pytest.raises(ValueError, match="a share of"):
        wilson(value, cases)


def test_mean_of_no_pairs_is_refused():
    with pytest.raises(ValueError, match="0 cases"):
        paired([])
