"""Light across fibres: one profile at every second point of a centreline, a mean one a stretch.

A profile counts only if it rises on one side and falls on the other about where the mask ends.
Those of a stretch are moved onto one another before they are averaged, so that a wavering
centreline does not pass for blur.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from benchlog.microscope.centrelines import Centrelines, Real, Whole
from benchlog.microscope.kernels import Map, sampled

SAMPLES = 97
_EVERY = 2
_FEWEST = 3
_BATCH = 8000
_LOPSIDED = 0.3
_FAR = 0.35


@dataclass(frozen=True)
class Profiles:
    """Mean profiles of the stretches that could be measured, fibre always upward.

    `light` is (stretches, SAMPLES); sample j lies `offset[s, j]` pixels from the middle. `left`
    and `right` are where it is steepest, in pixels from the middle, both positive. `stretch`
    names each in the centrelines; `scatter` is the spread of single widths about their mean.
    """

    light: Real
    offset: Real
    left: Real
    right: Real
    stretch: Whole
    count: Whole
    scatter: Real
    accepted: float

    @property
    def steepest_width(self) -> Real:
        """Width between the steepest points, in pixels."""
        return self.left + self.right


def profiles(light: Map, lines: Centrelines, upward: bool) -> Profiles:
    """Return the profiles across `lines` in evened light; `upward` when fibres are bright."""
    taken = _taken(lines)
    if not taken.size:
        return _none()
    # A batch of whole stretches at a time: profiles of a large picture would fill the memory.
    ends = np.append(np.flatnonzero(np.diff(lines.stretch[taken])) + 1, len(taken))
    cuts = [0]
    for end in ends:
        if end - cuts[-1] >= _BATCH or end == len(taken):
            cuts.append(int(end))
    parts = [_batch(light, lines, taken[begin:end], upward) for begin, end in pairwise(cuts)]
    return _joined([part for part, _ in parts], np.concatenate([good for _, good in parts]))


def _batch(
    light: Map, lines: Centrelines, taken: Whole, upward: bool
) -> tuple[Profiles, NDArray[np.bool_]]:
    stretch = lines.stretch[taken]
    half = lines.half[stretch]
    span = 1.35 * half + 5.0
    values = _across(light, lines, taken, span)
    values = _with_neighbours(values if upward else -values, stretch)
    left, right, good = _edges(values, half, span)
    return _means(values, lines, stretch, span, left, right, good), good


def _joined(parts: list[Profiles], good: NDArray[np.bool_]) -> Profiles:
    names = ("light", "offset", "left", "right", "stretch", "count", "scatter")
    whole = {name: np.concatenate([getattr(part, name) for part in parts]) for name in names}
    return Profiles(**whole, accepted=float(good.mean()))


def _none() -> Profiles:
    rows, flat, whole = np.zeros((0, SAMPLES)), np.zeros(0), np.zeros(0, dtype=np.int64)
    return Profiles(rows, rows, flat, flat, whole, whole, flat, 0.0)


def _taken(lines: Centrelines) -> Whole:
    at = np.arange(len(lines.x))
    return at[(at - lines.first[lines.stretch]) % _EVERY == 0] if at.size else at


def _across(light: Map, lines: Centrelines, at: Whole, span: Real) -> Real:
    offset = span[:, None] * np.linspace(-1.0, 1.0, SAMPLES)[None, :]
    x = lines.x[at][:, None] + offset * lines.nx[at][:, None]
    y = lines.y[at][:, None] + offset * lines.ny[at][:, None]
    return sampled(light, x, y).astype(np.float64)


def _with_neighbours(values: Real, stretch: Whole) -> Real:
    """Return each profile averaged with the one before and the one after in its stretch."""
    if len(values) < 3:
        return values
    total, parts = values.copy(), np.ones(len(values))
    same = (stretch[1:] == stretch[:-1]).astype(float)
    total[1:] += same[:, None] * values[:-1]
    total[:-1] += same[:, None] * values[1:]
    parts[1:] += same
    parts[:-1] += same
    return total / parts[:, None]


def steepest(values: Real, half: Real, span: Real) -> tuple[Real, Real, Real, Real]:
    """Return how far left and right of the middle each row rises and falls most, and how steeply.

    NaN where the steepest point lies at the end of where an edge may be. Distances in pixels.
    """
    step = (2.0 * span / (SAMPLES - 1))[:, None]
    slope = np.gradient(values, axis=1) / step
    place = np.linspace(-1.0, 1.0, SAMPLES)[None, :] * span[:, None]
    play = np.maximum(2.5, 0.5 * half)[:, None]
    found = []
    for side in (-1.0, 1.0):
        may = np.abs(side * place - half[:, None]) <= play
        rise = np.where(may, -side * slope, -np.inf)
        best = np.argmax(rise, axis=1)
        rows = np.arange(len(values))
        inner = may[rows, np.maximum(best - 1, 0)] & may[rows, np.minimum(best + 1, SAMPLES - 1)]
        centre = np.clip(best, 1, SAMPLES - 2)
        a, b, c = (-side * slope[rows, centre + k] for k in (-1, 0, 1))
        bend = a - 2.0 * b + c
        shift = np.where(bend < 0, 0.5 * (a - c) / np.where(bend < 0, bend, -1.0), 0.0)
        where = side * (place[rows, centre] + np.clip(shift, -1, 1) * step[:, 0])
        found += [np.where(inner, where, np.nan), b]
    return found[0], found[2], found[1], found[3]


def _edges(values: Real, half: Real, span: Real) -> tuple[Real, Real, NDArray[np.bool_]]:
    """Return where each profile is steepest, and whether it looks like a fibre's."""
    left, right, rise, fall = steepest(values, half, span)
    less, more = np.minimum(rise, fall), np.maximum(rise, fall)
    weak = less < 0.15 * np.median(more)
    lopsided = less < _LOPSIDED * more
    near = np.abs((left + right) / (2.0 * half) - 1.0) < _FAR + 1.5 / half  # False where NaN
    return left, right, near & ~weak & ~lopsided


