"""Standard uncertainties of single inputs, as JCGM 100:2008 evaluates them."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from typing import Any

from uncertainties import ufloat


def of_repeats(values: Sequence[float]) -> float:
    """Return s/sqrt(n), the standard uncertainty of the mean (Type A; JCGM 100 4.2.3).

    0 for a single value, which says nothing about scatter. The few repeats of a bench make s
    itself unsure: it has n - 1 degrees of freedom (JCGM 100 4.2.6), and whoever states an
    interval for few repeats has Table G.2 to widen it by.
    """
    if len(values) < 2:
        return 0.0
    return statistics.stdev(values) / math.sqrt(len(values))


def of_half_width(half: float) -> float:
    """Return a/sqrt(3) for a value known only to lie within plus or minus a (JCGM 100 4.3.7)."""
    return half / math.sqrt(3)


def of_resolution(step: float) -> float:
    """Return d/sqrt(12) for a display that steps by d (JCGM 100 F.2.2.1)."""
    return of_half_width(step / 2)


def exact(value: float) -> Any:
    """Return an `uncertainties` number that is exactly `value`.

    Made from a variable that cancels, because the library warns of variables without spread.
    """
    return 0.0 * ufloat(0.0, 1.0) + value


def spread_about(value: float, parts: Sequence[tuple[float, str]]) -> Any:
    """Return `value` with one independent variable for each (standard uncertainty, tag).

    Parts of no size are left out; the tags come back in the number's `error_components()`.
    """
    total = exact(value)
    for size, tag in parts:
        if size > 0.0:
            total = total + ufloat(0.0, size, tag=tag)
    return total
