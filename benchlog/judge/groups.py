"""How far two parties lie apart, by the scatter between their specimens and by the measuring."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from math import fsum, isfinite, sqrt
from statistics import variance
from typing import Any

from benchlog.judge.chance import expanded_gap
from benchlog.judge.value_functions import Number, middle
from benchlog.measure.part import Part, Spread, part_of, variable


def mean_of(numbers: Sequence[Number]) -> Number:
    """Return the mean of a party's numbers; of a single one, itself."""
    return numbers[0] if len(numbers) == 1 else sum(numbers) / len(numbers)


def expanded_between(mine: Sequence[Number], yours: Sequence[Number], parties: int) -> float:
    """Return the expanded uncertainty of the difference of two means, among so many parties.

    Of a party of several, the mean is as sure as the scatter between its specimens leaves it:
    s²/n with n - 1 degrees of freedom, joined with the other side's by Welch's formula
    (Biometrika 34 (1947) 28). That scatter holds what each specimen's own measurement scattered
    by, which is therefore not added again; what several specimens share is not in it, stays, and
    cancels where both sides share it. Never less is returned than what the measurement alone
    leaves open: a few specimens may lie together by luck or within one step of the instrument. A
    single specimen says nothing of scatter: it brings its measurement, and stands for itself.
    """
    if len(mine) == len(yours) == 1:
        return expanded_gap(mine[0] - yours[0], parties)
    shared = _in_several([*mine, *yours])
    measured = sum(_measured(side, shared, sign) for side, sign in ((mine, 1), (yours, -1)))
    scattered = sum(_scattered(side, shared, sign) for side, sign in ((mine, 1), (yours, -1)))
    return max(expanded_gap(measured, parties), expanded_gap(scattered, parties))


def _in_several(numbers: Sequence[Number]) -> set[Any]:
    """Return the variables that stand in more than one of some numbers."""
    times = Counter(v for number in numbers for v in _slopes(number))
    return {v for v, count in times.items() if count > 1}


def _scattered(side: Sequence[Number], shared: set[Any], sign: int) -> Number:
    """Return a mean about nought, its own parts replaced by the scatter between the specimens."""
    if len(side) == 1:
        return sign * side[0]
    size = sqrt(variance(middle(number) for number in side) / len(side))
    part = Part("between specimens", Spread.REPEATS, len(side) - 1)
    return sign * (_common(side, shared) + _about_nought(size, part))


def _measured(side: Sequence[Number], shared: set[Any], sign: int) -> Number:
    """Return a mean about nought as measured.

    Scatter of repeats averages out over the specimens. The steps and limits of an instrument may
    push all of them the same way, so those do not.
    """
    if len(side) == 1:
        return sign * side[0]
    total, limits = _common(side, shared), []
    for number in side:
        own = {v: slope for v, slope in _slopes(number).items() if v not in shared}
        finite = [v for v in own if isfinite(part_of(v.tag).freedom)]
        total = total + sum(own[v] / len(side) * v for v in finite)
        squares = (own[v] ** 2 * v.std_dev**2 for v in own if v not in finite)
        limits.append(sqrt(fsum(squares)))
    return sign * (total + _about_nought(fsum(limits) / len(side), Part("limits")))


def _common(side: Sequence[Number], shared: set[Any]) -> Number:
    """Return what a mean has of the variables that stand in several numbers, about nought."""
    total: dict[Any, float] = {}
    for number in side:
        for v, slope in _slopes(number).items():
            if v in shared:
                total[v] = total.get(v, 0.0) + slope / len(side)
    return sum(slope * v for v, slope in total.items())


def _about_nought(size: float, part: Part) -> Number:
    return variable(size, part) if size > 0.0 else 0.0


def _slopes(number: Number) -> Mapping[Any, float]:
    slopes: Mapping[Any, float] = getattr(number, "derivatives", {})
    return {v: slope for v, slope in slopes.items() if slope}
