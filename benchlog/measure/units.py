"""The one unit registry, conversion to SI and between units, and how units are printed."""

from __future__ import annotations

import tokenize
from decimal import Decimal
from functools import cache
from typing import Any, TypeAlias

import pint

from benchlog.errors import OurFault
from benchlog.measure.dimensions import ALIKE, DIMENSIONS, UNITLESS

Quantity: TypeAlias = "pint.Quantity[Any]"

SYMBOLS = {
    "count": "",
    "dimensionless": "",
    "money": "",
    "turn": "turn",
    "thou": "thou",
    "percent": "%",
    "pound_force_per_square_inch": "psi",
    "millimeter_H2O": "mmH₂O",
    "centimeter_H2O": "cmH₂O",
    "inch_H2O": "inH₂O",
    "millimeter_Hg": "mmHg",
    "pound": "lb",
    "ounce": "oz",
    "grain": "gr",
    "carat": "ct",
    "force_pound": "lbf",
    "force_ounce": "ozf",
    "force_kilogram": "kgf",
    "force_gram": "gf",
    "milliliter": "mL",
    "liter": "L",
    "milliliter / hour": "mL/h",
    "milliliter / minute": "mL/min",
    "liter / minute": "L/min",
    "liter / hour": "L/h",
    "gallon / minute": "US gal/min",
    "gallon / hour": "US gal/h",
    "fluid_ounce / hour": "US fl oz/h",
    "foot / minute": "ft/min",
    "inch_Hg": "inHg",
    "force_kilogram / centimeter ** 2": "kgf/cm²",
    "force_kilogram / millimeter": "kgf/mm",
    "liter / meter ** 2 / second": "L/(m²·s)",
    "ounce / yard ** 2": "oz/yd²",
    "pound / foot ** 3": "lb/ft³",
    "meter * newton": "N·m",
    "foot * force_pound": "ft·lbf",
    "force_pound * inch": "in·lbf",
    "minute": "min",
    "day": "d",
    "year": "year",
    "money / year": "money/year",
    "kilometer / year": "km/year",
    "money / decimeter ** 2": "money/100 cm²",
}
"""Printed symbols where the registry's own short form is not what the trade writes."""


_NOT_A_UNIT = (
    pint.errors.PintError,
    tokenize.TokenError,
    ArithmeticError,
    AttributeError,
    TypeError,
    ValueError,
)
"""All that the registry raises for a text that is no unit."""


@cache
def registry() -> pint.UnitRegistry[Any]:
    """Return the program's only unit registry; made on first use because it is slow to make.

    It knows `money` as a base unit, so that an area per price stays a quantity.
    """
    made: pint.UnitRegistry[Any] = pint.UnitRegistry(cache_folder=":auto:")
    made.define("money = [money]")
    return made


@cache
def canonical(unit: str) -> str:
    """Return the registry's own spelling of a unit name; raises OurFault for an unknown one."""
    try:
        return str(registry().Unit(unit))
    except _NOT_A_UNIT as error:
        raise OurFault(f"'{unit}' is not a unit that the registry knows") from error


@cache
def dimension_of(unit: str) -> str:
    """Return the plain word for what a unit measures ("length"), "" when there is none."""
    name = canonical(unit)
    if name in UNITLESS:
        return UNITLESS[name]
    wanted = registry().Unit(name).dimensionality
    for word, dimension in DIMENSIONS.items():
        if dimension.si_unit in UNITLESS:
            continue
        if registry().Unit(dimension.si_unit).dimensionality == wanted:
            return word
    return ""


def same_dimension(first: str, second: str) -> bool:
    """Whether values in the two units may be added: both lengths, both counts.

    Counts, turns and ratios are all bare numbers to the registry; here only those are alike
    that a reviewer could mean by one another (a turn and an angle). A difference of temperatures
    is no temperature: 10 °F more is 5.56 K more, and 10 °F is 260.9 K.
    """
    if _is_difference(first) != _is_difference(second) and (_shifts(first) or _shifts(second)):
        return False
    one, other = dimension_of(first), dimension_of(second)
    if one and other:
        return one == other or frozenset((one, other)) in ALIKE
    return bool(registry().Unit(first).dimensionality == registry().Unit(second).dimensionality)


def _is_difference(unit: str) -> bool:
    return canonical(unit).startswith("delta_")


def _shifts(unit: str) -> bool:
    """Whether a unit's nought is not that of its SI unit."""
    return _factor(canonical(unit), si_unit(unit)) is None


@cache
def si_unit(unit: str) -> str:
    """Return the name of the SI unit in which values said in `unit` are kept."""
    word = dimension_of(unit)
    if word:
        return DIMENSIONS[word].si_unit
    return str(registry().Quantity(1.0, unit).to_base_units().units)


@cache
def _factor(from_unit: str, to_unit: str) -> Decimal | None:
    """Return what to multiply by, None for scales with a shifted zero.

    Fifteen digits: legal factors (25.4, 0.45359237) have fewer and come out exact.
    """
    zero = float(registry().Quantity(0.0, from_unit).m_as(to_unit))
    if zero != 0.0:
        return None
    return Decimal(f"{float(registry().Quantity(1.0, from_unit).m_as(to_unit)):.15g}")


def to_si(value: Decimal, unit: str) -> tuple[float, str]:
    """Return a value said in `unit` as the nearest float in the dimension's SI unit, and that unit.

    Raises OurFault for a unit the registry does not know.
    """
    target = si_unit(unit)
    factor = _factor(canonical(unit), target)
    if factor is None:
        return float(registry().Quantity(float(value), unit).m_as(target)), target
    return float(value * factor), target


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """Return `value` in another unit; raises OurFault when the two do not measure the same."""
    if not same_dimension(from_unit, to_unit):
        raise OurFault(f"{from_unit} cannot be turned into {to_unit}")
    if canonical(from_unit) == canonical(to_unit):
        return value
    return float(registry().Quantity(value, from_unit).m_as(to_unit))


@cache
def unit_symbol(unit: str) -> str:
    """Return the printed symbol of a unit: mm, in, g/m², psi; "" for counts and bare numbers."""
    name = canonical(unit)
    # Registries differ in which of Unicode's two signs for micro they print; print one of them.
    return SYMBOLS.get(name, f"{registry().Unit(name):~P}").replace("\u03bc", "\u00b5")
