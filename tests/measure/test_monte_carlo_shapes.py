"""Draws of single numbers: shapes, correlations, intervals; JCGM 101:2008 and sums by hand."""

from __future__ import annotations

import math
import tracemalloc
from typing import Any

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.measure.coverage import t_factor
from benchlog.measure.monte_carlo import (
    BLOCK,
    Draws,
    interval,
    interval_and_noise,
    numerical_tolerance,
)
from benchlog.measure.part import Part, Spread, variable

DRAWS = Draws(400_000, seed=7)


def one(spread: Spread, size: float = 1.0, freedom: float = math.inf, name: str = "x") -> Any:
    return variable(size, Part(name, spread, freedom))


# Standard deviation 1 each; ends of the middle 95 % in closed form: normal 1.959964; rectangular
# 0.95·√3; arcsine √2·sin(0.95·π/2) (JCGM 101 6.4.2, 6.4.6, 6.4.7)
SHAPES = [
    (Spread.NORMAL, 1.959964),
    (Spread.RECTANGULAR, 0.95 * math.sqrt(3)),
    (Spread.ARCSINE, math.sqrt(2) * math.sin(0.95 * math.pi / 2)),
]


@pytest.mark.parametrize(("spread", "end"), SHAPES)
def test_shapes_have_their_spread_and_ends(spread: Spread, end: float) -> None:
    drawn = DRAWS.of(5.0 + 2.0 * one(spread))
    assert drawn.mean() == pytest.approx(5.0, abs=0.015)
    assert drawn.std() == pytest.approx(2.0, rel=0.005)
    assert interval(drawn) == pytest.approx((5.0 - 2.0 * end, 5.0 + 2.0 * end), abs=0.03)


def test_hard_limits_are_never_passed() -> None:
    for spread, limit in ((Spread.RECTANGULAR, math.sqrt(3)), (Spread.ARCSINE, math.sqrt(2))):
        drawn = DRAWS.of(one(spread))
        assert abs(drawn).max() <= limit * (1 + 1e-12)
        assert abs(drawn).max() > 0.999 * limit


@pytest.mark.parametrize("freedom", [1, 2, 4, 9])
def test_few_repeats_draw_a_scaled_t(freedom: int) -> None:
    # JCGM 101 6.4.9.2: ends at ± t·s/√n, t from JCGM 100 Table G.2
    low, high = interval(DRAWS.of(10.0 + one(Spread.REPEATS, 0.5, freedom)))
    t = t_factor(freedom)
    assert (low, high) == pytest.approx((10.0 - 0.5 * t, 10.0 + 0.5 * t), abs=0.03 * t)


def test_t_spreads_by_its_freedom() -> None:
    # JCGM 101 6.4.9.5: variance (n−1)/(n−3) · s²/n, here n = 10
    drawn = DRAWS.of(one(Spread.REPEATS, 1.0, 9))
    assert drawn.std() == pytest.approx(math.sqrt(9 / 7), rel=0.01)


def test_sizes_without_a_part_count_as_normal() -> None:
    assert interval(DRAWS.of(ufloat(1.0, 0.5))) == pytest.approx((0.02, 1.98), abs=0.01)


def test_shared_variables_cancel_to_the_last_digit() -> None:
    shared, draws = one(Spread.NORMAL, name="shared"), Draws(1000)
    first, second = 3.0 + shared, 1.0 + shared
    apart = draws.of(first) - draws.of(second)
    assert apart == pytest.approx(numpy.full(1000, 2.0))
    assert abs(draws.of(first + second) - (draws.of(first) + draws.of(second))).max() < 1e-12


def test_like_named_variables_stay_apart() -> None:
    draws = Draws(100_000)
    alike, other = one(Spread.NORMAL), one(Spread.NORMAL)
    assert abs(numpy.corrcoef(draws.of(alike), draws.of(other))[0, 1]) < 0.02
    nameless = ufloat(0, 1), ufloat(0, 1)
    assert abs(numpy.corrcoef(*(draws.of(n) for n in nameless))[0, 1]) < 0.02


