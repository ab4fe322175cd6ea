"""The middle lines of fibres between their crossings, as smooth paths with normals."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from skimage.morphology import skeletonize

from benchlog.microscope.kernels import Map, Mask, distance_inside, pieces, set_around

CROSSING = 1.3
"""Half widths about a crossing that are left out: two fibres there look like one wide one."""

_SHORTEST = 7  # pixels of centreline

Real = NDArray[np.float64]
Whole = NDArray[np.int64]


@dataclass(frozen=True)
class Centrelines:
    """Points along fibres, sorted by stretch and along it.

    `x`, `y` in pixels; `nx`, `ny` the unit normal; `stretch` numbers the stretches from 0;
    `half` is the stretch's half width by the distance map; `first` where each stretch begins.
    """

    x: Real
    y: Real
    nx: Real
    ny: Real
    stretch: Whole
    half: Real
    first: Whole

    @property
    def lengths(self) -> Real:
        """Length of each stretch in pixels."""
        if not self.first.size:
            return np.zeros(0)
        step = np.hypot(np.diff(self.x, append=0.0), np.diff(self.y, append=0.0))
        step[np.append(self.first[1:], len(self.x)) - 1] = 0.0
        return np.asarray(np.add.reduceat(step, self.first))

    def enlarged(self, by: int) -> Centrelines:
        """Return the lines of a mask of every `by`-th pixel in pixels of the whole picture."""
        x, y, half = (one * by for one in (self.x, self.y, self.half))
        return Centrelines(x, y, self.nx, self.ny, self.stretch, half, self.first)


def centrelines(mask: Mask, reach: Map) -> Centrelines:
    """Return the stretches of centreline of a mask whose inner distance map is `reach`."""
    ridge: Mask = skeletonize(mask)  # type: ignore[no-untyped-call]
    keep = ridge & (distance_inside(~_branches(ridge)) > CROSSING * reach + 2.0)
    height, width = mask.shape
    ys, xs = np.nonzero(keep)
    edge = np.minimum.reduce([xs, ys, width - 1 - xs, height - 1 - ys])
    off = edge < 1.5 * reach[ys, xs] + 3.0
    keep[ys[off], xs[off]] = False
    labels, areas = pieces(keep)
    ys, xs = np.nonzero(keep)
    label = labels[ys, xs].astype(np.int64)
    size = areas[label]
    long = size >= np.maximum(_SHORTEST, 0.5 * reach[ys, xs])
    return _ordered(xs[long].astype(float), ys[long].astype(float), label[long], reach)


def _branches(ridge: Mask) -> Mask:
    """Return the points of a skeleton where three ways or more meet."""
    return ridge & (set_around(ridge) > 3)


def _ordered(x: Real, y: Real, label: Whole, reach: Map) -> Centrelines:
    """Return the points in order along each stretch; stretches are too short to turn back."""
    if not x.size:
        none, nothing = np.zeros(0), np.zeros(0, dtype=np.int64)
        return Centrelines(none, none, none, none, nothing, none, nothing)
    _, stretch = np.unique(label, return_inverse=True)
    count = np.bincount(stretch)
    mx, my = np.bincount(stretch, x) / count, np.bincount(stretch, y) / count
    dx, dy = x - mx[stretch], y - my[stretch]
    xx, yy, xy = (np.bincount(stretch, v) for v in (dx * dx, dy * dy, dx * dy))
    angle = 0.5 * np.arctan2(2.0 * xy, xx - yy)
    along = dx * np.cos(angle)[stretch] + dy * np.sin(angle)[stretch]
    order = np.lexsort((along, stretch))
    x, y, stretch = x[order], y[order], stretch[order]
    first = np.concatenate([[0], np.cumsum(count)[:-1]]).astype(np.int64)
    heights = reach[y.astype(int), x.astype(int)].astype(float)
    half = np.array([np.median(part) for part in np.split(heights, first[1:])])
    return _smooth(x, y, stretch.astype(np.int64), half, first, count)


def _smooth(
    x: Real, y: Real, stretch: Whole, half: Real, first: Whole, count: NDArray[np.int64]
) -> Centrelines:
    """Return the paths with the steps of the pixel grid averaged out, and their normals."""
    at = np.arange(len(x))
    begin, end = first[stretch], first[stretch] + count[stretch] - 1
    span = np.clip(np.round(half[stretch]), 3, 12).astype(int)
    even = np.minimum(span, np.minimum(at - begin, end - at))

    def mean(values: Real) -> Real:
        running = np.concatenate([[0.0], np.cumsum(values)])
        return np.asarray((running[at + even + 1] - running[at - even]) / (2 * even + 1))

    sx, sy = mean(x), mean(y)
    ahead, behind = np.minimum(at + span, end), np.maximum(at - span, begin)
    tx, ty = x[ahead] - x[behind], y[ahead] - y[behind]
    length = np.maximum(np.hypot(tx, ty), 1e-9)
    return Centrelines(sx, sy, -ty / length, tx / length, stretch, half, first)
