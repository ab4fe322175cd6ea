"""A number less what its instrument was off by: exact, and back again."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.entry import parse_entry
from benchlog.measure.estimate import estimate_interval
from benchlog.measure.reading import Said
from benchlog.measure.shifting import error_in, shifted
from tests.measure.bench_checks import CALLIPER

places = st.integers(0, 6)
numbers = places.flatmap(lambda n: st.decimals(-(10**6), 10**6, places=n))
UNITS = ["millimeter", "inch", "centimeter", "meter"]


@pytest.mark.parametrize(
    ("typed", "error", "text", "value", "ends"),
    [
        ("12.35", "0.05", "12.35 mm − 0.05 mm", "12.30", None),
        ("12.35 mm", "-0.05", "12.35 mm + 0.05 mm", "12.40", None),
        ("8-11 mm", "0.5", "(8 to 11) mm − 0.5 mm", "9.0", ("7.5", "10.5")),
        ("~5 mm", "0.05", "~5 mm − 0.05 mm", "4.95", ("4.45", "5.45")),
        ("3 7/16 in", "0.002", "3.4375 in − 0.002 in", "3.4355", None),
    ],
)
def test_shift_shows_its_sum(typed, error, text, value, ends) -> None:
    said = parse_entry(typed, "millimeter", "length")
    moved = shifted(said, Decimal(error))
    assert (moved.text, str(moved.value), moved.unit) == (text, value, said.unit)
    wanted = None if ends is None else tuple(map(Decimal, ends))
    assert (moved.low, moved.high) == (wanted or (None, None))
    assert moved.approximate == said.approximate


def test_estimate_by_state_gets_its_interval() -> None:
    moved = shifted(Said("5", Decimal(5), "millimeter"), Decimal("0.05"), estimate=True)
    assert (moved.low, moved.high) == (Decimal("4.45"), Decimal("5.45"))


def test_error_in_inches_is_rounded_finely() -> None:
    # 0.05 mm / 25.4 mm = 0.00196850... in; a hundredth of 0.01 mm is 0.0000039 in.
    assert error_in("inch", Decimal("0.05"), CALLIPER) == Decimal("0.001969")
    assert error_in("millimeter", Decimal("0.05"), CALLIPER) == Decimal("0.05")
    assert error_in("centimeter", Decimal("0.05"), CALLIPER) == Decimal("0.005")
    assert error_in("inch", Decimal(0), CALLIPER) == 0


@given(numbers, st.sampled_from(UNITS), st.sampled_from([0.0, 0.001, 0.01, 0.5]))
def test_rounding_of_the_error_is_far_below_a_step(error: Decimal, unit: str, step: float) -> None:
    tool = replace(CALLIPER, resolution=step)
    there = error_in(unit, error, tool)
    per_unit = {"millimeter": 1, "inch": Decimal("25.4"), "centimeter": 10, "meter": 1000}[unit]
    slack = max(Decimal(str(step)), abs(error) if not step else Decimal(0)) / 100
    assert abs(there * per_unit - error) <= slack


@given(numbers, numbers, st.booleans())
def test_shift_and_back_gives_the_same_numbers(value, error, estimate: bool) -> None:
    said = Said(f"{value}", value, "millimeter", approximate=estimate)
    there = shifted(said, error)
    back = shifted(there, -error)
    assert back.value == said.value
    assert there.value + error == said.value
    if estimate:
        assert (back.low, back.high) == estimate_interval(said)
        assert (there.low, there.high) == tuple(e - error for e in estimate_interval(said))
    else:
        assert (back.low, back.high) == (None, None)


@given(numbers, st.decimals(0, 1000, places=3), numbers)
def test_interval_keeps_its_width(low: Decimal, width: Decimal, error: Decimal) -> None:
    said = Said("between", low + width / 2, "millimeter", low, low + width)
    moved = shifted(said, error)
    assert moved.high - moved.low == width
    assert moved.low <= moved.value <= moved.high
