"""Coverage factors and degrees of freedom: JCGM 100:2008, annex G."""

from __future__ import annotations

import copy
import math
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.measure.coverage import coverage_factor, degrees_of_freedom, expanded, t_factor
from benchlog.measure.part import Part, Spread, part_of, variable
from benchlog.measure.uncertainty import exact

# JCGM 100 Table G.2: degrees of freedom, t for 90, 95 and 99 % (from memory; agreed with scipy)
TABLE_G2 = [
    (1, 6.31, 12.71, 63.66), (2, 2.92, 4.30, 9.92), (3, 2.35, 3.18, 5.84),
    (4, 2.13, 2.78, 4.60), (5, 2.02, 2.57, 4.03), (6, 1.94, 2.45, 3.71),
    (7, 1.89, 2.36, 3.50), (8, 1.86, 2.31, 3.36), (9, 1.83, 2.26, 3.25),
    (10, 1.81, 2.23, 3.17), (11, 1.80, 2.20, 3.11), (12, 1.78, 2.18, 3.05),
    (13, 1.77, 2.16, 3.01), (14, 1.76, 2.14, 2.98), (15, 1.75, 2.13, 2.95),
    (16, 1.75, 2.12, 2.92), (17, 1.74, 2.11, 2.90), (18, 1.73, 2.10, 2.88),
    (19, 1.73, 2.09, 2.86), (20, 1.72, 2.09, 2.85), (25, 1.71, 2.06, 2.79),
    (30, 1.70, 2.04, 2.75), (35, 1.69, 2.03, 2.72), (40, 1.68, 2.02, 2.70),
    (45, 1.68, 2.01, 2.69), (50, 1.68, 2.01, 2.68), (100, 1.660, 1.984, 2.626),
    (math.inf, 1.645, 1.960, 2.576),
]  # fmt: skip


@pytest.mark.parametrize("row", TABLE_G2, ids=lambda row: f"{row[0]}")
def test_factors_are_those_of_table_g2(row: tuple[float, float, float, float]) -> None:
    freedom, *factors = row
    for level, factor in zip((0.90, 0.95, 0.99), factors, strict=True):
        assert t_factor(freedom, level) == pytest.approx(factor, abs=0.0051)


@given(st.floats(1.0, 1e6), st.floats(0.5, 0.999))
def test_factors_agree_with_scipy_rounded_down(freedom: float, level: float) -> None:
    from scipy.stats import t

    # G.4.1, note 1: degrees of freedom are cut to the next lower whole number
    expected = t.ppf((1 + level) / 2, math.floor(freedom + 1e-9))
    assert t_factor(freedom, level) == pytest.approx(expected, rel=1e-9)


def test_freedom_under_one_counts_as_one() -> None:
    assert t_factor(0.4) == t_factor(1.0)
    assert t_factor(2.9999999999) == t_factor(3.0)


def sized(*parts: tuple[float, float, str]) -> object:
    """A sum of independent parts: size, degrees of freedom, common estimate."""
    total = exact(10.0)
    for n, (size, freedom, estimate) in enumerate(parts):
        total = total + variable(size, Part(f"p{n}", Spread.NORMAL, freedom, estimate))
    return total


def test_gum_h1_comparison_by_welch_satterthwaite() -> None:
    # JCGM 100 H.1.6: 5.8 nm (24), 3.9 nm (5), 6.7 nm (8); 25.6 with u rounded to 9.7
    freedom = degrees_of_freedom(sized((5.8, 24, ""), (3.9, 5, ""), (6.7, 8, "")))
    by_hand = (5.8**2 + 3.9**2 + 6.7**2) ** 2 / (5.8**4 / 24 + 3.9**4 / 5 + 6.7**4 / 8)
    assert freedom == pytest.approx(by_hand)
    assert freedom * (9.7**2 / (5.8**2 + 3.9**2 + 6.7**2)) ** 2 == pytest.approx(25.6, abs=0.05)


def test_one_part_keeps_its_freedom() -> None:
    assert degrees_of_freedom(sized((0.3, 4, ""))) == pytest.approx(4.0)
    # 10 ± t₉₅(4)·0.3, Table G.2: 2.776
    assert expanded(sized((0.3, 4, ""))) == pytest.approx(0.3 * 2.776, abs=2e-4)


def test_endless_parts_lend_freedom_without_end() -> None:
    both = sized((1.0, 4, ""), (1.0, math.inf, ""))
    assert degrees_of_freedom(both) == pytest.approx(16.0)  # (1 + 1)² / (1/4)
    assert math.isinf(degrees_of_freedom(sized((1.0, math.inf, ""))))
    assert coverage_factor(sized((1.0, math.inf, ""))) == pytest.approx(1.959964, abs=1e-6)


def test_parts_of_one_estimate_count_once() -> None:
    apart = sized((1.0, 4, ""), (1.0, 4, ""))
    together = sized((1.0, 4, "pool"), (1.0, 4, "pool"))
    assert degrees_of_freedom(apart) == pytest.approx(8.0)
    assert degrees_of_freedom(together) == pytest.approx(4.0)
    assert degrees_of_freedom(sized((1.0, 4, "pool"), (1.0, 9, "other"))) == pytest.approx(
        4 / (1 / 4 + 1 / 9)
    )


def test_what_cancels_limits_nothing() -> None:
    shared = variable(1.0, Part("shared", Spread.REPEATS, 1))
    own = variable(1.0, Part("own", Spread.REPEATS, 9))
    assert degrees_of_freedom((own + shared) - shared) == pytest.approx(9.0)


def test_exact_numbers_have_no_width() -> None:
    assert (expanded(52.0), expanded(exact(3.0))) == (0.0, 0.0)
    assert math.isinf(degrees_of_freedom(52.0))


def test_foreign_numbers_count_as_normal() -> None:
    assert expanded(ufloat(1.0, 0.5)) == pytest.approx(0.98, abs=1e-3)
    assert part_of(None) == "other"
    assert part_of("bench").spread is Spread.NORMAL


def test_parts_survive_copies() -> None:
    part = Part("thing/a/repeats", Spread.REPEATS, 4, "pool")
    for made in (pickle.loads(pickle.dumps(part)), copy.deepcopy(part)):
        assert (made, made.spread, made.freedom, made.estimate) == (
            part, Spread.REPEATS, 4, "pool",
        )  # fmt: skip


sizes = st.lists(st.tuples(st.floats(1e-3, 1e3), st.floats(1, 1e3)), min_size=1, max_size=6)


@given(sizes)
def test_freedom_lies_between_the_least_and_the_sum(parts: list[tuple[float, float]]) -> None:
    # JCGM 100 G.4.1: νeff ≤ Σνᵢ; and no less than the least of them
    found = degrees_of_freedom(sized(*((size, freedom, "") for size, freedom in parts)))
    assert min(f for _, f in parts) * (1 - 1e-9) <= found <= sum(f for _, f in parts) * (1 + 1e-9)
