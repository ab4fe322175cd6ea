"""Several specimens of one part: their mean, and the scatter between them."""

import math
from itertools import pairwise

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from uncertainties import ufloat

from benchlog.judge.chance import coverage_factor, expanded_gap
from benchlog.judge.groups import expanded_between, mean_of
from benchlog.judge.value_functions import middle
from benchlog.measure.part import Part, Spread, variable

# Student, Biometrika 6 (1908) 1: hours of sleep gained on two drugs; from memory, the outcome
# under Welch's formula is in the help page of R's data set `sleep`.
SLEEP = (
    [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0],
    [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
)
FEW = ([0.378, 0.381, 0.379, 0.380, 0.377], [0.384, 0.388, 0.381, 0.386, 0.383])


def floored_welch(one, other):
    """Half the width of Welch's interval, its freedom rounded down as the GUM has it."""
    found = stats.ttest_ind(one, other, equal_var=False)
    u = abs(numpy.mean(one) - numpy.mean(other)) / abs(found.statistic)
    return stats.t.isf(0.025, math.floor(found.df)) * u


def with_summary(mean, deviation, count):
    """So many numbers of exactly this mean and standard deviation."""
    raw = numpy.arange(count, dtype=float)
    return list(mean + deviation * (raw - raw.mean()) / raw.std(ddof=1))


@pytest.mark.parametrize(
    ("one", "other", "t", "freedom"),
    [
        (*SLEEP, -1.860813, 17.776474),
        (*FEW, -3.857143, 6.452133),
        # NIST/SEMATECH e-Handbook 1.3.5.3, miles a gallon of 249 and 79 cars (AUTO83B).
        (
            with_summary(20.14458, 6.41470, 249),
            with_summary(30.48101, 6.10771, 79),
            -12.94627,
            136.8750,
        ),
    ],
)
def test_scatter_of_exact_numbers_is_welchs(one, other, t, freedom):
    u = abs((numpy.mean(one) - numpy.mean(other)) / t)
    expected = stats.t.isf(0.025, math.floor(freedom)) * u
    assert expanded_between(one, other, 2) == pytest.approx(expected, rel=2e-6)


@given(
    st.lists(st.floats(-5, 5), min_size=2, max_size=6),
    st.lists(st.floats(-5, 5), min_size=2, max_size=6),
)
def test_welch_of_any_numbers_is_scipys(one, other):
    if min(numpy.std(one), numpy.std(other)) < 1e-3 or abs(numpy.mean(one) - numpy.mean(other)) < (
        1e-3
    ):
        return
    assert expanded_between(one, other, 2) == pytest.approx(floored_welch(one, other), rel=1e-6)


def test_more_parties_ask_for_more():
    widths = [expanded_between(*FEW, parties) for parties in (2, 3, 6)]
    assert all(wider > narrower for narrower, wider in pairwise(widths))


def test_two_single_specimens_are_as_ever():
    one, other = ufloat(1.0, 0.1), ufloat(2.0, 0.2)
    assert expanded_between([one], [other], 3) == expanded_gap(one - other, 3)


def measured(values, u, name, shared=0.0):
    """Specimens measured with an uncertainty each, and one error that all share."""
    if not u:
        return [value + shared for value in values]
    return [value + variable(u, Part(f"{name}{n}")) + shared for n, value in enumerate(values)]


def test_scatter_already_holds_the_measuring():
    """What each was measured with is not added to the scatter that it has caused."""
    exact = expanded_between(*FEW, 2)
    small = [measured(side, 1e-4, name) for side, name in zip(FEW, "ab", strict=True)]
    assert expanded_between(*small, 2) == pytest.approx(exact, rel=1e-12)


def test_lucky_agreement_leaves_the_measuring():
    """Three that read alike within a coarse step are no surer than one of them is."""
    step = 0.1 / math.sqrt(12)
    same = [measured([0.5] * 3, step, "a"), measured([0.6] * 3, step, "b")]
    alone = expanded_gap(ufloat(0.5, step) - ufloat(0.6, step), 2)
    assert expanded_between(*same, 2) == pytest.approx(alone, rel=1e-9)


def test_scatter_of_repeats_averages_out():
    repeats = [
        [0.5 + variable(0.01, Part(f"{s}{n}/repeats", Spread.REPEATS, 4)) for n in range(4)]
        for s in "ab"
    ]
    # Eight equal parts of four degrees of freedom each: 32 in all (JCGM 100 G.4.1).
    expected = coverage_factor(2, 32) * math.sqrt(2 * 0.01**2 / 4)
    assert expanded_between(*repeats, 2) == pytest.approx(expected, rel=1e-9)


def test_shared_error_cancels_between_parties():
    shared = variable(0.5, Part("instrument/calliper", Spread.RECTANGULAR))
    apart = [measured(side, 0.0, name, shared) for side, name in zip(FEW, "ab", strict=True)]
    assert expanded_between(*apart, 2) == pytest.approx(expanded_between(*FEW, 2), rel=1e-9)


def test_error_of_one_partys_instrument_stays():
    one = variable(0.01, Part("instrument/one", Spread.NORMAL))
    other = variable(0.02, Part("instrument/other", Spread.NORMAL))
    mine = measured([1.0, 1.0, 1.0], 0.0, "a", one)
    yours = measured([1.0, 1.0, 1.0], 0.0, "b", other)
    expected = coverage_factor(2) * math.hypot(0.01, 0.02)
    assert expanded_between(mine, yours, 2) == pytest.approx(expected, rel=1e-9)


def test_single_beside_several_brings_its_measuring():
    alone = expanded_between([ufloat(0.5, 0.03)], FEW[0], 2)
    assert alone > coverage_factor(2) * 0.03
    exact = expanded_between([0.5], FEW[0], 2)
    expected = coverage_factor(2, 4) * numpy.std(FEW[0], ddof=1) / math.sqrt(5)
    assert exact == pytest.approx(expected)


@given(
    st.lists(st.floats(0, 1), min_size=1, max_size=3),
    st.lists(st.floats(0, 1), min_size=1, max_size=3),
    st.floats(0, 0.3),
    st.floats(0, 0.3),
)
def test_more_uncertainty_never_narrows(one, other, u, more):
    widths = [
        expanded_between(measured(one, size, "a"), measured(other, size, "b"), 2)
        for size in (u, u + more)
    ]
    assert widths[1] >= widths[0] * (1 - 1e-12)


@given(st.lists(st.floats(-9, 9), min_size=1, max_size=6))
def test_mean_of_a_party_is_the_mean(values):
    assert middle(mean_of(values)) == pytest.approx(numpy.mean(values), abs=1e-12)
