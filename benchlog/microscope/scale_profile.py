"""From a picture of parallel lines to one profile across them: which way they run, what they do.

The picture is turned so that its lines stand upright, cut into strips of rows, and the strips are
added with the small shift that makes the sum sharpest. A profile is far quieter than a row.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchlog.microscope.kernels import Map, slopes, smoothed, turned

Line = NDArray[np.float64]

_STRIP = 16
_EDGE_BLUR = 1.0
_BACKGROUND = 1 / 16  # of the longer side: far wider than a line, far narrower than the vignette


@dataclass(frozen=True)
class Profile:
    """Mean light across the lines, column by column of the turned picture.

    Column 0 lies at `origin` of the picture (x, y), half way down the lines; each further one is
    a pixel on in direction `step`. Lines run in direction `along`, not quite square to it: they
    lie `per_column` pixels further for each column. `half_length` is in pixels.
    """

    light: Line
    origin: tuple[float, float]
    step: tuple[float, float]
    along: tuple[float, float]
    per_column: float
    half_length: float


def profile_across(light: Map) -> Profile:
    """Return the profile across the most pronounced set of parallel lines."""
    even = evened(light)
    angle = strongest_direction(even)
    height, width = light.shape
    reach = abs(width * np.cos(angle)) + abs(height * np.sin(angle))
    depth = abs(width * np.sin(angle)) + abs(height * np.cos(angle))
    size = (int(np.ceil(reach)), int(np.ceil(depth)))
    affine = _turn(angle, size, (width, height))
    upright = turned(even, affine, size, 0.0)
    share = turned(np.ones_like(even), affine, size, 0.0)
    strips, weights = _strips(upright), _strips(share)
    lean = _sharpest_lean(strips, weights)
    summed, weight = _leaned(strips, lean), _leaned(weights, lean)
    known = weight > 0.2 * weight.max()
    first, last = np.flatnonzero(known)[[0, -1]]
    middle = (size[1] - 1) / 2
    values = (summed[first : last + 1] / np.maximum(weight[first : last + 1], 1e-6)).astype(float)
    begin = affine @ np.array([first, middle, 1.0])
    exact = angle + np.arctan(lean / _STRIP)
    return Profile(
        values,
        origin=(float(begin[0]), float(begin[1])),
        step=(float(np.cos(angle)), float(np.sin(angle))),
        along=(float(-np.sin(exact)), float(np.cos(exact))),
        per_column=float(np.cos(exact - angle)),
        half_length=float(depth / 2),
    )


def evened(light: Map) -> Map:
    """Return the light divided by its own heavily blurred self: 1 where nothing stands out."""
    ground = smoothed(light, max(light.shape) * _BACKGROUND)
    return np.asarray(light / np.maximum(ground, 1e-4), dtype=np.float32) - 1.0


def strongest_direction(light: Map) -> float:
    """Return the angle, in radians in [0, π), along which the light changes most."""
    gx, gy = slopes(light, _EDGE_BLUR)
    edge = 4  # the mirrored frame bends the slopes
    gx, gy = gx[edge:-edge, edge:-edge], gy[edge:-edge, edge:-edge]
    weight = gx**2 + gy**2
    strong = weight > np.percentile(weight[::3, ::3], 80)
    if not strong.any():
        return 0.0
    angles = np.mod(np.arctan2(gy[strong], gx[strong]), np.pi)
    histogram = np.bincount((angles / np.pi * 360).astype(int) % 360, weight[strong], 360)
    around = np.convolve(np.tile(histogram, 3), np.hanning(7), "same")[360:720]
    best = float(np.argmax(around)) / 360 * np.pi
    off = np.mod(angles - best + np.pi / 2, np.pi) - np.pi / 2
    near = np.abs(off) < np.deg2rad(3)
    return float(np.mod(best + np.average(off[near], weights=weight[strong][near]), np.pi))


def _turn(angle: float, new: tuple[int, int], old: tuple[int, int]) -> NDArray[np.float64]:
    """Return the matrix from points of the turned picture to those of the old one."""
    c, s = np.cos(angle), np.sin(angle)
    middle = np.array([(old[0] - 1) / 2, (old[1] - 1) / 2])
    turn = np.array([[c, -s], [s, c]])
    shift = middle - turn @ np.array([(new[0] - 1) / 2, (new[1] - 1) / 2])
    return np.column_stack([turn, shift])


def _strips(values: Map) -> Line:
    count = max(1, values.shape[0] // _STRIP)
    start = (values.shape[0] - count * _STRIP) // 2
    return np.add.reduceat(
        values[start : start + count * _STRIP].astype(np.float64),
        np.arange(0, count * _STRIP, _STRIP),
        axis=0,
    )


def _leaned(strips: Line, lean: float) -> Line:
    """Return the sum of the strips, each moved by `lean` pixels more than the one above it."""
    columns = np.arange(strips.shape[1], dtype=float)
    centre = (len(strips) - 1) / 2
    moved = (np.interp(columns - lean * (i - centre), columns, s) for i, s in enumerate(strips))
    return np.asarray(sum(moved))


def _sharpest_lean(strips: Line, weights: Line) -> float:
    """Return the shift from strip to strip that gives the sum of the strips the most contrast."""
    if len(strips) < 3:
        return 0.0
    reach = _STRIP * np.tan(np.deg2rad(1.5))
    tried = np.linspace(-reach, reach, 61)
    total = np.maximum(weights.sum(axis=0), 1e-6)
    inside = weights.sum(axis=0) > 0.2 * total.max()

    def contrast(lean: float) -> float:
        return float(np.var((_leaned(strips, lean) / total)[inside]))

    for _ in range(3):
        heights = np.array([contrast(lean) for lean in tried])
        best = int(np.argmax(heights))
        step = tried[1] - tried[0]
        tried = np.linspace(tried[best] - step, tried[best] + step, 11)
    return float(tried[len(tried) // 2])
