"""Taking the value and the standard uncertainty out of a quantity, in a wanted unit."""

from __future__ import annotations

from typing import Any

from benchlog.measure.units import Quantity, canonical


def value_in(quantity: Quantity, unit: str) -> float:
    """Return the best value in `unit`; raises pint's DimensionalityError for another dimension."""
    magnitude = _magnitude(quantity, unit)
    return float(getattr(magnitude, "nominal_value", magnitude))


def uncertainty_in(quantity: Quantity, unit: str) -> float:
    """Return the standard uncertainty in `unit`, 0 for a plain number."""
    return float(getattr(_magnitude(quantity, unit), "std_dev", 0.0))


def _magnitude(quantity: Quantity, unit: str) -> Any:
    if canonical(unit) == canonical(str(quantity.units)):
        return quantity.magnitude
    return quantity.m_as(unit)
