"""Fibre width from the whole shape of its profile, not from where it is steepest.

The steepest point of a profile is its edge only for a flat ribbon. A round fibre lit from above
grows dark towards its limb, and the steepest point lies inside the edge; one lit from below has
dark rims, and it lies outside. So the outer part of each profile is fitted with a fibre of given
width under a given blur: in part flat, in part falling off as a cylinder's face turns away
(Lambert: the root of 1 - u²), leaning a little. Blur and roundness belong to the picture and are
those that leave the least over all its fibres; then each fibre's width is what leaves the least.
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
_INNER = 0.5  # nearer the middle, glints say nothing of the edge
_TERMS = 4
_BLURS = np.geomspace(0.55, 4.0, 7)
_ROUNDS = np.linspace(-0.6, 1.0, 5)
_FOR_PICTURE = 60  # stretches are enough to find blur and roundness


@dataclass(frozen=True)
class EdgeFit:
    """Fitted widths in pixels and what each fit leaves, as a share of the profile's height.

    `blur` (standard deviation in pixels) and `roundness` (0 flat, 1 a dull cylinder lit from
    above, below 0 a fibre with dark rims lit from below) are the picture's.
    """

    width: Real
    left_over: Real
    blur: float
    roundness: float


def fitted_widths(light: Real, offset: Real, start: Real) -> EdgeFit:
    """Return the widths of mean profiles near `start`, each row sampled at `offset` pixels."""
    if not len(light):
        return EdgeFit(np.zeros(0), np.zeros(0), 0.0, 0.0)
    some = np.linspace(0, len(light) - 1, min(_FOR_PICTURE, len(light))).astype(int)
    rows = light[some, ::2], offset[some, ::2], start[some]  # every other sample says enough
    over = np.array([[_typical(*rows, b, q) for q in _ROUNDS] for b in _BLURS])
    at = np.unravel_index(int(np.argmin(over)), over.shape)
    step_b, step_q = np.log(_BLURS[1] / _BLURS[0]), _ROUNDS[1] - _ROUNDS[0]
    blur, q, best = float(_BLURS[at[0]]), float(_ROUNDS[at[1]]), float(over[at])
    for _ in range(2):
        step_b, step_q = step_b / 2, step_q / 2
        near = [(b, r) for b in (-1, 0, 1) for r in (-1, 0, 1) if b or r]
        tried = [(blur * np.exp(b * step_b), q + r * step_q) for b, r in near]
        results = [_typical(*rows, b, r) for b, r in tried]
        if min(results) < best:
            best = min(results)
            blur, q = tried[int(np.argmin(results))]
    width, left_over = _searched(light, offset, start, blur, q)
    return EdgeFit(width, left_over, float(blur), float(q))


def _typical(light: Real, offset: Real, start: Real, blur: float, q: float) -> float:
    """Return the median over the rows of what the best width leaves."""
    return float(np.median(_searched(light, offset, start, blur, q)[1]))


def _searched(light: Real, offset: Real, start: Real, blur: float, q: float) -> tuple[Real, Real]:
    """Return the width of least residual for each row, first in coarse steps, then in fine."""
    play = np.maximum(0.2 * start, 2.5 * blur)
    low, high = np.maximum(start - play, 1.5), start + play
    width = start
    left = np.ones(len(light))
    for count in (9, 5):
        tried = low[None, :] + (high - low)[None, :] * np.linspace(0, 1, count)[:, None]
        over = np.array([_left_over(light, offset, w, start, blur, q) for w in tried])
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


def _left_over(light: Real, offset: Real, width: Real, start: Real, blur: float, q: float) -> Real:
    """Return the share of each profile's variance that a fibre of `width` does not explain."""
    half = 0.5 * width[:, None]
    u = offset / half
    outer = 0.5 * start[:, None] + 3.0 * blur + 1.5
    weight = ((np.abs(offset) <= outer) & (np.abs(offset) >= _INNER * 0.5 * start[:, None])) * 1.0
    flat, round_, lean = _shapes(u, blur / half)
    terms = np.stack([np.ones_like(u), offset / outer, (1 - q) * flat + q * round_, lean], axis=2)
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
