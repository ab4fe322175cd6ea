"""Pictures of a stage micrometer drawn from its geometry, with all that spoils one."""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
from PIL import Image
from scipy.special import erf

from benchlog.microscope.picture import GreyPicture, read_picture


@dataclass(frozen=True)
class Scale:
    period: float = 20.0
    turned_deg: float = 2.0
    size: tuple[int, int] = (640, 480)
    blur: float = 1.2
    contrast: float = 0.6
    noise: float = 0.01
    jpeg: int = 85
    line: float = 0.2
    lines: int = 400
    missing: tuple[int, ...] = ()
    vignette: float = 0.0
    barrel: float = 0.0
    grid: bool = False
    dirt: int = 0
    bright: bool = False
    seed: int = 1


def marks(u: np.ndarray, v: np.ndarray, s: Scale, length: float) -> np.ndarray:
    """How much ink lies on each point: every fifth mark longer, every tenth longest."""
    number = np.round(u / s.period)
    offset = u - number * s.period
    half = s.line * s.period / 2
    root = np.sqrt(2) * max(s.blur, 0.3)
    ink = (erf((offset + half) / root) - erf((offset - half) / root)) / 2
    reach = np.where(number % 10 == 0, 1.0, np.where(number % 5 == 0, 0.8, 0.6)) * length
    ends = (1 - erf((np.abs(v) - reach) / root)) / 2
    there = (np.abs(number) <= s.lines // 2) & ~np.isin(number, s.missing)
    return ink * ends * there


def drawn(s: Scale) -> GreyPicture:
    return read_picture(drawn_bytes(s))


def drawn_bytes(s: Scale) -> bytes:
    """The picture as a JPEG file's bytes."""
    width, height = s.size
    rng = np.random.default_rng(s.seed)
    y, x = np.mgrid[:height, :width].astype(float)
    x, y = x - width / 2 + rng.uniform(-3, 3), y - height / 2 + rng.uniform(-3, 3)
    away = (x**2 + y**2) / (width / 2) ** 2
    x, y = x * (1 + s.barrel * away), y * (1 + s.barrel * away)
    turn = np.deg2rad(s.turned_deg)
    u, v = x * np.cos(turn) + y * np.sin(turn), -x * np.sin(turn) + y * np.cos(turn)
    ink = marks(u, v, s, 1e9 if s.grid else height * 0.45)
    if s.grid:
        ink = np.maximum(ink, marks(v, u, s, 1e9))
    for _ in range(s.dirt):
        cx, cy, r = rng.uniform(-width / 2, width / 2), rng.uniform(-height / 2, height / 2), 8
        ink = np.maximum(ink, np.exp(-((((x - cx) ** 2 + (y - cy) ** 2) / r**2) ** 2)))
    light = 0.15 + s.contrast * ink if s.bright else 0.75 - s.contrast * ink
    light *= 1 - s.vignette * np.clip(away, 0, 1)
    light += rng.normal(0, s.noise, light.shape)
    value = (255 * np.clip(light, 0, 1) ** (1 / 2.2)).round().astype(np.uint8)
    out = io.BytesIO()
    Image.fromarray(value).save(out, "JPEG", quality=s.jpeg)
    return out.getvalue()
