"""How far to either side of a value 95 % lies: coverage factors from degrees of freedom."""

from __future__ import annotations

import math
from functools import cache
from statistics import NormalDist
from typing import Any

from benchlog.measure.part import part_of

LEVEL = 0.95
"""Level of confidence of every ± that is printed."""


def degrees_of_freedom(number: Any) -> float:
    """Return the effective degrees of freedom of an `uncertainties` number, infinite if none limit.

    Welch-Satterthwaite over its independent parts: u⁴ / Σ (uᵢ⁴ / νᵢ) (JCGM 100 G.4.1). Parts
    that two numbers share have cancelled in their difference before this is asked. Parts sized
    by one common estimate of scatter are one term: their variances are added first.
    """
    if not hasattr(number, "error_components"):
        return math.inf
    variance, limited = 0.0, 0.0
    pooled: dict[tuple[str, float], float] = {}
    for part, size in number.error_components().items():
        known = part_of(part.tag)
        variance += size**2
        if known.estimate:
            key = known.estimate, known.freedom
            pooled[key] = pooled.get(key, 0.0) + size**2
        else:
            limited += size**4 / known.freedom
    limited += sum(square**2 / freedom for (_, freedom), square in pooled.items())
    return variance**2 / limited if limited > 0.0 else math.inf


@cache
def t_factor(freedom: float, level: float = LEVEL) -> float:
    """Return the two-sided factor of Student's t (JCGM 100 Table G.2).

    `freedom` is rounded down to a whole number, as G.4.1 note 1 advises, and is at least 1;
    infinite freedom gives the normal quantile (1.960 for 95 %).
    """
    if math.isinf(freedom):
        return NormalDist().inv_cdf((1.0 + level) / 2.0)
    from scipy.special import stdtrit  # noqa: PLC0415 - slow to load, and often not needed

    # A hair above: freedom that is whole but for the last digit of a sum is whole.
    return float(stdtrit(max(1, math.floor(freedom + 1e-9)), (1.0 + level) / 2.0))


def coverage_factor(number: Any, level: float = LEVEL) -> float:
    """Return the factor k that widens a number's standard uncertainty to `level`."""
    return t_factor(degrees_of_freedom(number), level)


def expanded(number: Any, level: float = LEVEL) -> float:
    """Return the expanded uncertainty U = k·u of a number, 0 for an exact one."""
    u = float(getattr(number, "std_dev", 0.0))
    return coverage_factor(number, level) * u if u > 0.0 else 0.0