def test_parts_of_one_estimate_widen_together() -> None:
    # (z₁ − z₂)/√2 over one common s is a t of that s's degrees of freedom, here 2: 4.303
    parts = [Part(name, Spread.REPEATS, 2, "pool") for name in ("a", "b")]
    apart = (variable(1.0, parts[0]) - variable(1.0, parts[1])) / math.sqrt(2)
    assert interval(DRAWS.of(apart)) == pytest.approx((-4.303, 4.303), abs=0.08)


def test_same_seed_draws_the_same_in_any_order() -> None:
    one_way, other_way = Draws(1000, seed=3), Draws(1000, seed=3)
    a, b = one(Spread.NORMAL, name="a"), one(Spread.RECTANGULAR, name="b")
    first = one_way.of(a), one_way.of(b)
    second = other_way.of(b), other_way.of(a)
    assert (first[0] == second[1]).all()
    assert (first[1] == second[0]).all()
    assert (Draws(1000, seed=4).of(a) != first[0]).any()


def test_blocks_leave_no_seam() -> None:
    number = one(Spread.REPEATS, 1.0, 3) + one(Spread.NORMAL, name="y")
    short, long = Draws(BLOCK + 5).of(number), Draws(2 * BLOCK + 9).of(number)
    assert (short == long[: BLOCK + 5]).all()


def test_exact_number_is_the_same_in_every_trial() -> None:
    assert (Draws(10).of(52.0) == 52.0).all()
    assert (Draws(10).of(ufloat(2.0, 1.0) * 0 + 3.0) == 3.0).all()


def test_shortest_interval_leans_with_the_draws() -> None:
    # x² of a standard normal: the shortest 95 % start at nought and end at 1.96² = 3.8415; the
    # symmetric ones run from 0.03135² to 2.2414² (normal quantiles at 51.25 and 98.75 %)
    drawn = DRAWS.of(one(Spread.NORMAL)) ** 2
    assert interval(drawn, shortest=True) == pytest.approx((0.0, 3.8415), abs=0.04)
    assert interval(drawn) == pytest.approx((0.03133**2, 2.2414**2), abs=0.04)


@given(st.lists(st.floats(-1e6, 1e6), min_size=40, max_size=200))
def test_interval_holds_its_share(values: list[float]) -> None:
    drawn = numpy.array(values)
    for shortest in (False, True):
        low, high = interval(drawn, shortest=shortest)
        inside = ((drawn >= low) & (drawn <= high)).sum()
        assert inside >= 0.95 * len(values) - 1e-9
    short, even = (interval(drawn, shortest=s) for s in (True, False))
    assert short[1] - short[0] <= even[1] - even[0]


@settings(max_examples=5, deadline=None)
@given(st.integers(0, 10_000))
def test_ends_scatter_by_their_noise(seed: int) -> None:
    # 20 runs about 1.959964: their root mean square is the noise, ± its own scatter of 16 %
    number = one(Spread.NORMAL)
    runs = [interval_and_noise(Draws(20_000, seed=seed + n).of(number)) for n in range(20)]
    noise = numpy.mean([run[2] for run in runs])
    off = [abs(end) - 1.959964 for run in runs for end in run[:2]]
    assert 0.5 * noise < math.sqrt(numpy.mean(numpy.square(off))) < 1.6 * noise


# JCGM 101 7.9.2, its examples: a mass with u = 0.000 35 g to two digits and to one, a temperature
# with u = 2 K to one (from memory); the rest by the same rule
TOLERANCES = [
    (0.00035, 2, 0.000005), (0.00035, 1, 0.00005), (2.0, 2, 0.05), (2.0, 1, 0.5),
    (0.0754, 1, 0.005), (0.0754, 2, 0.0005), (0.096, 1, 0.05), (32.0, 2, 0.5), (502.0, 1, 50.0),
]  # fmt: skip


@pytest.mark.parametrize(("u", "digits", "tolerance"), TOLERANCES)
def test_tolerance_is_half_the_last_digit(u: float, digits: int, tolerance: float) -> None:
    assert numerical_tolerance(u, digits) == pytest.approx(tolerance, rel=1e-12)


def test_a_million_draws_stay_small() -> None:
    number = sum(one(Spread.RECTANGULAR, name=f"x{n}") for n in range(20))
    tracemalloc.start()
    try:
        drawn = Draws(1_000_000).of(number)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert drawn.nbytes == 8_000_000
    assert peak < 40e6
