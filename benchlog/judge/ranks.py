"""Who comes first, as shares of many trials: rank acceptability and what goes with it.

After SMAA-2: Lahdelma and Salminen, Operations Research 49 (2001) 444. Loads numpy; import it
only where ranks are wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy

Array: TypeAlias = "numpy.ndarray[Any, numpy.dtype[numpy.float64]]"

LEVEL_NOISE = 1e-9
"""Points this close are level: they differ by the last digits of a sum only."""


@dataclass(frozen=True)
class RankShares:
    """How often each of several specimens takes each rank.

    All are in the order in which the specimens came. `acceptability[i][r]` is the share of
    trials in which specimen i takes rank r, 0 being the first: every row and every column sums
    to 1. `before[i][j]` is the share in which i comes before j. `central[i]` are the mean
    weights of those trials in which i is first, the weights that typically speak for it, and
    `confidence[i]` is the share of trials in which it is first under just those weights; None
    where it is never first. Specimens level with each other share their ranks evenly.
    """

    acceptability: tuple[tuple[float, ...], ...]
    before: tuple[tuple[float, ...], ...]
    central: tuple[tuple[float, ...] | None, ...]
    confidence: tuple[float | None, ...]
    trials: int


def rank_shares(values: Array, weights: Array) -> RankShares:
    """Return the ranks of specimens under drawn values and weights.

    `values` are what each criterion is worth, shaped (specimens, criteria, trials); `weights`
    (criteria, trials), or (criteria, 1) where they are fixed; each trial's sum to 1. Raises
    ValueError for shapes that do not belong together.
    """
    count, criteria, trials = values.shape
    if weights.shape not in {(criteria, trials), (criteria, 1)} or not count * criteria * trials:
        raise ValueError(f"weights {weights.shape} do not belong to values {values.shape}")
    totals = numpy.einsum("sct,ct->st", values, numpy.broadcast_to(weights, (criteria, trials)))
    above, level = _standing(totals)
    shares = _shares_of_ranks(above, level)
    first = numpy.where(above == 0, 1.0 / (level + 1.0), 0.0)
    central = _central(first, weights)
    return RankShares(
        acceptability=tuple(map(tuple, shares.tolist())),
        before=tuple(tuple(_before(one, other) for other in totals) for one in totals),
        central=central,
        confidence=tuple(_confidence(values, i, own) for i, own in enumerate(central)),
        trials=trials,
    )


def simplex_weights(fixed: Sequence[float | None], trials: int, seed: int) -> Array:
    """Return weights shaped (criteria, trials), or (criteria, 1) when every one is fixed.

    What is fixed keeps its share; those that are None divide the rest evenly over all ways of
    dividing it, by normed exponentials (Devroye 1986, chapter V theorem 2.2; from memory). All
    fixed, they are scaled to sum to 1. Raises ValueError where shares are below 0 or leave no
    room.
    """
    known = numpy.array([0.0 if share is None else share for share in fixed], dtype=float)
    is_open = numpy.array([share is None for share in fixed], dtype=bool)
    taken = float(known.sum())
    if (known < 0.0).any() or (is_open.any() and taken > 1.0 + 1e-12):
        raise ValueError(f"weights {list(fixed)} leave no room")
    if not is_open.any():
        if taken <= 0.0:
            raise ValueError("no criterion weighs anything")
        return (known / taken)[:, None]
    drawn = numpy.random.Generator(numpy.random.SFC64([seed, 0x77])).standard_exponential(
        (int(is_open.sum()), trials)
    )
    weights = numpy.repeat(known[:, None], trials, axis=1)
    weights[is_open] = max(1.0 - taken, 0.0) * drawn / drawn.sum(axis=0)
    return weights


def _standing(totals: Array) -> tuple[Any, Any]:
    """Return how many are above each specimen and how many level with it, trial by trial."""
    above = numpy.zeros(totals.shape, dtype=numpy.int8)
    level = numpy.zeros(totals.shape, dtype=numpy.int8)
    for i, mine in enumerate(totals):
        for j, yours in enumerate(totals):
            if i != j:
                above[i] += yours - mine > LEVEL_NOISE
                level[i] += numpy.abs(yours - mine) <= LEVEL_NOISE
    return above, level


def _shares_of_ranks(above: Any, level: Any) -> Array:
    count, trials = above.shape
    shares = numpy.zeros((count, count))
    part = 1.0 / (level + 1.0)
    for rank in range(count):
        held = (above <= rank) & (rank <= above + level)
        shares[:, rank] = (part * held).sum(axis=1) / trials
    return shares


def _before(one: Array, other: Array) -> float:
    """Return the share of trials in which one is before another, half of those where level."""
    if one is other:
        return 0.5
    gap = one - other
    ahead = numpy.count_nonzero(gap > LEVEL_NOISE)
    level = numpy.count_nonzero(numpy.abs(gap) <= LEVEL_NOISE)
    return float(ahead + 0.5 * level) / gap.size


def _central(first: Array, weights: Array) -> tuple[tuple[float, ...] | None, ...]:
    spread = numpy.broadcast_to(weights, (weights.shape[0], first.shape[1]))
    wins = first.sum(axis=1)
    sums = first @ spread.T
    return tuple(
        tuple((own / won).tolist()) if won else None for own, won in zip(sums, wins, strict=True)
    )


def _confidence(values: Array, specimen: int, weights: tuple[float, ...] | None) -> float | None:
    if weights is None:
        return None
    totals = numpy.einsum("sct,c->st", values, numpy.array(weights))
    above, level = _standing(totals)
    won = numpy.where(above[specimen] == 0, 1.0 / (level[specimen] + 1.0), 0.0)
    return float(won.mean())
