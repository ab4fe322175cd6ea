"""How much of each pixel an outline covers, exactly.

Each straight piece adds, in every pixel that it crosses, the signed area to its right; summed
along a row that is how far the outline winds around the pixel, parts of pixels included. No samples
are taken, so that edges are as smooth as 256 steps of alpha allow, at any size.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from benchlog.sheet.cards.paths import Path

Numbers = NDArray[np.float64]
FLAT_ENOUGH = 0.02
"""How far in pixels a straight piece may stray from its curve."""

_FINEST = 1024
"""Ends of pieces are taken to this part of a pixel, so that no piece is all but level."""


def coverage(path: Path, scale: float) -> tuple[int, int, Numbers] | None:
    """Return left and top in pixels and the covered share of each pixel; None for no area."""
    pieces = np.rint(_pieces(path, scale) * _FINEST) / _FINEST
    if not len(pieces):
        return None
    left, top = (int(np.floor(pieces[:, n : n + 3 : 2].min())) for n in (0, 1))
    right, bottom = (int(np.ceil(pieces[:, n : n + 3 : 2].max())) for n in (0, 1))
    local = pieces - np.array([left, top, left, top], dtype=float)
    width, height = max(1, right - left), max(1, bottom - top)
    wound = _wound(local, width + 2, height)
    return left, top, np.minimum(np.abs(wound[:, :width]), 1.0)


def _pieces(path: Path, scale: float) -> Numbers:
    """Return the path's straight pieces as rows of x, y, x, y in pixels."""
    runs: dict[str, list[tuple[float, ...]]] = {"L": [], "Q": [], "C": []}
    start: tuple[float, ...] = (0.0, 0.0)
    pen = start
    for step, where in path:
        if step == "M":
            start = pen = where
        elif step == "Z":
            runs["L"].append((*pen, *start))
            pen = start
        else:
            runs[step].append((*pen, *where))
            pen = where[-2:]
    found = [_flat(np.array(rows) * scale) for rows in runs.values() if rows]
    return np.vstack(found) if found else np.zeros((0, 4))


def _flat(rows: Numbers) -> Numbers:
    """Return curves of one degree, a row each, as straight pieces; lines are that already."""
    points = rows.reshape(len(rows), -1, 2)
    degree = points.shape[1] - 1
    if degree == 1:
        return rows
    bend = np.abs(np.diff(points, n=2, axis=1)).max()
    # A chord strays by at most an eighth of the second derivative times its step squared.
    count = int(np.ceil(np.sqrt(degree * (degree - 1) * bend / (8 * FLAT_ENOUGH)))) or 1
    t = np.linspace(0.0, 1.0, count + 1)
    shares = [math.comb(degree, k) * t**k * (1 - t) ** (degree - k) for k in range(degree + 1)]
    line = np.einsum("kt,nkc->ntc", np.array(shares), points)
    return np.concatenate([line[:, :-1], line[:, 1:]], axis=2).reshape(-1, 4)


def _wound(pieces: Numbers, width: int, height: int) -> Numbers:
    """Return how far the pieces wind around each pixel of a grid."""
    ax, ay, bx, by = pieces[pieces[:, 1] != pieces[:, 3]].T
    sign = np.where(by > ay, 1.0, -1.0)
    ax, bx = np.where(sign > 0, ax, bx), np.where(sign > 0, bx, ax)
    ay, by = np.minimum(ay, by), np.maximum(ay, by)
    slope = (bx - ax) / (by - ay)
    which, row = _spread(np.floor(ay), np.ceil(by))
    high, low = np.maximum(ay[which], row), np.minimum(by[which], row + 1)
    ends = np.minimum(ax, bx)[which], np.maximum(ax, bx)[which]
    near = np.clip(ax[which] + (high - ay[which]) * slope[which], *ends)
    far = np.clip(ax[which] + (low - ay[which]) * slope[which], *ends)
    drop = (low - high) * sign[which]
    left, right = np.minimum(near, far), np.maximum(near, far)
    inner, column = _spread(np.floor(left), np.maximum(np.ceil(right), np.floor(left) + 1))
    begin, end = np.maximum(left[inner], column), np.minimum(right[inner], column + 1)
    wide = right[inner] - left[inner]
    share = np.divide(end - begin, wide, out=np.ones_like(wide), where=wide > 0)
    middle = (begin + end) / 2 - column
    part = drop[inner] * share
    place = (row[inner] * width + column).astype(np.int64)
    cells = width * height
    total = np.bincount(place, part * (1 - middle), cells + 1)
    total += np.bincount(place + 1, part * middle, cells + 1)
    summed: Numbers = np.cumsum(total[:cells].reshape(height, width), axis=1)
    return summed


def _spread(first: Numbers, end: Numbers) -> tuple[NDArray[np.int64], Numbers]:
    """Return, for each whole number from `first` to before `end`, its piece and itself."""
    count = (end - first).astype(np.int64)
    which = np.repeat(np.arange(len(count)), count)
    begins = np.cumsum(count) - count
    return which, first[which] + (np.arange(len(which)) - begins[which])
