"""Two media side by side: the difference with its interval, or that it cannot be told.

Welch's test: media may differ in how much their fields spread. Both sets come from one set-up, so
its scale error is a common factor; what its light shifts is common only as far as the fibres
look alike, and a share of it stays in the difference.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from benchlog.errors import EntryRefused
from benchlog.measure.coverage import t_factor
from benchlog.microscope.fields import medium_mean

Answer = Literal["tighter", "more open", "cannot tell"]

FEWEST_FIELDS = 2


@dataclass(frozen=True)
class Difference:
    """How much larger the first medium's figure is, and what may be said of it.

    `low` and `high` bound the 95 % interval of the difference, `freedom` is Welch's; `percent` is
    the difference of the second's mean. `why` says in words what the answer rests on.
    """

    difference: float
    low: float
    high: float
    freedom: float
    percent: float
    answer: Answer
    why: str


def opening_difference(
    first: Sequence[float], second: Sequence[float], unlike_light: float = 0.0
) -> Difference:
    """Compare an opening size of two media, a value a field.

    `unlike_light` is the standard uncertainty of what light and edges shift one medium against
    the other, in the unit of the values. Raises EntryRefused without two fields of each.
    """
    if min(len(first), len(second)) < FEWEST_FIELDS:
        raise EntryRefused(
            "A comparison needs at least two measured fields of each medium.",
            "Take more pictures, at places apart from one another.",
        )
    a, b = medium_mean(first), medium_mean(second)
    gap = a.mean - b.mean
    ua, ub = a.u or 0.0, b.u or 0.0
    u = math.sqrt(ua**2 + ub**2 + unlike_light**2)
    freedom = _welch(ua, a.count, ub, b.count, u)
    half = t_factor(freedom) * u
    low, high = gap - half, gap + half
    answer: Answer = "tighter" if high < 0.0 else "more open" if low > 0.0 else "cannot tell"
    percent = 100.0 * gap / b.mean if b.mean else math.nan
    return Difference(gap, low, high, freedom, percent, answer, _why(answer, a.count, b.count))


def _welch(ua: float, na: int, ub: float, nb: int, u: float) -> float:
    """Return Welch's degrees of freedom; what is not known from fields limits them not."""
    limited = ua**4 / (na - 1) + ub**4 / (nb - 1)
    return u**4 / limited if limited > 0.0 else math.inf


def _why(answer: Answer, na: int, nb: int) -> str:
    fields = f"{na} and {nb} fields"
    if answer == "cannot tell":
        return f"By {fields}, the difference is no larger than fields of one medium differ."
    return f"By {fields}, the 95 % interval of the difference leaves out zero."
