"""How far two ways to one number are apart, in terms of what their uncertainties allow."""

from __future__ import annotations

import math
from typing import Any

from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.working import Formula, again
from benchlog.measure.coverage import expanded


def uncertain(formula: Formula, inputs: Inputs) -> Any | None:
    """Work a formula with the uncertain numbers themselves, correlations kept.

    For questions only: nothing of it is remembered as used. None where it cannot be worked.
    """
    apart = inputs.afresh()
    try:
        formula(apart)
        return again(formula, apart, **{key: used.number for key, used in apart.used.items()})
    except CannotWork:
        return None


def normalised_error(first: Any, second: Any) -> float:
    """Return |E_n|: the gap over its expanded uncertainty (ISO 13528, ISO/IEC 17043).

    Up to 1 the two agree within their uncertainties. What both share cancels in the gap.
    Infinite for two exact numbers that differ.
    """
    return _over(first - second)


def outside_interval(number: Any, low: float, high: float) -> float:
    """Return how far a number lies outside an interval, over its expanded uncertainty; 0 inside."""
    if _best(number) < low:
        return _over(number - low)
    return _over(number - high) if _best(number) > high else 0.0


def _over(gap: Any) -> float:
    size, allowed = abs(_best(gap)), expanded(gap)
    if allowed > 0.0:
        return size / allowed
    return math.inf if size else 0.0


def _best(number: Any) -> float:
    return float(getattr(number, "nominal_value", number))
