"""Taking the value and the standard uncertainty out of a quantity, in a wanted unit."""

from __future__ import annotations

from functools import cache
from typing import Any

from benchlog.measure.coverage import LEVEL, expanded
from benchlog.measure.linear import scaled
from benchlog.measure.units import Quantity, canonical, convert, si_unit


def value_in(quantity: Quantity, unit: str) -> float:
    """Return the best value in `unit`; raises pint's DimensionalityError for another dimension."""
    magnitude = _magnitude(quantity, unit)
    return float(getattr(magnitude, "nominal_value", magnitude))


def uncertainty_in(quantity: Quantity, unit: str) -> float:
    """Return the standard uncertainty in `unit`, 0 for a plain number."""
    return float(getattr(_magnitude(quantity, unit), "std_dev", 0.0))


def expanded_in(quantity: Quantity, unit: str, level: float = LEVEL) -> float:
    """Return the expanded uncertainty in `unit`: k by the degrees of freedom, 95 % unless asked."""
    return expanded(_magnitude(quantity, unit), level)


def si_number(quantity: Quantity) -> Any:
    """Return the number behind a quantity in its dimension's SI unit, uncertainty and all."""
    return scaled(quantity.magnitude, *_to_si(unit_of(quantity)))


def unit_of(quantity: Quantity) -> str:
    """Return the registry's name of a quantity's unit; the name is spelt out once a unit."""
    return _spelt(tuple(quantity.unit_items()), quantity)


def _spelt(items: tuple[Any, ...], quantity: Quantity) -> str:
    known = _SPELT.get(items)
    if known is None:
        known = _SPELT[items] = str(quantity.units)
    return known


_SPELT: dict[tuple[Any, ...], str] = {}


@cache
def _to_si(unit: str) -> tuple[float, float]:
    """Return what to multiply by and what to add, to come from `unit` to its SI unit."""
    shift = convert(0.0, unit, si_unit(unit))
    return convert(1.0, unit, si_unit(unit)) - shift, shift


def _magnitude(quantity: Quantity, unit: str) -> Any:
    if canonical(unit) == canonical(unit_of(quantity)):
        return quantity.magnitude
    return quantity.m_as(unit)
