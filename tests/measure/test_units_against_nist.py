"""Conversion against NIST SP 811, appendix B.8 (figures from memory; bold ones there are exact)."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import OurFault
from benchlog.measure.dimensions import DIMENSIONS
from benchlog.measure.units import (
    canonical,
    convert,
    dimension_of,
    registry,
    same_dimension,
    si_unit,
    to_si,
    unit_symbol,
)

EXACT = [
    # said, unit, SI value
    ("1", "inch", 0.0254),
    ("1", "foot", 0.3048),
    ("1", "thou", 2.54e-5),
    ("1", "ounce", 0.028349523125),
    ("1", "pound", 0.45359237),
    ("1", "grain", 6.479891e-5),
    ("1", "carat", 2e-4),
    ("1", "bar", 1e5),
    ("1", "force_kilogram", 9.80665),
    ("1", "inch ** 2", 6.4516e-4),
    ("1", "millimeter_H2O", 9.80665),
    ("1", "hour", 3600.0),
    ("287.4", "gram", 0.2874),
    ("3.52", "inch", 0.089408),
    ("21", "degree_Celsius", 294.15),
]


@pytest.mark.parametrize(("said", "unit", "expected"), EXACT)
def test_exact_factors_come_out_exact(said: str, unit: str, expected: float) -> None:
    assert to_si(Decimal(said), unit)[0] == expected


ROUNDED = [
    ("pound_force_per_square_inch", "pascal", 6894.757),
    ("force_pound", "newton", 4.448222),
    ("force_ounce", "newton", 0.2780139),
    ("inch_H2O", "pascal", 249.0889),
    ("centimeter_H2O", "pascal", 98.06650),
    ("ounce / yard ** 2", "gram / meter ** 2", 33.90575),
    ("pound / foot ** 3", "kilogram / meter ** 3", 16.01846),
    ("foot * force_pound", "meter * newton", 1.355818),
    ("force_pound / inch", "newton / meter", 175.1268),
]


@pytest.mark.parametrize(("unit", "other", "expected"), ROUNDED)
def test_rounded_factors_agree_to_seven_digits(unit: str, other: str, expected: float) -> None:
    assert convert(1.0, unit, other) == pytest.approx(expected, rel=5e-7)


def test_temperatures_shift_their_nought() -> None:
    # NIST SP 811 appendix B.8: t/°C = (t/°F - 32)/1.8
    assert convert(212.0, "degree_Fahrenheit", "degree_Celsius") == pytest.approx(100.0)
    assert convert(0.0, "degree_Celsius", "kelvin") == pytest.approx(273.15)


def test_turn_is_three_hundred_sixty_degrees() -> None:
    assert convert(0.75, "turn", "degree") == pytest.approx(270.0)


@given(st.decimals(Decimal("-9999"), Decimal("9999"), allow_nan=False, places=4))
def test_inches_are_the_nearest_float(number: Decimal) -> None:
    assert to_si(number, "inch")[0] == float(Fraction(number) * Fraction(254, 10_000))


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_order_survives_conversion(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert convert(low, "inch", "millimeter") <= convert(high, "inch", "millimeter")


ALIKE = [
    ("inch", "micrometer", True),
    ("psi", "millimeter_H2O", True),
    ("turn", "degree", True),
    ("count", "dimensionless", True),
    ("count", "turn", False),
    ("turn", "percent", False),
    ("gram", "force_gram", False),
    ("gram / meter ** 2", "gram / centimeter ** 3", False),
    ("inch / money", "millimeter / money", True),
]


@pytest.mark.parametrize(("one", "other", "alike"), ALIKE)
def test_dimensions_are_told_apart(one: str, other: str, alike: bool) -> None:
    assert same_dimension(one, other) is alike
    assert same_dimension(other, one) is alike


def test_other_dimension_is_our_fault() -> None:
    with pytest.raises(OurFault):
        convert(1.0, "gram", "inch")


@pytest.mark.parametrize("unit", ["furlongish", "inch / nothingness", "1/0", "(", "3 inch"])
def test_unknown_unit_is_our_fault(unit: str) -> None:
    with pytest.raises(OurFault):
        to_si(Decimal(1), unit)


SYMBOLS = [
    ("millimeter", "mm"),
    ("inch", "in"),
    ("inch**2", "in²"),
    ("gram/meter**2", "g/m²"),
    ("gram / centimeter ** 3", "g/cm³"),
    ("psi", "psi"),
    ("pound_force_per_square_inch", "psi"),
    ("kilopascal", "kPa"),
    ("milliliter/hour", "mL/h"),
    ("newton*meter", "N·m"),
    ("degree_Celsius", "°C"),
    ("micrometer", "µm"),
    ("count", ""),
    ("dimensionless", ""),
    ("", ""),
]


@pytest.mark.parametrize(("unit", "symbol"), SYMBOLS)
def test_symbols_are_the_trades(unit: str, symbol: str) -> None:
    assert unit_symbol(unit) == symbol


@pytest.mark.parametrize("word", DIMENSIONS)
def test_every_dimension_keeps_its_si_unit(word: str) -> None:
    unit = DIMENSIONS[word].si_unit
    assert canonical(si_unit(unit)) == canonical(unit)
    assert dimension_of(unit) in {word, "ratio"}
    assert to_si(Decimal("2.5"), unit) == (2.5, unit)


def test_unlisted_dimension_goes_to_base_units() -> None:
    value, unit = to_si(Decimal(2), "watt")
    assert value == 2.0
    assert registry().Unit(unit) == registry().Unit("kilogram * meter ** 2 / second ** 3")


def test_registry_is_the_only_one() -> None:
    assert registry() is registry()
    total = registry().Quantity(1.0, "inch") + registry().Quantity(1.0, "millimeter")
    assert total.m_as("millimeter") == pytest.approx(26.4)
