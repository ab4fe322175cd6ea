"""How far apart is far enough: the level of a whole line-up, and the freedom behind a gap."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from benchlog.judge.chance import FAMILY_LEVEL, METHOD, coverage_factor, expanded_gap, judged_by
from benchlog.measure.part import Part, Spread, variable

# Welch's two samples in mm (five repeats each); Welch, Biometrika 34 (1947) 28.
FIRST = (0.378, 0.381, 0.379, 0.380, 0.377)
SECOND = (0.384, 0.388, 0.381, 0.386, 0.383)


def scatter(size, freedom):
    return variable(size, Part("a/repeats", Spread.REPEATS, freedom))


def limit(size):
    return variable(size, Part("a/resolution", Spread.RECTANGULAR))


def mean(values):
    middle = sum(values) / len(values)
    squares = sum((value - middle) ** 2 for value in values)
    size = math.sqrt(squares / (len(values) - 1) / len(values))
    return middle + scatter(size, len(values) - 1)


# JCGM 100 Table G.2: t for 95 %, and its last row for any number of repeats.
@pytest.mark.parametrize(
    ("freedom", "k"),
    [(1, 12.706), (2, 4.303), (3, 3.182), (4, 2.776), (9, 2.262), (50, 2.009), (math.inf, 1.960)],
)
def test_one_pair_takes_the_table(freedom, k):
    assert coverage_factor(2, freedom) == pytest.approx(k, abs=6e-4)


# Bonferroni's t for a family level of 5 %: Dunn, J. Amer. Statist. Assoc. 56 (1961) 52, from
# memory; 2.394 and 2.935 are the normal quantiles for 3 and 15 pairs.
@pytest.mark.parametrize(
    ("specimens", "freedom", "k"),
    [(1, math.inf, 1.960), (2, math.inf, 1.960), (3, math.inf, 2.394), (6, math.inf, 2.935),
     (3, 10, 2.870), (3, 5, 3.534)],
)  # fmt: skip
def test_pairs_share_the_level(specimens, freedom, k):
    assert coverage_factor(specimens, freedom) == pytest.approx(k, abs=6e-4)


@pytest.mark.parametrize("specimens", [2, 3, 4, 5, 6])
@pytest.mark.parametrize("freedom", [1, 2, 4, 8, 30])
def test_scipy_gives_the_same_factor(specimens, freedom):
    pairs = math.comb(specimens, 2)
    theirs = stats.t.isf(0.05 / pairs / 2, freedom)
    assert coverage_factor(specimens, freedom) == pytest.approx(theirs, rel=1e-9)


def test_words_name_level_and_method():
    assert FAMILY_LEVEL == 0.05
    assert "Student" in METHOD
    assert "Bonferroni" in METHOD


def test_gap_of_repeats_is_welchs():
    """Welch's 6.45 degrees of freedom are rounded down to 6 (JCGM 100 G.4.1 note 1)."""
    gap = mean(FIRST) - mean(SECOND)
    theirs = stats.ttest_ind(FIRST, SECOND, equal_var=False)
    assert theirs.df == pytest.approx(6.452133, abs=1e-5)
    half = stats.t.isf(0.025, 6) * gap.std_dev
    assert expanded_gap(gap, 2) == pytest.approx(half, rel=1e-9)
    published = (0.0087683 - 0.0020317) / 2  # 95 % interval with 6.452133 degrees of freedom
    assert published < expanded_gap(gap, 2) < 1.02 * published


def test_gap_of_limits_is_normal():
    gap = limit(3.0) - limit(4.0)
    assert expanded_gap(gap, 2) == pytest.approx(1.959964 * 5.0, rel=1e-6)


def test_shared_part_cancels_and_frees_nothing():
    common = scatter(5.0, 1)
    gap = (common + limit(3.0)) - (common + limit(4.0))
    assert expanded_gap(gap, 2) == pytest.approx(1.959964 * 5.0, rel=1e-6)


def test_exact_gap_has_no_width():
    assert expanded_gap(0.3, 6) == 0.0
    common = limit(1.0)
    assert expanded_gap(common - common, 6) == 0.0


sizes = st.floats(0.001, 10)
freedoms = st.integers(1, 30)


@given(sizes, freedoms, sizes, freedoms, sizes, st.floats(1, 20), st.integers(2, 6))
def test_coarser_instrument_never_narrows_a_gap(one, few, other, many, limits, more, specimens):
    repeats = scatter(one, few) - scatter(other, many)
    narrow = expanded_gap(repeats + limit(limits), specimens)
    assert expanded_gap(repeats + limit(limits * more), specimens) >= narrow
    assert expanded_gap(repeats, specimens) <= narrow


@given(sizes, freedoms, sizes, st.floats(1, 20), st.integers(2, 6))
def test_more_scatter_never_narrows_a_gap(one, few, limits, more, specimens):
    narrow = expanded_gap(scatter(one, few) + limit(limits), specimens)
    assert expanded_gap(scatter(one * more, few) + limit(limits), specimens) >= narrow


@given(sizes, freedoms, sizes, st.floats(1e-3, 1e3))
def test_unit_scales_a_gap(one, few, limits, factor):
    gap = scatter(one, few) + limit(limits)
    assert expanded_gap(factor * gap, 3) == pytest.approx(factor * expanded_gap(gap, 3), rel=1e-9)


@given(sizes, freedoms, sizes, st.integers(2, 5))
def test_more_specimens_ask_for_more(one, few, limits, specimens):
    gap = scatter(one, few) - limit(limits)
    assert expanded_gap(gap, specimens + 1) > expanded_gap(gap, specimens)


def test_sentence_names_level_pairs_and_method():
    assert judged_by(2) == "Level: 5 % for the one pair, by Student's t."
    assert judged_by(4) == (
        "Level: 5 % for all 6 pairs together, by Student's t, shared out by Bonferroni."
    )
