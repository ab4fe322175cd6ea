"""A box of voxels with cylinders laid in it, looked at from above: the second generator.

Nothing is shared with the drawn mats: cylinders are filled voxel by voxel, what is seen is the
uppermost filled voxel of each column, light falls on the slope of that relief, and depth blurs it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter

from benchlog.microscope.picture import GreyPicture


@dataclass(frozen=True)
class Box:
    diameter: float = 14.0
    spread: float = 0.2
    cylinders: int = 40
    size: tuple[int, int] = (640, 480)
    seed: int = 1
    noise: float = 0.01


@dataclass
class Projected:
    """A picture of the box with its truth from the cylinders."""

    picture: GreyPicture
    mask: np.ndarray
    diameters: np.ndarray
    lengths: np.ndarray

    @property
    def mean_diameter(self) -> float:
        return float(np.average(self.diameters, weights=self.lengths))


def projected(box: Box) -> Projected:
    """Fill the box, one cylinder above the other, and take its picture."""
    rng = np.random.default_rng(box.seed)
    width, height = box.size
    deep = int(2.2 * box.diameter)
    filled = np.zeros((deep, height, width), dtype=bool)
    y, x = np.mgrid[:height, :width].astype(np.float32)
    levels = np.arange(deep, dtype=np.float32)
    mask = np.zeros((height, width), dtype=bool)
    diameters, lengths = [], []
    for _ in range(box.cylinders):
        diameter = box.diameter * np.exp(box.spread * rng.standard_normal())
        angle, reach = rng.uniform(0, np.pi), np.hypot(width, height) / 2
        away = rng.uniform(-reach, reach)
        off = (x - width / 2) * np.sin(angle) - (y - height / 2) * np.cos(angle) - away
        near = np.abs(off) < diameter / 2
        if not near.any():
            continue
        middle = rng.uniform(diameter / 2, deep - diameter / 2) if deep > diameter else deep / 2
        rows, columns = np.nonzero(near)
        across = off[rows, columns]
        body = (levels[:, None] - middle) ** 2 + across[None, :] ** 2 < (diameter / 2) ** 2
        filled[:, rows, columns] |= body
        mask |= near
        diameters.append(diameter)
        lengths.append(near.sum() / diameter)
    return Projected(_seen(filled, box, rng), mask, np.array(diameters), np.array(lengths))


def _seen(filled: np.ndarray, box: Box, rng: np.random.Generator) -> GreyPicture:
    deep = len(filled)
    any_filled = filled.any(axis=0)
    top = np.where(any_filled, deep - 1 - np.argmax(filled[::-1], axis=0), 0).astype(np.float32)
    relief = gaussian_filter(top, 1.0)  # voxels have steps; glass has not
    down, across = np.gradient(relief)
    facing = 1.0 / np.sqrt(1.0 + down**2 + across**2)
    light = np.where(any_filled, 0.25 + 0.6 * facing, 0.04)
    sharp, soft = gaussian_filter(light, 0.8), gaussian_filter(light, 1.5)
    share = gaussian_filter(top / deep, 2.0)
    light = sharp * share + soft * (1 - share)
    light = np.clip(light + box.noise * rng.standard_normal(light.shape), 0, 1).astype(np.float32)
    height, width = light.shape
    return GreyPicture(light, width, height, 16, False, 1, "TIFF")
