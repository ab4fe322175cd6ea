"""Histograms on common edges: no share is lost, and each counts alike."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.fields_wanted import fields_wanted
from benchlog.measure.histograms import averaged, common_edges


def test_bins_are_split_where_edges_cut_them() -> None:
    assert averaged([((0.0, 2.0, 4.0), (0.6, 0.4))], (0.0, 1.0, 3.0, 4.0)) == pytest.approx(
        (0.3, 0.5, 0.2)
    )


def test_each_histogram_counts_alike() -> None:
    one, other = ((0.0, 1.0), (1.0,)), ((0.0, 1.0, 2.0), (0.0, 1.0))
    edges = common_edges([one, other], 2)
    assert edges == (0.0, 1.0, 2.0)
    assert averaged([one, other], edges) == (0.5, 0.5)


def test_nothing_comes_to_nothing() -> None:
    assert common_edges([], 4) == ()
    assert averaged([], (0.0, 1.0)) == ()
    assert averaged([((0.0, 1.0), (1.0,))], ()) == ()


@given(st.lists(st.floats(0.0, 1.0), min_size=1, max_size=9), st.floats(0.5, 90.0))
def test_no_share_is_lost(shares: list[float], width: float) -> None:
    own = tuple(width * number for number in range(len(shares) + 1))
    edges = common_edges([(own, shares)], 24)
    assert math.fsum(averaged([(own, shares)], edges)) == pytest.approx(math.fsum(shares))


def test_light_of_its_own_takes_more_fields() -> None:
    plain = fields_wanted(6.0, 20.0)
    assert plain is not None
    lit = fields_wanted(6.0, 20.0, beside=8.0)
    strict = fields_wanted(6.0, 20.0, level=1 - 0.05 / 3)
    told = fields_wanted(6.0, 20.0, stated=True)
    assert lit is not None
    assert strict is not None
    assert told is not None
    assert told <= plain <= min(lit, strict)
    assert lit > plain
    assert fields_wanted(6.0, 20.0, beside=20.0) is None


def test_two_fields_bear_no_statement_out() -> None:
    """Two of each medium leave 2 + 2 degrees of freedom, three of each 4 + 8.

    t for 95 % and 0.80 (JCGM 100 Table G.2 and a table of Student's t): 2.78 and 0.94 at 4, so
    that two want 3.72 · s · √(2/2); 2.18 and 0.87 at 12, so that three want 3.05 · s · √(2/3).
    """
    assert fields_wanted(6.0, 3.75 * 6.0, stated=True) == 2
    assert fields_wanted(6.0, 3.65 * 6.0, stated=True) == 3
    assert fields_wanted(6.0, 2.50 * 6.0, stated=True) == 3
    assert fields_wanted(6.0, 2.45 * 6.0, stated=True) == 4
