"""Repeats that do not agree, against ISO 5725's tables, scipy and sums by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.agreement import disagreement
from benchlog.measure.critical_range import critical_range, grubbs_limit, odd_one
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.pooled import PooledScatter

# ISO 5725-6:1994, 4.1.4, Table 1: critical range factors f(n) at 95 % (from memory)
CRITICAL = [(2, 2.8), (3, 3.3), (4, 3.6), (5, 3.9), (6, 4.0), (7, 4.2), (8, 4.3), (9, 4.4)]

# ISO 5725-2:1994, Table 5: Grubbs' critical values for one outlying value, 5 % (from memory)
GRUBBS = [
    (3, 1.155), (4, 1.481), (5, 1.715), (6, 1.887),
    (7, 2.020), (8, 2.126), (9, 2.215), (10, 2.290),
]  # fmt: skip

ROOMY = PooledScatter(0.01, 24, 8)
CALLIPER = Instrument("cal", "calliper", InstrumentKind.CALLIPER, "millimeter", 0.01, 0.02)


@pytest.mark.parametrize(("count", "factor"), CRITICAL)
def test_factors_are_those_of_iso_5725(count: int, factor: float) -> None:
    assert round(critical_range(count), 1) == factor


@pytest.mark.parametrize("count", [2, 3, 5, 10])
@pytest.mark.parametrize("freedom", [2, 4, 24, 120, math.inf])
def test_factors_agree_with_scipy(count: int, freedom: float) -> None:
    from scipy.stats import studentized_range

    expected = studentized_range.ppf(0.95, count, freedom)
    assert critical_range(count, freedom) == pytest.approx(expected, rel=1e-5)


def test_scatter_taken_as_known_moves_little() -> None:
    for count in (2, 3, 10):
        known, nearly = critical_range(count, 501), critical_range(count, 499)
        assert known == pytest.approx(nearly, rel=0.005)


@pytest.mark.parametrize(("count", "limit"), GRUBBS)
def test_grubbs_limits_are_those_of_iso_5725(count: int, limit: float) -> None:
    assert grubbs_limit(count) == pytest.approx(limit, abs=0.001)


def test_grubbs_own_data_has_an_outlier() -> None:
    # Tietjen and Moore's eight mass spectrometer readings, one outlier at 5 %: G = 2.4687, limit
    # 2.1266 in the two-sided form (NIST/SEMATECH e-Handbook 1.3.5.17.1, from memory)
    values = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]
    assert odd_one(values) == 7
    assert grubbs_limit(8) == pytest.approx(2.1266, abs=1e-4)
    assert odd_one(values[:-1]) is None


def test_equal_values_have_no_odd_one() -> None:
    assert odd_one([1.0, 1.0, 1.0]) is None
    assert odd_one([1.0, 2.0]) is None


def test_two_repeats_keep_to_the_critical_range() -> None:
    # t(24) at 97.5 % is 2.064 (JCGM 100 Table G.2): √2 · 2.064 · 0.01 = 0.02919
    assert disagreement([1.000, 1.029], "millimeter", pooled=ROOMY) is None
    said = disagreement([1.000, 1.030], "millimeter", pooled=ROOMY)
    assert said == (
        "These 2 repeats lie 0.03 mm apart; repeats like these keep within 0.02919 mm "
        "95 times in 100. Read it again before the part is put away."
    )


def test_more_repeats_may_lie_farther_apart() -> None:
    assert disagreement([1.00, 1.03], "millimeter", pooled=ROOMY) is not None
    assert disagreement([1.00, 1.02, 1.01, 1.03], "millimeter", pooled=ROOMY) is None


def test_odd_one_of_three_is_named() -> None:
    said = disagreement([0.51, 0.63, 0.51], "millimeter", pooled=ROOMY)
    assert said is not None
    assert "The second, 0.63 mm, stands out from the rest." in said


def test_nobody_is_named_where_nobody_stands_out() -> None:
    said = disagreement([0.51, 0.57, 0.63], "millimeter", pooled=ROOMY)
    assert said is not None
    assert "None of them stands out" in said


@pytest.mark.parametrize(("place", "name"), [(7, "eighth"), (8, "9th"), (10, "latest")])
def test_late_odd_ones_are_named_too(place: int, name: str) -> None:
    values = [1.0 + 0.001 * (i % 2) for i in range(11)]
    values[place] = 2.0
    assert f"The {name}, 2 mm, stands out" in str(disagreement(values, "millimeter", pooled=ROOMY))


def test_without_a_pool_the_instrument_is_the_measure() -> None:
    # one step of 0.01 and twice ±0.02 mm: 0.05 mm, which is 0.0019685 in
    assert disagreement([12.00, 12.05], "millimeter", instrument=CALLIPER) is None
    said = disagreement([12.00, 12.06], "millimeter", instrument=CALLIPER)
    assert said is not None
    assert "explains no more than 0.05 mm" in said
    assert disagreement([0.5, 0.5019], "inch", instrument=CALLIPER) is None
    assert disagreement([0.5, 0.5021], "inch", instrument=CALLIPER) is not None


def test_verified_scale_allows_more_at_load() -> None:
    # OIML R 76-1 Table 6, class III, e 1 g, in service: ±1 g to 500 g, ±2 g beyond
    scale = Instrument("s", "scale", InstrumentKind.SCALE, "gram", 1.0, 0, None, "", "III", 1.0)
    assert disagreement([300.0, 304.0], "gram", instrument=scale) is not None
    assert disagreement([700.0, 704.0], "gram", instrument=scale) is None


def test_one_step_is_never_too_far() -> None:
    silent = PooledScatter(0.0, 10, 5)
    both = {"pooled": silent, "instrument": CALLIPER}
    assert disagreement([0.51, 0.52], "millimeter", **both) is None
    assert disagreement([0.51, 0.53], "millimeter", **both) is not None


def test_nothing_known_says_nothing() -> None:
    assert disagreement([1.0, 9.0], "millimeter") is None
    assert disagreement([1.0, 9.0], "gram", instrument=CALLIPER) is None
    assert disagreement([1.0], "millimeter", pooled=ROOMY) is None


COUNTS = [
    ([52], None),
    ([52, 52], None),
    ([52, 53], "The counts are 52 and 53."),
    ([52, 53, 52], None),
    ([52, 53, 54], "The counts are 52, 53 and 54."),
    ([52, 53, 52, 53], "The counts are 52, 53, 52 and 53."),
    ([52, 53, 52, 53, 52], None),
]


@pytest.mark.parametrize(("counts", "said"), COUNTS)
def test_counts_must_be_equal_or_outvoted(counts: list[float], said: str | None) -> None:
    found = disagreement(counts, "count", pooled=ROOMY)
    assert found is None if said is None else str(found).startswith(said)


@given(st.lists(st.floats(-10, 10), min_size=2, max_size=8), st.floats(-5, 5))
def test_where_the_values_lie_plays_no_part(values: list[float], shift: float) -> None:
    wide = PooledScatter(max(1e-3, (max(values) - min(values)) / 4.5), 30, 9)
    moved = [value + shift for value in values]
    assert (disagreement(values, "millimeter", pooled=wide) is None) == (
        disagreement(moved, "millimeter", pooled=wide) is None
    )