def _means(
    values: Real,
    lines: Centrelines,
    stretch: Whole,
    span: Real,
    left: Real,
    right: Real,
    good: NDArray[np.bool_],
) -> Profiles:
    total = len(lines.first)
    enough = np.bincount(stretch[good], minlength=total) >= _FEWEST
    good = good & enough[stretch]
    values, stretch, span = values[good], stretch[good], span[good]
    left, right = left[good], right[good]
    names, first, count = np.unique(stretch, return_index=True, return_counts=True)
    if not names.size:
        return _none()
    moved = _moved(values, 0.5 * (right - left) / (2.0 * span / (SAMPLES - 1)))
    mean = np.add.reduceat(moved, first, axis=0) / count[:, None]
    width = left + right
    middle = np.add.reduceat(width, first) / count
    scatter = np.sqrt(np.add.reduceat((width - np.repeat(middle, count)) ** 2, first) / count)
    half, reach = lines.half[names], span[first]
    to_left, to_right, _, _ = steepest(mean, half, reach)
    offset = np.linspace(-1.0, 1.0, SAMPLES)[None, :] * reach[:, None]
    sure = np.isfinite(to_left) & np.isfinite(to_right)
    return Profiles(
        mean[sure],
        offset[sure],
        to_left[sure],
        to_right[sure],
        names[sure].astype(np.int64),
        count[sure].astype(np.int64),
        scatter[sure],
        1.0,
    )


def _moved(values: Real, by: Real) -> Real:
    """Return each row moved left by a fraction of samples."""
    place = np.arange(SAMPLES)[None, :] + by[:, None]
    place = np.clip(place, 0, SAMPLES - 1)
    low = np.minimum(place.astype(int), SAMPLES - 2)
    share = place - low
    below = np.take_along_axis(values, low, axis=1)
    above = np.take_along_axis(values, low + 1, axis=1)
    return np.asarray(below * (1.0 - share) + above * share)
