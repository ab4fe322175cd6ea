"""Even out the light: fit a smooth surface to a picture's brightness and divide it away.

A first surface follows the mean light of tiles; where fibres lie dense it takes them for light.
Once fibres are told from openings, a second one is fitted to the light within each side, so that
how many fibres lie somewhere no longer counts.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from benchlog.microscope.kernels import Map, Mask, shrunk

_TILES = 24  # along the longer side
_SAMPLES = 160  # along each side, for the second surface
_STRIP = 256
_ROUNDS = 8


@dataclass(frozen=True)
class Evened:
    """Light divided by the surface of illumination, and that surface's brightest over darkest."""

    light: Map
    ratio: float


def evened_by_tiles(light: Map) -> Evened:
    """Return the light with the fall-off towards the corners roughly taken out."""
    height, width = light.shape
    scale = max(height, width) / _TILES
    rows, columns = max(4, round(height / scale)), max(4, round(width / scale))
    tiles = shrunk(light, columns, rows)
    x, y = _grid(rows, columns, light.shape)
    return _evened(light, _fitted(_logarithm(tiles), x, y, [np.ones(tiles.size, dtype=bool)]))


def evened_by_sides(light: Map, bright: Mask, every: int = 1) -> Evened:
    """Return the light with its fall-off taken out, fibres and openings each by their own mean.

    `bright` tells the sides at every `every`-th pixel.
    """
    down = max(1, bright.shape[0] // _SAMPLES)
    across = max(1, bright.shape[1] // _SAMPLES)
    taken = light[::every, ::every][::down, ::across]
    side = bright[::down, ::across].ravel()
    x, y = _grid(taken.shape[0], taken.shape[1], light.shape)
    return _evened(light, _fitted(_logarithm(taken), x, y, [side, ~side]))


def _logarithm(light: Map) -> NDArray[np.float64]:
    return np.log(np.maximum(light, 1e-4)).astype(np.float64).ravel()


def _fitted(
    values: NDArray[np.float64],
    x: NDArray[np.float64],
    y: NDArray[np.float64],
    sides: list[NDArray[np.bool_]],
) -> NDArray[np.float64]:
    """Return the factors of the surface's terms; each side has a level of its own.

    Robust (Cauchy weights), and the side that varies less weighs more.
    """
    present = [side for side in sides if side.sum() > 20]
    terms = np.column_stack([_terms(x, y), *(side.astype(float) for side in present)])
    weight = np.any(present, axis=0).astype(float)
    factors = np.zeros(terms.shape[1])
    for _ in range(_ROUNDS):
        heavy = (terms * (weight * weight)[:, None]).T
        factors = np.linalg.lstsq(heavy @ terms, heavy @ values, rcond=None)[0]
        off = values - terms @ factors
        for side in present:
            spread = 1.4826 * float(np.median(np.abs(off[side]))) + 0.02
            weight[side] = 1.0 / spread / np.sqrt(1.0 + (off[side] / (2.0 * spread)) ** 2)
    return factors[: -len(present)]


def _evened(light: Map, factors: NDArray[np.float64]) -> Evened:
    height, width = light.shape
    across, down = _places(height, width, light.shape)
    out = np.empty_like(light)
    low, high = np.inf, -np.inf
    for top in range(0, height, _STRIP):
        rows = slice(top, min(top + _STRIP, height))
        surface = _surface(across, down[rows], factors)
        low, high = min(low, float(surface.min())), max(high, float(surface.max()))
        np.divide(light[rows], np.exp(surface), out=out[rows])
    return Evened(out, float(np.exp(high - low)))


def _middles(count: int) -> NDArray[np.float64]:
    return (np.arange(count) + 0.5) / count * 2.0 - 1.0


def _places(
    rows: int, columns: int, shape: tuple[int, ...]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return x of columns and y of rows over a picture of `shape`, corners 1 from the middle."""
    corner = float(np.hypot(shape[0], shape[1]))
    return _middles(columns) * shape[1] / corner, _middles(rows) * shape[0] / corner


def _grid(rows: int, columns: int, shape: tuple[int, ...]) -> tuple[NDArray[Any], NDArray[Any]]:
    """Return x and y of every point of a grid over a picture of `shape`."""
    y, x = np.meshgrid(*_places(rows, columns, shape)[::-1], indexing="ij")
    return x.ravel(), y.ravel()


def _terms(x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return slopes, bends and the fourth power of the distance from the middle."""
    return np.column_stack([x, y, x * x, x * y, y * y, (x * x + y * y) ** 2])


def _surface(
    across: NDArray[np.float64], down: NDArray[np.float64], factors: NDArray[np.float64]
) -> Map:
    """Return the fitted surface on rows `down` and columns `across`."""
    x, y = across.astype(np.float32)[None, :], down.astype(np.float32)[:, None]
    a, b, c, d, e, f = (np.float32(v) for v in factors)
    surface = x * (a + c * x + d * y) + y * (b + e * y) + f * (x * x + y * y) ** 2
    return np.asarray(surface, dtype=np.float32)
