"""Who comes first, as shares of many trials: rank acceptability and what goes with it.

After SMAA-2: Lahdelma and Salminen, Operations Research 49 (2001) 444. Loads numpy; import it
only where ranks are wanted.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import Any, TypeAlias

import numpy

from benchlog.judge.ranked import RankShares

Array: TypeAlias = "numpy.ndarray[Any, numpy.dtype[numpy.float64]]"

BLOCK = 1 << 13
"""Trials weighed at a time: what several specimens are worth in them stays in a core's memory."""

LEVEL_NOISE = 1e-9
"""Points this close are level: they differ by the last digits of a sum only."""


def rank_shares(values: Array, weights: Array) -> RankShares:
    """Return the ranks of specimens under drawn values and weights.

    `values` are what each criterion is worth, shaped (specimens, criteria, trials); `weights`
    (criteria, trials), or (criteria, 1) where they are fixed; each trial's sum to 1. Raises
    ValueError for shapes that do not belong together.
    """
    count, criteria, trials = values.shape
    if weights.shape not in {(criteria, trials), (criteria, 1)} or not count * criteria * trials:
        raise ValueError(f"weights {weights.shape} do not belong to values {values.shape}")
    totals = _totals(values, weights)
    standing = _Standing.of(totals)
    first = standing.first()
    central = _central(first, weights)
    return RankShares(
        acceptability=tuple(map(tuple, standing.shares().tolist())),
        before=tuple(map(tuple, (standing.before / trials).tolist())),
        central=central,
        confidence=_confidence(values, central),
        trials=trials,
        leads=_leads(totals),
    )


def _leads(totals: Array) -> tuple[tuple[float, ...], ...]:
    """Return the mean difference of each two, found once so that it turns round exactly."""
    means = [float(own.mean()) for own in totals]
    return tuple(tuple(mine - yours for yours in means) for mine in means)


@lru_cache(maxsize=2)
def simplex_weights(fixed: tuple[float | None, ...], trials: int, seed: int) -> Array:
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
        return _kept((known / taken)[:, None])
    drawn = numpy.random.Generator(numpy.random.SFC64([seed, 0x77])).standard_exponential(
        (int(is_open.sum()), trials)
    )
    weights = numpy.repeat(known[:, None], trials, axis=1)
    weights[is_open] = max(1.0 - taken, 0.0) * drawn / drawn.sum(axis=0)
    return _kept(weights)


def _kept(weights: Array) -> Array:
    """Return weights that nobody writes over, so that whoever asks again gets the same."""
    weights.flags.writeable = False
    return weights


def _totals(values: Array, weights: Array) -> Array:
    """Return what each specimen comes to, trial by trial."""
    if weights.shape[1] == 1:
        fixed: Array = numpy.einsum("sct,c->st", values, weights[:, 0])
        return fixed
    totals: Array = numpy.einsum("sct,ct->st", values, weights)
    return totals


@dataclass(frozen=True)
class _Standing:
    """How specimens stand to each other, trial by trial.

    `above` counts those ahead of each, `level` those level with it; `before[i, j]` counts the
    trials in which i is ahead of j, a level one as half.
    """

    above: Any
    level: Any
    before: Array

    @classmethod
    def of(cls, totals: Array) -> _Standing:
        count, trials = totals.shape
        above = numpy.zeros((count, trials), dtype=numpy.int8)
        level = numpy.zeros((count, trials), dtype=numpy.int8)
        before = numpy.full((count, count), trials / 2.0)
        for i, j in combinations(range(count), 2):
            gap = totals[i] - totals[j]
            ahead, behind = gap > LEVEL_NOISE, gap < -LEVEL_NOISE
            above[j] += ahead
            above[i] += behind
            wins, losses = int(numpy.count_nonzero(ahead)), int(numpy.count_nonzero(behind))
            before[i, j] += (wins - losses) / 2.0
            before[j, i] += (losses - wins) / 2.0
            if wins + losses < trials:
                neither = ~(ahead | behind)
                level[i] += neither
                level[j] += neither
        return cls(above, level, before)

    def first(self) -> Array:
        """Return each specimen's part in the first rank."""
        return numpy.where(self.above == 0, 1.0 / (self.level + 1.0), 0.0)

    def shares(self) -> Array:
        """Return the share of trials in which each specimen takes each rank."""
        count, trials = self.above.shape
        shares = numpy.zeros((count, count))
        for i, (above, level) in enumerate(zip(self.above, self.level, strict=True)):
            # Who stands behind `above` others and level with `level` takes the next ranks in part.
            pairs = numpy.bincount(above * count + level, minlength=count * count)
            for held, times in enumerate(pairs.tolist()):
                better, beside = divmod(held, count)
                if times:
                    shares[i, better : better + beside + 1] += times / (beside + 1.0) / trials
        return shares


def _central(first: Array, weights: Array) -> tuple[tuple[float, ...] | None, ...]:
    spread = numpy.broadcast_to(weights, (weights.shape[0], first.shape[1]))
    wins = first.sum(axis=1)
    sums = first @ spread.T
    return tuple(
        tuple((own / won).tolist()) if won else None for own, won in zip(sums, wins, strict=True)
    )


def _confidence(
    values: Array, central: tuple[tuple[float, ...] | None, ...]
) -> tuple[float | None, ...]:
    """Return how often each is first under its own central weights.

    Block by block, so that all of them are weighed while the values are at hand.
    """
    known = [i for i, own in enumerate(central) if own is not None]
    if not known:
        return (None,) * len(central)
    weights = numpy.array([central[i] for i in known])
    won = numpy.zeros(len(known))
    trials = values.shape[2]
    for start in range(0, trials, BLOCK):
        totals = numpy.matmul(weights, values[:, :, start : start + BLOCK])
        for k, i in enumerate(known):
            leads = totals[i, k] - totals[:, k]
            best = (leads >= -LEVEL_NOISE).all(axis=0)
            level = (leads <= LEVEL_NOISE).sum(axis=0)  # itself among them
            won[k] += float((best / numpy.maximum(level, 1)).sum())
    shares = dict(zip(known, (won / trials).tolist(), strict=True))
    return tuple(shares.get(i) for i in range(len(central)))
