"""Fibre width from the whole shape of its profile, not from where it is steepest.

The steepest point of a profile is its edge only for a flat ribbon. A round fibre lit from above
grows dark towards its limb, and the steepest point lies inside the edge; one lit from below has
dark rims, and it lies outside. So the outer part of each profile is fitted with a fibre of given
width under a given blur: in part flat, in part falling off as a cylinder's face turns away
(Lambert: the root of 1 - u²), leaning a little. Blur and roundness belong to the picture.

A blurred ribbon and a sharp cylinder look alike, but not equally wide. So no single pair of blur
and roundness is taken: every roundness, with the blur that suits it best, counts by how little it
leaves over, and the widths in which they differ are told as a doubt.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from benchlog.microscope.centrelines import Real
from benchlog.microscope.kernels import Map, sampled

_SHARES = np.geomspace(0.02, 2.0, 60)  # blur over half width, for the table of shapes
_REACH = 6.0  # half widths to either side in the table
_STEPS = 901
_INNER = 0.7  # of the half width; nearer the middle, glints say nothing of the edge
_TERMS = 4
_BLURS = np.geomspace(0.4, 1.25, 6)  # of the blur that a flat fibre would have
_ROUNDS = np.linspace(-0.6, 1.2, 10)  # a little beyond a dull cylinder, or all would err one way
_FOR_PICTURE = 64  # stretches are enough to find blur and roundness
_EVERY = 3  # of the samples of those
_TELLING = 0.05
"""By how much the mean logarithm of what is left over in a picture's worth of stretches must grow
to count for a third: found on drawn mats, where texture, shadows and neighbours leave more than
noise does."""


@dataclass(frozen=True)
class EdgeFit:
    """Fitted widths in pixels and what each fit leaves, as a share of the profile's height.

    `blur` (standard deviation in pixels) and `roundness` (0 flat, 1 a dull cylinder lit from
    above, below 0 a fibre with dark rims lit from below) are the picture's. `doubt` is the
    standard deviation of the mean width over all roundnesses that explain the profiles, pixels.
    """

    width: Real
    left_over: Real
    blur: float
    roundness: float
    doubt: float = 0.0


def fitted_widths(light: Real, offset: Real, start: Real) -> EdgeFit:
    """Return the widths of mean profiles near `start`, each row sampled at `offset` pixels."""
    if not len(light):
        return EdgeFit(np.zeros(0), np.zeros(0), 0.0, 0.0)
    some = np.linspace(0, len(light) - 1, min(_FOR_PICTURE, len(light))).astype(int)
    soft = _softness(light, offset)
    reach = 0.5 * start + 2.0 * soft + 1.0
    left, wide, blurs = _by_roundness(
        light[some, ::_EVERY], offset[some, ::_EVERY], start[some], reach[some], soft * _BLURS
    )
    telling = _TELLING * (_FOR_PICTURE / len(some)) ** 0.5  # few fibres tell less
    counts = np.exp(-(left - left.min()) / telling)
    counts /= counts.sum()
    blur, q = float(np.exp(counts @ np.log(blurs))), float(counts @ _ROUNDS)
    doubt = float(np.sqrt(counts @ (wide - counts @ wide) ** 2))
    every = np.ones(len(light))
    # Every other sample is as good as all.
    width, left_over = _searched(
        light[:, ::2], offset[:, ::2], start, reach, blur * every, q * every
    )
    return EdgeFit(width, left_over, blur, q, doubt)


def _softness(light: Real, offset: Real) -> float:
    """Return the blur that a flat fibre of edges as steep would have: at most so much there is."""
    step = (offset[:, 1] - offset[:, 0])[:, None]
    slope = np.abs(np.gradient(light, axis=1) / step).max(axis=1)
    height = light.max(axis=1) - np.percentile(light, 8, axis=1)
    return float(np.clip(np.median(height / np.maximum(slope, 1e-9)) / 2.5, 0.5, 4.0))


def _by_roundness(
    light: Real, offset: Real, start: Real, reach: Real, blurs: Real
) -> tuple[Real, Real, Real]:
    """Return for each of _ROUNDS what the best blur leaves, the mean width there, and that blur.

    What is left is a mean logarithm over the rows, all fitted as far out as `reach`.
    """
    rows, tried = len(light), len(blurs)
    blur = np.repeat(blurs, rows)
    lights, offsets = np.tile(light, (tried, 1)), np.tile(offset, (tried, 1))
    begin, out = np.tile(start, tried), np.tile(reach, tried)
    found = []
    for q in _ROUNDS:
        roundness = np.full(len(blur), q)
        width, over = _searched(lights, offsets, begin, out, blur, roundness)
        left = np.log(np.maximum(over, 1e-6)).reshape(tried, rows).mean(axis=1)
        wide = width.reshape(tried, rows).mean(axis=1)
        best = int(np.clip(np.argmin(left), 1, tried - 2))
        a, b, c = left[best - 1 : best + 2]
        bend = a - 2.0 * b + c
        move = float(np.clip(0.5 * (a - c) / bend, -1.0, 1.0)) if bend > 0 else 0.0
        at = best + move
        places = np.arange(tried)
        found.append(
            (
                b - 0.25 * (a - c) * move if bend > 0 else float(left.min()),
                np.interp(at, places, wide),
                np.exp(np.interp(at, places, np.log(blurs))),
            )
        )
    columns = np.array(found).T
    return columns[0], columns[1], columns[2]


def _searched(
    light: Real, offset: Real, start: Real, reach: Real, blur: Real, q: Real
) -> tuple[Real, Real]:
    """Return the width of least residual for each row, first in coarse steps, then in fine."""
    away = np.abs(offset)
    weight: Real = ((away <= reach[:, None]) & (away >= _INNER * 0.5 * start[:, None])).astype(
        float
    )
    play = np.maximum(0.2 * start, 2.5 * blur)
    low, high = np.maximum(start - play, 1.5), start + play
    width = start
    left = np.ones(len(light))
    for count in (7, 5):
        tried = low[None, :] + (high - low)[None, :] * np.linspace(0, 1, count)[:, None]
        over = np.array([_left_over(light, offset, w, weight, blur, q) for w in tried])
        best = np.clip(np.argmin(over, axis=0), 1, count - 2)
        rows = np.arange(len(light))
        a, b, c = (over[best + k, rows] for k in (-1, 0, 1))
        bend = a - 2 * b + c
        move = np.where(bend > 0, 0.5 * (a - c) / np.where(bend > 0, bend, 1.0), 0.0)
        step = (high - low) / (count - 1)
        width = low + step * (best + np.clip(move, -1, 1))
        left = np.min(over, axis=0)
        low, high = width - step, width + step
    return width, np.sqrt(left)


def _left_over(light: Real, offset: Real, width: Real, weight: Real, blur: Real, q: Real) -> Real:
    """Return the share of each profile's variance that a fibre of `width` does not explain."""
    half = 0.5 * width[:, None]
    u = offset / half
    flat, round_, lean = _shapes(u, blur[:, None] / half)
    face = (1 - q)[:, None] * flat + q[:, None] * round_
    terms = np.stack([np.ones_like(u), 0.05 * offset, face, lean], axis=2)
    heavy = terms * weight[:, :, None]
    turned = heavy.transpose(0, 2, 1)
    square = turned @ terms
    square += np.eye(_TERMS) * 1e-4 * np.trace(square, axis1=1, axis2=2)[:, None, None] / _TERMS
    mean = (light * weight).sum(axis=1, keepdims=True) / weight.sum(axis=1, keepdims=True)
    off = light - mean
    factors = np.linalg.solve(square, turned @ off[:, :, None])
    rest = off - (terms @ factors)[:, :, 0]
    return np.asarray((weight * rest**2).sum(axis=1) / (weight * off**2).sum(axis=1))


