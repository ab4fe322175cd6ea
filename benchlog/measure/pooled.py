"""Scatter pooled over several sets of repeats: two repeats alone say little."""

from __future__ import annotations

import math
import statistics
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

LEVEL = 0.99
"""Above this quantile of F a set's own scatter is taken to be larger than usual."""


@dataclass(frozen=True)
class PooledScatter:
    """The standard deviation of one reading, from several sets of repeats taken alike.

    `s` is in the attribute's unit, `freedom` its degrees of freedom Σ(nᵢ − 1), `sets` how many
    sets of two or more repeats are in it.
    """

    s: float
    freedom: int
    sets: int

    @property
    def words(self) -> str:
        """How it came about, in words."""
        sets = "1 set" if self.sets == 1 else f"{self.sets} sets"
        return f"pooled over {sets} of repeats, {self.freedom} degrees of freedom"


def pool(sets: Iterable[Sequence[float]]) -> PooledScatter | None:
    """Return s² = Σ(nᵢ−1)sᵢ² / Σ(nᵢ−1) over sets of repeats (JCGM 100 4.2.4).

    Sets of fewer than two say nothing about scatter and are left out; None when none is left.
    """
    squares, freedom, counted = 0.0, 0, 0
    for values in sets:
        if len(values) > 1:
            squares += squares_of(values)
            freedom += len(values) - 1
            counted += 1
    return PooledScatter(math.sqrt(squares / freedom), freedom, counted) if counted else None


def without(pooled: PooledScatter, values: Sequence[float]) -> PooledScatter | None:
    """Return what is left of a pooled scatter when one of its sets is taken out, None for nothing.

    A set must not be judged against a pool that it has itself widened. A pool of a single set
    with more degrees of freedom cannot hold this one, and stays.
    """
    freedom = pooled.freedom - (len(values) - 1)
    if len(values) < 2 or (pooled.sets < 2 and freedom > 0):
        return pooled
    if freedom < 1 or pooled.sets < 2:
        return None
    left = pooled.s**2 * pooled.freedom - squares_of(values)
    return PooledScatter(math.sqrt(max(left, 0.0) / freedom), freedom, pooled.sets - 1)


def scatters_more(values: Sequence[float], others: PooledScatter, level: float = LEVEL) -> bool:
    """Whether repeats scatter significantly more than others do: F test, one-sided, at 1 %."""
    if len(values) < 2:
        return False
    own = statistics.variance(values)
    if own == 0.0 or others.s == 0.0:
        return own > others.s
    from scipy.special import fdtri  # noqa: PLC0415 - slow to load

    return bool(own / others.s**2 > fdtri(len(values) - 1, others.freedom, level))


def squares_of(values: Sequence[float]) -> float:
    """Return the sum of squared deviations from the mean, worked in two passes."""
    mean = statistics.fmean(values)
    return math.fsum((value - mean) ** 2 for value in values)
