"""Openings by covering circles: for each point of the open area, the largest circle that holds it.

The share of the open area that circles of at least a given size can cover falls with that size;
where it passes 90, 50, 10 and 5 % lie D10, D50, D90 and D95, weighted by area. (Local thickness
after Hildebrand and Rüegsegger 1997, read as a morphological opening by circles.) A circle of
radius r reaches a point if it lies within r of one whose own distance to the nearest fibre is
at least r: one more distance map for each size tried, exact, and without steps of radius.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchlog.microscope.kernels import Map, Mask, distance_inside

_THINNED_TO = 1_000_000
_STEPS_A_RADIUS = 6
_WITHIN, _ROUGHLY = 0.003, 0.01  # of a radius
_FINE_STEPS_A_RADIUS = 12
_MISSED = 0.25
"""Pixels of radius that a map of every second, third ... pixel misses for each step it leaves
out: the middle of a circle falls between those that were taken. Found on drawn mats."""

_REFINEMENTS = 5
_NEAR_ENOUGH = 0.06  # of the radius: so far a straight line carries


@dataclass(frozen=True)
class Openings:
    """Diameters in pixels below which 10, 50, 90 and 95 % of the open area lie."""

    d10: float
    d50: float
    d90: float
    d95: float


def openings(open_mask: Mask) -> Openings:
    """Return the opening sizes of a mask; all zero when nothing is open."""
    return Openings(*diameters(open_mask, (0.10, 0.50, 0.90, 0.95)))


def diameters(open_mask: Mask, shares: Sequence[float]) -> list[float]:
    """Return the diameter in pixels below which each share of the open area lies.

    Distances run between pixel centres, from an open one to the nearest fibre's: no half pixel is
    taken off. Circles may reach over the frame, where nothing is known to be in their way.
    """
    area = int(np.count_nonzero(open_mask))
    if area == 0:
        return [0.0 for _ in shares]
    reach = distance_inside(open_mask)
    thin, step = _thinned(reach)
    aims = [1.0 - share for share in shares]
    radii = _crossings(thin, step, aims)
    if step > 1:
        radii = [_put_right(reach, thin, step, r, aim) for r, aim in zip(radii, aims, strict=True)]
    return [2.0 * r for r in radii]


def rough_diameters(open_mask: Mask, shares: Sequence[float]) -> list[float]:
    """Return diameters in pixels on a thinned map where the picture is large: to compare levels."""
    if not open_mask.any():
        return [0.0 for _ in shares]
    thin, step = _thinned(distance_inside(open_mask))
    aims = [1.0 - share for share in shares]
    return [2.0 * r for r in _crossings(thin, step, aims, _ROUGHLY)]


def covered_share(reach: Map, radius: float, step: int = 1) -> float:
    """Return the share of the open pixels that circles of at least `radius` cover.

    `reach` is the distance of each pixel to the nearest fibre, 0 on fibres, taken on a grid of
    every `step` pixels.
    """
    area = int(np.count_nonzero(reach))
    elsewhere = reach < radius
    if area == 0 or elsewhere.all():
        return 0.0
    # Within a radius of such a centre nothing is fibre, so all that is reached is open.
    return float(np.count_nonzero(distance_inside(elsewhere) < radius / step)) / area


def _thinned(reach: Map) -> tuple[Map, int]:
    """Return every n-th pixel of a large map, and n; fine enough for circles of middling size."""
    typical = 3.0 * float(reach[reach > 0.0].mean())  # a cone's mean height is a third of it
    most = max(1, int(typical / _STEPS_A_RADIUS))
    step = int(np.clip(round((reach.size / _THINNED_TO) ** 0.5), 1, most))
    return np.ascontiguousarray(reach[::step, ::step]), step


def _crossings(reach: Map, step: int, aims: list[float], within: float = _WITHIN) -> list[float]:
    """Return the radius at which the covered share falls to each of `aims`, to a share of it."""
    top = float(reach.max())
    known = {0.0: 1.0, top: covered_share(reach, top, step)}

    def share(radius: float) -> float:
        if radius not in known:
            known[radius] = covered_share(reach, radius, step)
        return known[radius]

    found = []
    for aim in aims:
        low = max((r for r, covered in known.items() if covered > aim), default=0.0)
        high = min((r for r in known if r > low and known[r] <= aim), default=top)
        by_halves = False
        while high - low > within * high and high - low > 0.01:
            over = 0.5 if by_halves else (share(low) - aim) / (share(low) - share(high))
            by_halves = not by_halves
            middle = low + (high - low) * min(max(over, 0.1), 0.9)
            if share(middle) > aim:
                low = middle
            else:
                high = middle
        found.append(0.5 * (low + high))
    return found


def _put_right(reach: Map, thin: Map, step: int, radius: float, aim: float) -> float:
    """Return a radius found on a map of every `step`-th pixel as all pixels would have it.

    Where it is less than 12 steps, a finer map is asked on either side of it, and what lies
    between is taken for straight.
    """
    finer = max(1, int(radius / _FINE_STEPS_A_RADIUS))
    if finer >= step:
        return radius + _MISSED * (step - 1)
    reach = np.ascontiguousarray(reach[::finer, ::finer])
    delta = min(0.03 * radius + 0.5 * step, 0.5 * radius)
    fall = covered_share(thin, radius - delta, step) - covered_share(thin, radius + delta, step)
    slope = max(fall, 1e-3) / (2.0 * delta)
    low, high = (0.0, 1.0 - aim), (np.inf, -aim)  # radius, and share less aim
    # A circle of a few steps misses more: narrow corners hold none of its middles.
    few = radius < 3.0 * step
    radius = float(np.hypot(radius, 2.2 * step)) if few else radius + _MISSED * (step - finer)
    for _ in range(_REFINEMENTS):
        off = covered_share(reach, radius, finer) - aim
        low, high = ((radius, off), high) if off > 0.0 else (low, (radius, off))
        if high[0] - low[0] <= _NEAR_ENOUGH * radius:
            break
        if low[0] == 0.0 or high[0] == np.inf:  # a little too far, to have it on both sides
            move = float(np.clip(1.3 * abs(off) / slope, 0.03 * radius, 0.3 * radius))
            radius += move if off > 0.0 else -move
        else:
            radius = _between(low, high, 0.15)
    found = radius if low[0] == 0.0 or high[0] == np.inf else _between(low, high, 0.0)
    return found + _MISSED * (finer - 1)


def _between(low: tuple[float, float], high: tuple[float, float], margin: float) -> float:
    """Return where a straight line falls through zero, no nearer to an end than `margin`."""
    share = low[1] / (low[1] - high[1]) if low[1] > high[1] else 0.5
    return low[0] + (high[0] - low[0]) * min(max(share, margin), 1.0 - margin)


def circles_to_draw(open_mask: Mask, most: int = 200) -> NDArray[np.float64]:
    """Return up to `most` of the largest circles that do not overlap: rows of x, y, radius."""
    reach = distance_inside(open_mask)
    peaks = np.zeros(reach.shape, dtype=bool)
    middle = reach[1:-1, 1:-1]
    peaks[1:-1, 1:-1] = middle > 2.0
    for dy in range(3):
        for dx in range(3):
            shifted = reach[dy : dy + middle.shape[0], dx : dx + middle.shape[1]]
            peaks[1:-1, 1:-1] &= middle >= shifted
    ys, xs = np.nonzero(peaks)
    order = np.argsort(-reach[ys, xs], kind="stable")
    found = np.zeros((most, 3))
    count = 0
    for x, y in zip(xs[order].tolist(), ys[order].tolist(), strict=True):
        r = float(reach[y, x])
        away = np.hypot(found[:count, 0] - x, found[:count, 1] - y)
        if (away >= found[:count, 2] + r).all():
            found[count] = x, y, r
            count += 1
            if count == most:
                break
    return found[:count]
