"""Printed values; JCGM 100 7.2.6 rounds them to two digits of their uncertainty at most."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.errors import OurFault
from benchlog.measure.quantities import uncertainty_in, value_in
from benchlog.measure.rounding import (
    MINUS,
    bounds_text,
    exact_number,
    interval_text,
    rounded,
    short,
    unbroken,
    with_uncertainty,
)
from benchlog.measure.units import registry

ROUNDED = [
    # JCGM 100 7.2.6: 10.057 62 Ω with 27 mΩ is 10.058 Ω
    (10.05762, 0.027, "10.058", "0.027"),
    # the rest follows that rule; halves to the even digit; figures worked by hand
    (168.54709, 0.604, "168.55", "0.60"),
    (263.355, 3.150, "263.4", "3.2"),
    (263.355, 3.250, "263.4", "3.2"),
    (0.09949, 0.0996, "0.10", "0.10"),
    (0.09949, 0.0994, "0.099", "0.099"),
    (12345.0, 678.0, "12340", "680"),
    (12355.0, 678.0, "12360", "680"),
    (99.96, 9.96, "100", "10"),
    (-3.14159, 0.02, f"{MINUS}3.142", "0.020"),
    (-0.001, 0.5, "0.00", "0.50"),
    (5.0, 300.0, "0", "300"),
    (2.5e-7, 1.2e-8, "0.000000250", "0.000000012"),
    (52.0, 0.0, "52", "0"),
    (5.5, 0.0, "5.5", "0"),
    (-4.0, 0.0, f"{MINUS}4", "0"),
    (1200.0, 0.0, "1200", "0"),
    (1 / 3, 0.0, "0.3333333333", "0"),
]


@pytest.mark.parametrize(("value", "u", "text", "width"), ROUNDED)
def test_value_follows_its_uncertainty(value: float, u: float, text: str, width: str) -> None:
    assert rounded(value, u) == (text, width)


@pytest.mark.parametrize(
    ("value", "u"), [(math.nan, 1.0), (math.inf, 1.0), (1.0, math.nan), (1.0, -0.1)]
)
def test_what_is_no_number_is_our_fault(value: float, u: float) -> None:
    with pytest.raises(OurFault):
        rounded(value, u)


@given(st.floats(-1e9, 1e9), st.floats(1e-9, 1e9))
def test_two_digits_and_the_same_place(value: float, u: float) -> None:
    text, width = rounded(value, u)
    number, spread = (Decimal(t.replace(MINUS, "-")) for t in (text, width))
    assert "e" not in text.lower() + width.lower()
    assert len(spread.normalize().as_tuple().digits) <= 2
    assert abs(float(spread) - u) <= 0.0501 * u
    assert abs(float(number) - value) <= 0.0501 * float(spread) + 1e-6 * abs(value)
    places = [len(t.partition(".")[2]) for t in (text, width)]
    assert places[0] == places[1]


def test_sheet_prints_expanded_uncertainty() -> None:
    # JCGM 100 6.2: U = k·u, k = 1.960 for 95 % without a limit to the degrees of freedom
    area = registry().Quantity(ufloat(192.0, 0.55), "inch ** 2")
    assert with_uncertainty(area, "inch ** 2") == "192.0 ± 1.1 in²"
    assert short(area, "inch ** 2") == "192.0 in²"
    assert with_uncertainty(area, "centimeter ** 2") == "1238.7 ± 7.0 cm²"


def test_exact_count_has_no_plus_minus() -> None:
    assert with_uncertainty(registry().Quantity(52, "count"), "count") == "52"
    assert short(registry().Quantity(0.75, "turn"), "turn") == "0.75 turn"
    assert short(registry().Quantity(2.0, "turn"), "turn") == "2 turns"


def test_interval_is_said_as_spoken() -> None:
    assert interval_text(8.0, 11.0, "psi") == "8 to 11 psi"
    assert interval_text(-5.0, 0.123456, "mm") == f"{MINUS}5 to 0.1235 mm"
    assert interval_text(12345.0, 67890.0, "mm") == "12345 to 67890 mm"


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        # half the width to two digits as in JCGM 100 7.2.6, ends outwards; worked by hand
        (16.14, 122.5, "16 to 123"),
        (0.5056, 3.886, "0.5 to 3.9"),
        (1379.44, 2852.16, "1370 to 2860"),
        (0.129217, 0.155524, "0.129 to 0.156"),
        (-0.42, 1.7, f"{MINUS}0.42 to 1.7"),
        (66.67, 200.0, "66 to 200"),
        (8.0, 11.0, "8 to 11"),
        (0.0, 0.3, "0 to 0.3"),
    ],
)
def test_bounds_say_no_more_than_is_known(low: float, high: float, text: str) -> None:
    assert bounds_text(low, high, "dimensionless") == text


def test_bounds_that_are_one_print_once() -> None:
    assert bounds_text(16.7812, 16.7812, "millimeter ** 2 / second") == "16.78 mm²/s"


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6))
def test_printed_bounds_hold_what_was_worked_out(low: float, width: float) -> None:
    high = low + width
    said = bounds_text(low, high, "dimensionless").replace(MINUS, "-").split(" to ")
    ends = [float(end) for end in said]
    slack = 3e-9 * max(abs(low), abs(high))
    assert ends[0] <= low + slack
    assert ends[-1] >= high - slack
    assert ends[-1] - ends[0] <= 1.2 * width + slack


def test_exact_sizes_print_as_tables_do() -> None:
    # basic minor and pitch diameter of 3/4-16 UNF: ASME B1.1 prints 0.6823 and 0.7094 in, ISO 724
    # three decimals of a millimetre
    assert exact_number(17.33148077, "millimeter") == "17.331"
    assert exact_number(0.7094050563, "inch") == "0.7094"
    assert exact_number(0.00004, "inch") == "0.00004"
    minor = registry().Quantity(17.33148077, "millimeter")
    assert with_uncertainty(minor, "inch") == "0.6823 in"
    assert with_uncertainty(minor, "millimeter") == "17.331 mm"


def test_unbroken_text_holds_together() -> None:
    assert unbroken("192.0 ± 1.1 in²") == "192.0\u00a0±\u00a01.1\u00a0in²"


def test_value_and_uncertainty_come_out_in_any_unit() -> None:
    warm = registry().Quantity(ufloat(21.0, 0.5), "degree_Celsius")
    assert value_in(warm, "degree_Fahrenheit") == pytest.approx(69.8)
    assert uncertainty_in(warm, "degree_Fahrenheit") == pytest.approx(0.9)
    assert uncertainty_in(registry().Quantity(3.0, "inch"), "millimeter") == 0.0
