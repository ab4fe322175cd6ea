"""Piecewise linear functions of an uncertain number, worked out in closed form."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import inf, sqrt
from statistics import NormalDist

from benchlog.judge.rules import Anchor

_NORMAL = NormalDist()
_FAR = 40.0
"""In standard deviations; beyond it a normal holds nothing that a float can show."""


class Spread(StrEnum):
    """How an uncertain number is spread about its middle."""

    NORMAL = "normal"
    RECTANGULAR = "rectangular"


@dataclass(frozen=True)
class Passed:
    """What an uncertain number becomes behind the function.

    `expected` and `uncertainty` are the mean and the standard deviation of the function's value;
    `slope` is the part of that deviation that follows the number itself (the regression of the
    value on the number), `rest` the standard deviation that does not.
    """

    expected: float
    uncertainty: float
    slope: float
    rest: float


@dataclass(frozen=True)
class _Piece:
    """One straight piece, from `start` to `end`; its line goes through (`at`, `value`)."""

    start: float
    end: float
    slope: float
    at: float
    value: float


def value_at(anchors: Sequence[Anchor], x: float) -> float:
    """Return the function's value: straight between anchors, flat outside the outer ones."""
    if x <= anchors[0].at:
        return anchors[0].value
    for left, right in pairwise(anchors):
        if x <= right.at:
            return left.value + (right.value - left.value) * (x - left.at) / (right.at - left.at)
    return anchors[-1].value


def steepest(anchors: Sequence[Anchor], low: float, high: float) -> float:
    """Return the slope, sign kept, that is steepest anywhere between two places."""
    met = [p.slope for p in _pieces(anchors) if p.start <= high and p.end >= low]
    return max(met, key=abs)


def pass_through(anchors: Sequence[Anchor], x: float, u: float, spread: Spread) -> Passed:
    """Pass a number of mean `x` and standard uncertainty `u` through the function.

    The first two moments are exact: over each straight piece they follow from the partial
    moments of the standard normal or rectangular distribution. A number near an anchor so gets
    its share of both sides, which a slope at one point would miss.
    """
    here = value_at(anchors, x)
    if u <= 0:
        return Passed(here, 0.0, 0.0, 0.0)
    mean = square = along = 0.0
    for piece in _pieces(anchors):
        m0, m1, m2 = _partial_moments((piece.start - x) / u, (piece.end - x) / u, spread)
        offset = piece.value + piece.slope * (x - piece.at) - here
        rise = piece.slope * u
        mean += offset * m0 + rise * m1
        square += offset**2 * m0 + 2 * offset * rise * m1 + rise**2 * m2
        along += offset * m1 + rise * m2
    variance = max(square - mean**2, 0.0)
    rest = sqrt(max(variance - along**2, 0.0))
    return Passed(here + mean, sqrt(variance), along / u, rest)


def place_of(anchors: Sequence[Anchor], value: float, near: float) -> float | None:
    """Return the place nearest to `near` where the function has that value, None if nowhere."""
    return min(places_of(anchors, value), key=lambda place: abs(place - near), default=None)


def places_of(anchors: Sequence[Anchor], value: float) -> tuple[float, ...]:
    """Return where the function passes through a value, once for each sloping piece."""
    places = []
    for left, right in pairwise(anchors):
        low, high = sorted((left.value, right.value))
        if low < high and low <= value <= high:
            share = (value - left.value) / (right.value - left.value)
            places.append(left.at + share * (right.at - left.at))
    return tuple(places)


def _pieces(anchors: Sequence[Anchor]) -> list[_Piece]:
    first, last = anchors[0], anchors[-1]
    inner = [
        _Piece(a.at, b.at, (b.value - a.value) / (b.at - a.at), a.at, a.value)
        for a, b in pairwise(anchors)
    ]
    return [
        _Piece(-inf, first.at, 0.0, first.at, first.value),
        *inner,
        _Piece(last.at, inf, 0.0, last.at, last.value),
    ]


def _partial_moments(start: float, end: float, spread: Spread) -> tuple[float, float, float]:
    """Integrate 1, z and z² times the standard density from `start` to `end`."""
    reach = _FAR if spread is Spread.NORMAL else sqrt(3)
    a, b = min(max(start, -reach), reach), min(max(end, -reach), reach)
    if spread is Spread.RECTANGULAR:
        full = 2 * sqrt(3)
        return (b - a) / full, (b**2 - a**2) / (2 * full), (b**3 - a**3) / (3 * full)
    m0 = _NORMAL.cdf(b) - _NORMAL.cdf(a)
    at_a, at_b = _NORMAL.pdf(a), _NORMAL.pdf(b)
    return m0, at_a - at_b, m0 + a * at_a - b * at_b
