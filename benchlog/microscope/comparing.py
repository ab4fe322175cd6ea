"""Two media side by side: the difference with its interval, or that it cannot be told.

Welch's test: media may differ in how much their fields spread. Both sets come from one set-up, so
its scale error is a common factor; what its light shifts is common only as far as the fibres
look alike, and a share of it may be left in the difference.

Three fields know their own spread badly: the t factor is then so wide that a fifth is missed half
the time. But each picture also says how far its field may lie from the medium, by how many
openings it holds. Where the fields spread no more than that, both are put together, the stated
one with eight degrees of freedom, as if it were good to a quarter (JCGM 100 G.4.2). Where they
spread more, the fields alone count.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from scipy.special import stdtrit

from benchlog.errors import EntryRefused
from benchlog.measure.coverage import t_factor
from benchlog.microscope.fields import MediumMean, medium_mean

Answer = Literal["tighter", "more open", "cannot tell"]

FEWEST_FIELDS = 2

ENOUGH_FOR_STATED = 3
STATED_FREEDOM = 8

STILL_ALIKE = 1.1
"""Times the stated spread: up to here the fields do not speak against it."""


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
    first: Sequence[float],
    second: Sequence[float],
    unlike_light: float = 0.0,
    sampling: float | None = None,
) -> Difference:
    """Compare an opening size of two media, a value a field.

    `sampling` is the typical stated sampling uncertainty of one field as a share of its value
    (MediaFigure.sampling / value), used from three fields each; None goes by the fields alone.
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
    fields_u, freedom = _by_fields(a, b)
    if sampling is not None and min(a.count, b.count) >= ENOUGH_FOR_STATED:
        fields_u, freedom = _with_stated(a, b, sampling)
    u = math.hypot(fields_u, unlike_light)
    # What light may shift is not known from the fields, and limits no freedom.
    freedom = freedom * (u / fields_u) ** 4 if fields_u > 0.0 else math.inf
    half = _t(freedom) * u
    low, high = gap - half, gap + half
    answer: Answer = "tighter" if high < 0.0 else "more open" if low > 0.0 else "cannot tell"
    percent = 100.0 * gap / b.mean if b.mean else math.nan
    return Difference(gap, low, high, freedom, percent, answer, _why(answer, a.count, b.count))


def _by_fields(a: MediumMean, b: MediumMean) -> tuple[float, float]:
    """Return the standard uncertainty of the difference by the fields, and Welch's freedom."""
    ua, ub = a.u or 0.0, b.u or 0.0
    limited = ua**4 / (a.count - 1) + ub**4 / (b.count - 1)
    return math.hypot(ua, ub), (ua**2 + ub**2) ** 2 / limited if limited > 0.0 else math.inf


def _with_stated(a: MediumMean, b: MediumMean, sampling: float) -> tuple[float, float]:
    """Return uncertainty and freedom by one relative spread for both, the stated one put in."""
    own = a.count + b.count - 2
    shares = [(m.spread or 0.0) / m.mean for m in (a, b) if m.mean]
    counts = [a.count - 1, b.count - 1]
    pooled = math.fsum(n * s**2 for n, s in zip(counts, shares, strict=False)) / own
    stated = STATED_FREEDOM if pooled <= (STILL_ALIKE * sampling) ** 2 else 0
    both = math.sqrt((own * pooled + stated * sampling**2) / (own + stated))
    u = both * math.hypot(a.mean / math.sqrt(a.count), b.mean / math.sqrt(b.count))
    return u, float(own + stated)


def _t(freedom: float) -> float:
    """Return Student's factor for 95 %, without rounding down: with few fields that costs much."""
    if math.isinf(freedom):
        return t_factor(freedom)
    return float(stdtrit(max(1.0, freedom), 0.975))


def _why(answer: Answer, na: int, nb: int) -> str:
    fields = f"{na} and {nb} fields"
    if answer == "cannot tell":
        return f"By {fields}, the difference is no larger than fields of one medium differ."
    return f"By {fields}, the 95 % interval of the difference leaves out zero."
