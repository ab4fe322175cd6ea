"""Sums of `uncertainties` numbers, laid out at once.

The library keeps a sum as it was written and multiplies it out when asked; what is made here is
multiplied out already, which for many small sums is the faster way to the same number. The order
of the parts, and with it the last digit of an uncertainty, does not depend on who asks first.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from uncertainties.core import AffineScalarFunc, LinearCombination


def scaled(number: Any, factor: float, shift: float = 0.0) -> Any:
    """Return factor × number + shift."""
    if not isinstance(number, AffineScalarFunc):
        return factor * number + shift
    parts = {part: factor * slope for part, slope in number.derivatives.items()}
    return AffineScalarFunc(factor * number.nominal_value + shift, LinearCombination(parts))


def about(value: float, moves: Iterable[tuple[float, Any]]) -> Any:
    """Return `value` moved by each number's deviation from its best value, times a factor.

    `moves` are (factor, number). A plain float where no number is uncertain or every factor is 0.
    """
    parts: dict[Any, float] = {}
    uncertain = False
    for factor, number in moves:
        if factor and isinstance(number, AffineScalarFunc):
            uncertain = True
            for part, slope in number.derivatives.items():
                parts[part] = parts.get(part, 0.0) + factor * slope
    return AffineScalarFunc(value, LinearCombination(parts)) if uncertain else value
