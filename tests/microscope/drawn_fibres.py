"""Fibre mats drawn from their geometry: arcs and lines of known width, lit, blurred and stored.

The truth comes from the geometry alone: which points lie on a fibre of the top layer, and how wide
each fibre is.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, field

import numpy as np
from PIL import Image
from scipy.ndimage import gaussian_filter

from benchlog.microscope.picture import GreyPicture, read_picture


@dataclass(frozen=True)
class Mat:
    """What is drawn; lengths in pixels, light as shares of full scale, linear."""

    width: float = 14.0
    spread: float = 0.25  # of the logarithm of the widths
    style: str = "ribbon"  # ribbon, round, glass, core
    light: str = "above"
    open_share: float = 0.6
    size: tuple[int, int] = (800, 600)
    blur: float = 0.8
    noise: float = 0.01
    jpeg: int = 90
    deep: tuple[tuple[float, float], ...] = ((0.30, 3.0), (0.15, 6.0))  # brightness, blur
    vignette: float = 1.5  # light in the middle over light in the corners
    exposure: float = 0.85
    sharpened: float = 0.0
    second_width: float = 0.0  # a blend: every other fibre about this wide
    shadow: float = 0.25
    curved: bool = True
    seed: int = 1


@dataclass
class Drawn:
    """A picture with its truth: the top layer's mask, and each fibre's width and length."""

    picture: GreyPicture
    mask: np.ndarray
    owner: np.ndarray  # which fibre lies uppermost; -1 where none does
    widths: np.ndarray
    lengths: np.ndarray
    coded: np.ndarray = field(repr=False)

    @property
    def open_share(self) -> float:
        return float(1.0 - self.mask.mean())

    def width_at(self, share: float) -> float:
        order = np.argsort(self.widths)
        running = np.cumsum(self.lengths[order])
        return float(np.interp(share * running[-1], running, self.widths[order]))

    @property
    def mean_width(self) -> float:
        return float(np.average(self.widths, weights=self.lengths))


def shade(u: np.ndarray, mat: Mat, texture: np.ndarray) -> np.ndarray:
    """Light of a fibre at u = -1 … 1 across it: sent back from above, let through from below."""
    limb = np.sqrt(np.clip(1 - u**2, 0, 1))
    if mat.light == "below":
        if mat.style == "ribbon":
            return 0.40 + 0.06 * texture
        if mat.style == "core":
            return 0.15 + 0.60 * limb**4
        return 0.15 + 0.30 * limb
    if mat.style == "round":
        return 0.10 + 0.65 * limb + 0.25 * np.exp(-(((u - 0.2) / 0.15) ** 2))
    if mat.style == "glass":
        return 0.35 + 0.25 * u**4 + 0.40 * np.exp(-((u / 0.3) ** 2))
    return 0.80 + 0.10 * texture


@dataclass(frozen=True)
class Fibre:
    width: float
    tone: float
    x: float
    y: float
    angle: float
    radius: float  # 0 for a straight one

    def offset(self, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        """Signed distance from the centreline."""
        nx, ny = -np.sin(self.angle), np.cos(self.angle)
        if self.radius == 0:
            return ((x - self.x) * nx + (y - self.y) * ny).astype(np.float32)
        cx, cy = self.x + self.radius * nx, self.y + self.radius * ny
        return (np.hypot(x - cx, y - cy) - abs(self.radius)).astype(np.float32)


def fibres(mat: Mat, rng: np.random.Generator, open_share: float) -> list[Fibre]:
    """Random fibres until they would leave `open_share` open: exp(-Σ width × length / area)."""
    width, height = mat.size
    made, covered, aim = [], 0.0, -np.log(open_share)
    while covered < aim:
        middle = mat.second_width if mat.second_width and len(made) % 2 else mat.width
        w = middle * np.exp(mat.spread * rng.standard_normal())
        reach = np.hypot(width, height) / 2
        # Uniform isotropic lines through the circle about the frame: angle and distance uniform.
        angle, away = rng.uniform(0, np.pi), rng.uniform(-reach, reach)
        along = rng.uniform(-reach, reach)
        x = width / 2 - away * np.sin(angle) + along * np.cos(angle)
        y = height / 2 + away * np.cos(angle) + along * np.sin(angle)
        radius = rng.choice([-1, 1]) * reach * rng.uniform(1.5, 8) if mat.curved else 0.0
        made.append(Fibre(w, rng.uniform(0.75, 1.0), x, y, angle, radius))
        covered += w * (np.pi / 2 * reach) / (np.pi * reach**2)  # mean chord of a circle: πR/2
    return made


def laid(canvas: np.ndarray, mat: Mat, made: list[Fibre], dim: float) -> tuple[np.ndarray, list]:
    """Lay fibres on a canvas of light one by one; return who lies on top, and lengths."""
    height, width = canvas.shape
    y, x = np.mgrid[:height, :width].astype(np.float32)
    owner, lengths = np.full(canvas.shape, -1, np.int16), []
    wave = 2 * np.pi / 7 / mat.width
    for number, one in enumerate(made):
        offset = one.offset(x, y)
        half = one.width / 2
        near = np.flatnonzero(np.abs(offset) < half + 4)
        d = offset.ravel()[near]
        cover = np.clip(half + 0.5 - np.abs(d), 0, 1)
        texture = np.sin(wave * (x.ravel()[near] + 0.3 * y.ravel()[near]) + one.x)
        light = shade(d / half, mat, texture) * one.tone * dim
        old = canvas.ravel()[near]
        if mat.light == "below":
            # Deep fibres let nearly all light by: they are far out of focus and thin.
            new = old * (1 - cover * (1 - shade(d / half, mat, texture)) * dim)
        else:
            beside = np.clip(1 - (np.abs(d) - half) / 3, 0, 1) * mat.shadow
            new = old * (1 - beside * (1 - cover)) * (1 - cover) + light * cover
        canvas.ravel()[near] = new
        inside = np.abs(d) < half
        owner.ravel()[near[inside]] = number
        lengths.append(inside.sum() / one.width)
    return owner, lengths


def drawn(mat: Mat) -> Drawn:
    rng = np.random.default_rng(mat.seed)
    width, height = mat.size
    canvas = np.full((height, width), 0.95 if mat.light == "below" else 0.03, np.float32)
    for dim, blur in reversed(mat.deep):
        laid(canvas, mat, fibres(mat, rng, 0.7), dim)
        canvas = gaussian_filter(canvas, blur)
    made = fibres(mat, rng, mat.open_share)
    owner, lengths = laid(canvas, mat, made, 1.0)
    coded = stored(canvas, mat, rng)
    out = io.BytesIO()
    Image.fromarray(coded).save(out, "JPEG", quality=mat.jpeg)
    widths = np.array([one.width for one in made])
    picture = read_picture(out.getvalue())
    return Drawn(picture, owner >= 0, owner, widths, np.array(lengths), coded)


def stored(canvas: np.ndarray, mat: Mat, rng: np.random.Generator) -> np.ndarray:
    """What the camera makes of the light: lens, light fall-off, noise, curve and sharpening."""
    height, width = canvas.shape
    y, x = np.mgrid[:height, :width].astype(np.float32)
    away = np.hypot(x - width / 2, y - height / 2) / np.hypot(width / 2, height / 2)
    light = gaussian_filter(canvas, mat.blur) * mat.exposure
    light *= 1 - (1 - 1 / mat.vignette) * away**2
    shot = mat.noise * np.sqrt(0.25 + np.clip(light, 0, 1))
    light = np.clip(light + shot * rng.standard_normal(light.shape), 0, 1)
    bent = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    if mat.sharpened:
        bent = bent + mat.sharpened * (bent - gaussian_filter(bent, 1.0))
    return (255 * np.clip(bent, 0, 1)).round().astype(np.uint8)
