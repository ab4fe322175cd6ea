"""Numbers as they are printed: metric first, with the interval that is drawn beside them."""

from __future__ import annotations

import math
from dataclasses import dataclass

import pint

from benchlog.errors import OurFault
from benchlog.measure.quantities import expanded_in, value_in
from benchlog.measure.rounding import (
    NO_BREAK,
    exact_number,
    rounded,
    unbroken,
    with_uncertainty,
)
from benchlog.measure.units import Quantity, unit_symbol

PLURAL = {"turn": "turns", "month": "months"}


@dataclass(frozen=True)
class Spread:
    """A value and the ends of its printed interval, in one unit."""

    value: float
    low: float
    high: float
    unit: str


def spread(quantity: Quantity, unit: str) -> Spread:
    """Return a quantity in `unit` with its 95 % interval; in its own unit when `unit` is "".

    A unit of another dimension gives way to the quantity's own, so that a number is never lost.
    """
    name = unit if unit and _speaks(quantity, unit) else str(quantity.units)
    value, half = value_in(quantity, name), expanded_in(quantity, name)
    return Spread(value, value - half, value + half, name)


def _speaks(quantity: Quantity, unit: str) -> bool:
    try:
        return math.isfinite(value_in(quantity, unit))
    except (pint.PintError, OurFault):
        return False


def number(shown: Spread) -> str:
    """Return "76.21 ± 0.04", or the bare number when it is exact."""
    value, half = rounded(shown.value, shown.high - shown.value)
    return exact_number(shown.value, shown.unit) if half == "0" else f"{value} ± {half}"


def symbol(unit: str) -> str:
    """Return the printed symbol of a unit; the name itself when the registry lacks it."""
    if not unit:
        return ""
    try:
        return PLURAL.get(unit) or unit_symbol(unit).replace("money", "price")
    except OurFault:
        return unit.replace("_", " ")


def number_with_unit(quantity: Quantity, unit: str) -> str:
    """Return "76.21 ± 0.04 mm", which a narrow column may break before the ± and nowhere else."""
    shown = spread(quantity, unit)
    if shown.low == shown.high:
        exact = with_uncertainty(quantity, unit).partition(" ")
        return unbroken(exact_number(shown.value, shown.unit) + exact[1] + exact[2])
    value, _, half = with_uncertainty(quantity, unit).partition(" ± ")
    return unbroken(value) + (f" ±{NO_BREAK}{unbroken(half)}" if half else "")
