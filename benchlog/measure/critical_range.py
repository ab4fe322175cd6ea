"""How far apart repeats may lie, and whether one of them stands out."""

from __future__ import annotations

import math
import statistics
from collections.abc import Callable, Sequence
from functools import cache

from benchlog.measure.coverage import LEVEL, t_factor

_ENDLESS = 500
"""Degrees of freedom from which the scatter is taken as known: q moves by under 0.5 % beyond."""


@cache
def critical_range(count: int, freedom: float = math.inf, level: float = LEVEL) -> float:
    """Return the range that `count` repeats keep to with probability `level`, in units of s.

    That is the quantile of the studentized range. For a scatter that is known well it is the
    factor f(n) of ISO 5725-6:1994, 4.1.4: 2.8 for two, 3.3 for three, 3.6 for four, 3.9 for five.
    For an s of few degrees of freedom it is wider. Needs two repeats at least.
    """
    if count == 2:
        return math.sqrt(2.0) * t_factor(freedom, level)
    low, high = 0.0, 8.0
    while _holds(high, count, freedom) < level:
        low, high = high, 2.0 * high
    for _ in range(26):
        middle = (low + high) / 2.0
        below = _holds(middle, count, freedom) < level
        low, high = (middle, high) if below else (low, middle)
    return (low + high) / 2.0


def grubbs_limit(count: int, significance: float = 0.05) -> float:
    """Return Grubbs' limit for the one value farthest from the mean, in units of its own s.

    Two-sided: (n−1)/√n · √(t²/(n−2+t²)), t being Student's at 1 − α/(2n) with n − 2 degrees of
    freedom (Grubbs 1969; tabulated in ISO 5725-2:1994, Table 5). Needs three values at least.
    """
    t = t_factor(count - 2, 1.0 - significance / count)
    return (count - 1) / math.sqrt(count) * math.sqrt(t**2 / (count - 2 + t**2))


def odd_one(values: Sequence[float]) -> int | None:
    """Return the place of the value that stands out at 5 %, None where none does."""
    if len(values) < 3:
        return None
    mean, s = statistics.fmean(values), statistics.stdev(values)
    if s == 0.0:
        return None
    place = max(range(len(values)), key=lambda i: abs(values[i] - mean))
    return place if abs(values[place] - mean) / s > grubbs_limit(len(values)) else None


def _holds(width: float, count: int, freedom: float) -> float:
    """Return the probability that the studentized range stays within `width`."""
    if freedom > _ENDLESS:
        return _range_within(width, count)
    half = 0.5 * freedom
    scale = math.log(2.0) + half * math.log(half) - math.lgamma(half)

    # Over the root of s, so that steps are fine near nought, where few degrees of freedom reach.
    def at(root: float) -> float:
        s = root * root
        if s <= 0.0:
            return 0.0
        density = math.exp(scale + (freedom - 1.0) * math.log(s) - half * s * s)
        return 2.0 * root * density * _range_within(width * s, count)

    reach = 6.0 / math.sqrt(2.0 * freedom)
    return _simpson(at, math.sqrt(max(0.0, 1.0 - reach)), math.sqrt(1.0 + reach), 60)


def _range_within(width: float, count: int) -> float:
    """Return the probability that `count` normal values of s = 1 lie within `width`."""

    def at(z: float) -> float:
        inside = 0.5 * (math.erf(z / math.sqrt(2.0)) - math.erf((z - width) / math.sqrt(2.0)))
        return math.exp(-0.5 * z * z) * inside ** (count - 1)

    return count / math.sqrt(2.0 * math.pi) * _simpson(at, -6.0, 7.0, 52)


def _simpson(f: Callable[[float], float], low: float, high: float, steps: int) -> float:
    """Return the integral of `f`; `steps` is even."""
    h = (high - low) / steps
    inner = sum((4.0 if i % 2 else 2.0) * f(low + i * h) for i in range(1, steps))
    return h / 3.0 * (f(low) + inner + f(high))
