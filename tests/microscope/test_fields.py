"""Fields of a medium, and two media side by side: right rates of being wrong."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import EntryRefused
from benchlog.measure.fields_wanted import fields_wanted
from benchlog.microscope.comparing import opening_difference
from benchlog.microscope.fields import medium_mean, more_fields

FIELD_SPREAD = 0.06
"""Of one medium's D50 between fields of 1600 × 1200 pixels: 5 to 7 % on drawn mats."""


def test_mean_spread_and_interval():
    # Student's t, 0.975, 4 degrees of freedom: 2.776 (JCGM 100 Table G.2).
    got = medium_mean([0.378, 0.381, 0.379, 0.380, 0.377])
    assert got.mean == pytest.approx(0.379)
    assert got.spread == pytest.approx(0.00158114, rel=1e-5)
    assert got.half_width == pytest.approx(2.776445 * 0.00158114 / math.sqrt(5), rel=1e-5)


def test_one_field_has_no_spread():
    got = medium_mean([40.0])
    assert (got.mean, got.spread, got.half_width, got.u) == (40.0, None, None, None)
    assert more_fields([40.0], 5.0) is None


def test_no_field_is_refused():
    with pytest.raises(EntryRefused, match="No field"):
        medium_mean([])


def test_welch_against_the_published_check():
    # Welch 1947; A - B and its 95 % interval by scipy ttest_ind(equal_var=False).
    a, b = [0.378, 0.381, 0.379, 0.380, 0.377], [0.384, 0.388, 0.381, 0.386, 0.383]
    got = opening_difference(a, b)
    assert got.difference == pytest.approx(-0.0054)
    assert got.freedom == pytest.approx(6.452133, rel=1e-6)
    assert got.low == pytest.approx(-0.0087683, abs=1e-7)
    assert got.high == pytest.approx(-0.0020317, abs=1e-7)
    assert got.answer == "tighter"
    assert opening_difference(b, a).answer == "more open"


def test_unlike_light_widens_the_interval():
    a, b = [40.0, 42.0, 41.0], [45.0, 46.0, 47.0]
    plain, doubted = opening_difference(a, b), opening_difference(a, b, unlike_light=3.0)
    assert plain.answer == "tighter"
    assert doubted.answer == "cannot tell"
    assert "no larger" in doubted.why


def test_one_field_each_is_refused():
    with pytest.raises(EntryRefused, match="at least two"):
        opening_difference([40.0], [30.0, 31.0])


def test_equal_fields_differ_not_at_all():
    got = opening_difference([40.0, 40.0], [40.0, 40.0])
    assert got.answer == "cannot tell"
    assert got.difference == 0.0


def trials(
    gap: float, fields: int, spread: float = FIELD_SPREAD, stated: float | None = FIELD_SPREAD
) -> float:
    """Share of 1,000 trials in which two media, one `gap` larger, are called different."""
    count = 1000
    rng = np.random.default_rng(7)
    called = 0
    for _ in range(count):
        a = 50.0 * (1 + gap) * (1 + spread * rng.standard_normal(fields))
        b = 50.0 * (1 + spread * rng.standard_normal(fields))
        answer = opening_difference(a.tolist(), b.tolist(), sampling=stated).answer
        called += answer != "cannot tell"
    return called / count


@pytest.mark.parametrize("fields", [2, 3, 6])
@pytest.mark.parametrize("stated", [None, FIELD_SPREAD])
def test_one_medium_is_seldom_called_two(fields, stated):
    assert trials(0.0, fields, stated=stated) < 0.05


@pytest.mark.parametrize("factor", [0.5, 1.25, 1.5, 2.0, 3.0])
def test_a_spread_stated_wrong_does_little_harm(factor):
    # 0.05 and two standard errors of a share of 1,000 trials.
    assert trials(0.0, 3, spread=factor * FIELD_SPREAD) < 0.05 + 2 * (0.05 * 0.95 / 1000) ** 0.5


def test_a_fifth_apart_is_mostly_told():
    assert trials(0.20, 3) > 0.80
    assert trials(0.20, 3, stated=None) < 0.75  # what the stated spread is for
    assert trials(0.20, 4) > 0.90


def test_fields_wanted_reach_their_power():
    for gap in (0.10, 0.20):
        wanted = fields_wanted(FIELD_SPREAD, gap)
        assert wanted is not None
        # The wider medium also spreads more, which the rule of equal spreads leaves out.
        assert trials(gap, wanted) > 0.75
        assert trials(gap, wanted - 1) < 0.80


def test_more_fields_counts_those_there_are():
    values = [47.0, 53.0, 50.0]
    wanted = fields_wanted(3.0, 5.0)
    assert wanted is not None
    assert more_fields(values, 5.0) == wanted - 3
    assert more_fields(values, 50.0) == 0
    assert more_fields(values, 1e-6) is None
    assert more_fields(values, 0.0) is None


@given(st.floats(0.01, 0.2), st.floats(0.02, 0.5))
def test_smaller_gaps_take_no_fewer_fields(spread, gap):
    few, many = fields_wanted(spread, gap), fields_wanted(spread, 0.5 * gap)
    assert many is None or (few is not None and few <= many)


SOME_FIELDS = st.lists(st.floats(1, 100), min_size=2, max_size=8)


@given(SOME_FIELDS, SOME_FIELDS)
def test_swapping_turns_the_answer(a, b):
    one, other = opening_difference(a, b), opening_difference(b, a)
    assert one.difference == pytest.approx(-other.difference)
    assert one.low == pytest.approx(-other.high)
    turned = {"tighter": "more open", "more open": "tighter", "cannot tell": "cannot tell"}
    assert turned[one.answer] == other.answer