def _shapes(u: Real, share: Real) -> tuple[Real, Real, Real]:
    """Return the blurred flat, round and leaning shape at `u` half widths from the middle."""
    flat, round_, lean = _table()
    low, high = np.log(_SHARES[0]), np.log(_SHARES[-1])
    row = (np.log(np.clip(share, _SHARES[0], _SHARES[-1])) - low) / (high - low)
    row = np.broadcast_to(row * (len(_SHARES) - 1), u.shape)
    column = (np.clip(u, -_REACH, _REACH) + _REACH) / (2 * _REACH) * (_STEPS - 1)
    return tuple(sampled(one, column, row).astype(float) for one in (flat, round_, lean))  # type: ignore[return-value]


@cache
def _table() -> tuple[Map, Map, Map]:
    """Return the three shapes, a row for each blur of _SHARES."""
    fine = 8
    u = np.linspace(-_REACH, _REACH, (_STEPS - 1) * fine + 1)
    inside = np.abs(u) <= 1.0
    shapes = [inside * 1.0, np.sqrt(np.clip(1 - u**2, 0, 1)), u * inside]
    waves = np.fft.rfftfreq(2 * len(u), u[1] - u[0])
    rows: list[list[Real]] = [[], [], []]
    for share in _SHARES:
        soften = np.exp(-2.0 * (np.pi * waves * share) ** 2)
        for kept, shape in zip(rows, shapes, strict=True):
            wide = np.fft.irfft(np.fft.rfft(shape, 2 * len(u)) * soften)[: len(u)]
            kept.append(wide[::fine])
    flat, round_, lean = (np.array(kept, dtype=np.float32) for kept in rows)
    return flat, round_, lean
