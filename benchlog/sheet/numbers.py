"""Numbers as they are printed: metric first, with the interval that is drawn beside them."""

from __future__ import annotations

import math
from dataclasses import dataclass

import pint

from benchlog.errors import OurFault
from benchlog.measure.quantities import uncertainty_in, value_in
from benchlog.measure.rounding import COVERAGE, NO_BREAK, rounded, unbroken, with_uncertainty
from benchlog.measure.units import Quantity, unit_symbol

WHOLE_AT_MOST = 16
"""Characters of a number that never break across lines; wider ones may, between their parts."""

PLURAL = {"turn": "turns"}


@dataclass(frozen=True)
class Spread:
    """A value and the ends of its printed interval, in one unit."""

    value: float
    low: float
    high: float
    unit: str


def spread(quantity: Quantity, unit: str) -> Spread:
    """Return a quantity in `unit` with its expanded interval; in its own unit when `unit` is "".

    A unit of another dimension gives way to the quantity's own, so that a number is never lost.
    """
    name = unit if unit and _speaks(quantity, unit) else str(quantity.units)
    value, half = value_in(quantity, name), COVERAGE * uncertainty_in(quantity, name)
    return Spread(value, value - half, value + half, name)


def _speaks(quantity: Quantity, unit: str) -> bool:
    try:
        return math.isfinite(value_in(quantity, unit))
    except (pint.PintError, OurFault):
        return False


def number(shown: Spread) -> str:
    """Return "76.21 ± 0.04", or the bare number when it is exact."""
    value, half = rounded(shown.value, shown.high - shown.value)
    return value if half == "0" else f"{value} ± {half}"


def symbol(unit: str) -> str:
    """Return the printed symbol of a unit; the name itself when the registry lacks it."""
    if not unit:
        return ""
    try:
        return PLURAL.get(unit) or unit_symbol(unit)
    except OurFault:
        return unit.replace("_", " ")


def number_with_unit(quantity: Quantity, unit: str) -> str:
    """Return "76.21 ± 0.04 mm"; a number that is likely to fit a column never breaks inside."""
    said = with_uncertainty(quantity, unit)
    number_text, _, mark = said.rpartition(" ")
    if not number_text:
        return said
    held = unbroken(number_text) if len(number_text) <= WHOLE_AT_MOST else number_text
    joint = NO_BREAK if len(said) <= WHOLE_AT_MOST else " "
    return f"{held}{joint}{mark}"
