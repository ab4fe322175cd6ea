"""Shares of few cases, with the interval that they leave open."""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchlog.measure.coverage import LEVEL, t_factor


@dataclass(frozen=True)
class Share:
    """A share 0 to 1 over so many cases, and its interval, for 95 % unless it was asked wider."""

    value: float
    low: float
    high: float
    cases: int


def wilson(value: float, cases: int, level: float = LEVEL) -> Share:
    """Return a share with Wilson's score interval (J. Am. Stat. Assoc. 22 (1927) 209).

    Of yes or no, `value` is the part of yes. It may as well be the mean of parts between 0 and 1:
    those scatter by less than yes and no of the same mean, so that the interval is rather too
    wide. Raises ValueError without a case.
    """
    if cases < 1 or not 0.0 <= value <= 1.0:
        raise ValueError(f"a share of {value} over {cases} cases")
    z = t_factor(math.inf, level)
    whole = 1.0 + z**2 / cases
    centre = (value + z**2 / (2.0 * cases)) / whole
    half = z / whole * math.sqrt(value * (1.0 - value) / cases + z**2 / (4.0 * cases**2))
    low, high = max(centre - half, 0.0), min(centre + half, 1.0)
    return Share(value, 0.0 if value == 0.0 else low, 1.0 if value == 1.0 else high, cases)


def apart(one: Share, other: Share) -> tuple[float, float]:
    """Return the interval of one share less another of other cases.

    Newcombe's method 10, from the ends of Wilson's intervals (Statistics in Medicine 17 (1998)
    873).
    """
    gap = one.value - other.value
    below = math.hypot(one.value - one.low, other.high - other.value)
    above = math.hypot(one.high - one.value, other.value - other.low)
    return gap - below, gap + above


def paired(gaps: list[float], level: float = LEVEL) -> Share:
    """Return the mean of differences between -1 and 1, one a case, with its interval.

    Brought to 0 to 1 these are parts, to which Wilson's interval applies. Raises ValueError
    without a case.
    """
    mean = math.fsum(gaps) / len(gaps) if gaps else math.nan
    found = wilson(min(max((mean + 1.0) / 2.0, 0.0), 1.0) if gaps else 0.0, len(gaps), level)
    return Share(mean, 2.0 * found.low - 1.0, 2.0 * found.high - 1.0, found.cases)
