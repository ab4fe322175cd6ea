"""Where fibre ends and opening begins: the grey level of the steepest edges, near and far.

Fibres in focus have the steepest edges. Each grey level has a contour; the level whose contour
runs through the steepest ground is the one that parts the top layer from what lies deeper.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from benchlog.microscope.kernels import Map, Mask, sampled, shrunk, slopes, smoothed

EDGE_BLUR = 0.8
_BINS = 200
_LEAST = 0.004  # of all slope: levels that fewer edges cross say nothing
_TILE = 8
_EVERY = 2  # pixels along rows and columns: edges are some pixels wide
_STRIP = 256  # rows of outline at a time
_RIM_FROM = 4_000_000  # pixels: of a larger picture some strips say as much
_NOISE_FROM = 2_000_000  # pixels say enough
_REACH = 60.0  # pixels over which the level may change


@dataclass(frozen=True)
class Levels:
    """The level of the whole picture and that of each place.

    `steepness` is the mean slope at the level, `contrast` the bright side's typical light less
    the dark side's, `noise` the standard deviation of a pixel; all in evened light.
    """

    middle: float
    local: Map
    steepness: float
    contrast: float
    noise: float


def levels_of(light: Map) -> Levels:
    """Return the level between fibre and opening of an evened picture."""
    soft = smoothed(light, EDGE_BLUR)
    steep = steepness_at(soft, _EVERY)
    soft = np.ascontiguousarray(soft[::_EVERY, ::_EVERY])
    middle, at_middle = _steepest_level(soft, steep)
    edge = steep > 0.5 * at_middle
    low, high = _sides(soft, edge, middle)
    near = edge & (np.abs(soft - middle) < 0.35 * (high - low))
    return Levels(
        middle,
        _local(soft, steep, near, middle, light.shape),
        at_middle,
        high - low,
        _noise(light),
    )


def steepness_at(soft: Map, every: int) -> Map:
    """Return how steep a smoothed picture is at every n-th pixel."""
    gx, gy = slopes(soft, 0.0)
    return np.asarray(np.hypot(gx[::every, ::every], gy[::every, ::every]), dtype=np.float32)


def _steepest_level(soft: Map, steep: Map) -> tuple[float, float]:
    """Return the level at which sum g² / sum g is largest, and that mean slope."""
    s, g = soft.ravel(), steep.ravel()
    low, high = np.percentile(s[::7], [0.5, 99.5])
    if not high > low:
        return float(low), 0.0
    place = np.clip(((s - low) / (high - low) * _BINS).astype(np.int32), 0, _BINS - 1)
    once = _softened(np.bincount(place, weights=g, minlength=_BINS))
    twice = _softened(np.bincount(place, weights=g * g, minlength=_BINS))
    told = once > _LEAST * once.sum()
    mean = np.where(told, twice / np.maximum(once, 1e-12), 0.0)
    best = int(np.argmax(mean))
    return float(low + (best + 0.5) / _BINS * (high - low)), float(mean[best])


def _softened(counts: NDArray[Any]) -> NDArray[np.float64]:
    kernel = np.hanning(15)
    return np.asarray(np.convolve(counts, kernel / kernel.sum(), "same"))


def _sides(soft: Map, edge: NDArray[np.bool_], middle: float) -> tuple[float, float]:
    """Return the typical light on the dark and on the bright side of the level."""
    away = soft[::2, ::2][~edge[::2, ::2]]
    dark, bright = away[away < middle], away[away >= middle]
    low = float(np.median(dark)) if dark.size else middle
    high = float(np.median(bright)) if bright.size else middle
    return low, high


def _local(
    soft: Map, steep: Map, near: NDArray[np.bool_], middle: float, shape: tuple[int, ...]
) -> Map:
    """Return the mean light of the steepest edges about each place; `middle` where none are.

    The map has the picture's `shape`.
    """
    height, width = shape
    weight = np.where(near, steep * steep, np.float32(0.0)).astype(np.float32)
    rows, columns = max(1, height // _TILE), max(1, width // _TILE)
    reach = _REACH / _TILE
    over = smoothed(shrunk(weight * soft, columns, rows), reach)
    under = smoothed(shrunk(weight, columns, rows), reach)
    trust = 0.2 * float(under.mean()) + 1e-12
    coarse = ((over + trust * middle) / (under + trust)).astype(np.float32)
    return _grown(coarse, height, width)


def _grown(coarse: Map, height: int, width: int) -> Map:
    """Return a coarse map at full size, smoothly."""
    rows, columns = coarse.shape
    y = ((np.arange(height) + 0.5) * rows / height - 0.5).astype(np.float32)
    x = ((np.arange(width) + 0.5) * columns / width - 0.5).astype(np.float32)
    out = np.empty((height, width), dtype=np.float32)
    for top in range(0, height, 256):
        part = slice(top, min(top + 256, height))
        grid_x, grid_y = np.meshgrid(x, y[part])
        out[part] = sampled(coarse, grid_x, grid_y)
    return out


def soft_share(light: Map, fibres: Mask) -> float:
    """Return the share of the fibres' outline that is less than half as steep as its steep part.

    Fibres of one layer share one blur. A second, deeper layer that passed for the first one shows
    as outline far softer than the rest, however bright it is.
    """
    strips = range(0, len(light), _STRIP * max(1, round(light.size / _RIM_FROM)))
    rim = np.concatenate(
        [_rim(light[top : top + _STRIP], fibres[top : top + _STRIP]) for top in strips]
    )
    if rim.size < 100:
        return 0.0
    return float(np.mean(rim < 0.45 * np.percentile(rim, 80)))


def _rim(light: Map, fibres: Mask) -> NDArray[np.float32]:
    """Return how steep the light is along the outline of the fibres."""
    inner = np.ones_like(fibres)
    inner[1:] &= fibres[:-1]
    inner[:-1] &= fibres[1:]
    inner[:, 1:] &= fibres[:, :-1]
    inner[:, :-1] &= fibres[:, 1:]
    at = fibres & ~inner
    gx, gy = slopes(light, EDGE_BLUR)
    return np.asarray(np.hypot(gx[at], gy[at]))


def _noise(light: Map) -> float:
    """Return the noise of a pixel from differences of neighbours, edges left out by the median."""
    every = 2 * max(1, round((light.size / _NOISE_FROM) ** 0.5))
    part = light[: light.shape[0] // 2 * 2, : light.shape[1] // 2 * 2]
    corners = [part[y::every, x::every] for y in (0, 1) for x in (0, 1)]
    cross = corners[0] - corners[1] - corners[2] + corners[3]
    return float(np.median(np.abs(cross)) * 1.4826 / 2.0)
