"""How many fields of each medium it takes to tell a wanted difference."""

from __future__ import annotations

import math

from benchlog.measure.coverage import LEVEL, t_factor
from benchlog.measure.field_scatter import joined_freedom

FEWEST = 2
POWER_BOTH_WAYS = 0.6
"""Two-sided level whose t quantile is that of 0.80 one way: four times out of five."""


def fields_wanted(
    spread: float,
    difference: float,
    most: int = 200,
    *,
    level: float = LEVEL,
    beside: float = 0.0,
    media: int = 2,
    stated: bool = False,
) -> int | None:
    """Return how many fields of each of two media tell `difference` apart four times out of five.

    Both spread alike between fields. n grows until what must be exceeded and the t₀.₈₀ · s · √(2/n)
    by which the fields may fall short of it are together at most the difference (Guenther's
    iteration of the textbook rule). What must be exceeded is t · s · √(2/n) at the `level` of one
    pair, joined in quadrature with the half-width `beside`, which no field makes smaller. Degrees
    of freedom are `media` · (n − 1), and where `spread` rests on what pictures state as well, those
    with which `field_scatter` joins a statement to so many fields. None when more than `most`
    would be needed.
    """
    if difference <= 0.0:
        return None
    for count in range(FEWEST, most + 1):
        own = media * (count - 1)
        freedom = own + (joined_freedom(own) if stated else 0)
        scatter = spread * math.sqrt(2.0 / count)
        limit = math.hypot(t_factor(freedom, level) * scatter, beside)
        if limit + t_factor(freedom, POWER_BOTH_WAYS) * scatter <= difference:
            return count
    return None
