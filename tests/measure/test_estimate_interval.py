"""How wide a number is that was only said; "about 5" is 4.5 to 5.5 (common practice, no source)."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.entry import estimate_interval, parse_entry, step_said

ABOUT = [
    ("~5", "4.5", "5.5"),
    ("about 0.5", "0.45", "0.55"),
    ("~5.0", "4.95", "5.05"),
    ("~10", "9.5", "10.5"),
    ("~20", "19", "21"),
    ("~150", "145", "155"),
    ("~200", "190", "210"),
    ("~147", "146.5", "147.5"),
    ("~1/2", "0.25", "0.75"),
    ("~3 7/16", "3.40625", "3.46875"),
    ("~8-11", "8", "11"),
    ("5 +/- 2", "3", "7"),
    ("~0", "-0.5", "0.5"),
]


@pytest.mark.parametrize(("text", "low", "high"), ABOUT)
def test_estimate_gets_its_interval(text: str, low: str, high: str) -> None:
    said = parse_entry(text, "inch", "length")
    assert estimate_interval(said) == (Decimal(low), Decimal(high))


STEPS = [
    ("287.4 g", "0.1"),
    ("287.40 g", "0.01"),
    ("287 g", "1"),
    ("1e3 g", "1"),
    ("1 lb 3.5 oz", "0.1"),
]


@pytest.mark.parametrize(("text", "step"), STEPS)
def test_step_is_the_last_digit(text: str, step: str) -> None:
    assert step_said(parse_entry(text, "gram", "mass")) == Decimal(step)


@pytest.mark.parametrize(
    ("text", "parts"), [("7/16", 16), ("3 1/2 in", 2), ("3¾″", 4), ("4' 1 3/8\"", 8)]
)
def test_fraction_steps_by_its_bottom(text: str, parts: int) -> None:
    assert step_said(parse_entry(text, "inch", "length")) == Decimal(1) / parts


@given(st.decimals(Decimal("0.001"), Decimal("99999"), allow_nan=False, places=3))
def test_interval_holds_the_number(number: Decimal) -> None:
    said = parse_entry(f"~{number}", "gram", "mass")
    low, high = estimate_interval(said)
    assert low < said.value < high
    assert high - said.value == said.value - low
    assert high - said.value >= step_said(said) / 2
