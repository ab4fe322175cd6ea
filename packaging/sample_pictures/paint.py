"""A scene to paint on: masks, shaded surfaces, cast shadows, grain. Coordinates in end pixels."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from pathlib import Path

from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont

from .models import Colour

FINE = 2
"""Everything is drawn this many times larger, and made smaller at the end."""
WIDTH, HEIGHT = 1600, 1200
FONT = Path(__file__).parents[2] / "resources" / "fonts" / "DejaVuSansCondensed-Bold.ttf"
Box = tuple[float, float, float, float]
Points = Sequence[tuple[float, float]]


def mix(a: Colour, b: Colour, share: float) -> Colour:
    """Return `a` with a share of `b`."""
    return tuple(round(x + (y - x) * share) for x, y in zip(a, b, strict=True))  # type: ignore[return-value]


def lit(colour: Colour, light: float) -> Colour:
    """Return the colour under more (above 1) or less light."""
    return tuple(max(0, min(255, round(part * light))) for part in colour)  # type: ignore[return-value]


def row(colours: Sequence[Colour]) -> Image.Image:
    """Return one line of pixels."""
    line = Image.new("RGB", (len(colours), 1))
    line.putdata(list(colours))
    return line


def round_surface(colour: Colour, gloss: float, steps: int = 512) -> Image.Image:
    """Return how an upright cylinder of this colour looks from left to right, as one line."""
    colours = []
    for step in range(steps):
        turn = math.asin(max(-1.0, min(1.0, 2 * (step + 0.5) / steps - 1)))
        light = 0.26 + 0.86 * max(0.0, math.cos(turn + 0.62))
        light += 0.22 * math.exp(-(((turn - 1.22) / 0.2) ** 2))  # the bench's light from behind
        shine = math.exp(-(((turn + 0.66) / 0.1) ** 2)) + 0.45 * math.exp(
            -(((turn + 0.3) / 0.05) ** 2)
        )
        colours.append(mix(lit(colour, light), (255, 255, 255), min(1.0, gloss * shine)))
    return row(colours)


def turned_disc(colour: Colour, size: int, seed: int) -> Image.Image:
    """Return a disc of lathe-turned metal, on a square of `size` end pixels."""
    small = 512
    disc = Image.new("RGB", (small, small), colour)
    draw = ImageDraw.Draw(disc)
    for degree in range(360):
        bright = 0.5 + 0.5 * math.cos(2 * math.radians(degree + 52))
        light = 0.74 + 0.42 * bright**2
        reach = (-small, -small, 2 * small, 2 * small)
        draw.pieslice(reach, degree - 1, degree + 1, fill=lit(colour, light))
    disc = disc.filter(ImageFilter.GaussianBlur(5)).resize((size * FINE, size * FINE))
    rings = Image.new("L", disc.size, 128)
    draw, chance, middle = ImageDraw.Draw(rings), random.Random(seed), size * FINE / 2
    radius = middle
    while radius > 2:
        box = (middle - radius, middle - radius, middle + radius, middle + radius)
        draw.ellipse(box, outline=128 + chance.randint(-14, 14), width=3)
        radius -= 3
    return ImageChops.overlay(disc, Image.merge("RGB", [rings] * 3))


class Scene:
    """One picture in the making."""

    def __init__(self, seed: int, background: Colour) -> None:
        self.chance = random.Random(seed)
        self.image = Image.new("RGB", (WIDTH * FINE, HEIGHT * FINE), background)

    def mask(self, paint: Callable[[Pen], None]) -> Image.Image:
        """Return a mask of what `paint` draws."""
        mask = Image.new("L", self.image.size)
        paint(Pen(mask))
        return mask

    def fill(self, mask: Image.Image, surface: Colour | Image.Image, strength: float = 1.0) -> None:
        """Paint a surface through a mask; a picture is stretched over the mask's extent."""
        box = mask.getbbox()
        if box is None:
            return
        part = mask.crop(box)
        if strength < 1:
            part = part.point(lambda level: round(level * strength))
        if isinstance(surface, Image.Image):
            size = (box[2] - box[0], box[3] - box[1])
            self.image.paste(surface.resize(size, Image.Resampling.BILINEAR), box, part)
        else:
            self.image.paste(surface, box, part)

    def shadow(
        self, mask: Image.Image, *, dx: float, dy: float, soft: float, strength: float = 0.6
    ) -> None:
        """Cast the mask's shadow on what is there."""
        eighth = mask.resize((mask.width // 8, mask.height // 8))
        moved = Image.new("L", eighth.size)
        moved.paste(eighth, (round(dx * FINE / 8), round(dy * FINE / 8)))
        blurred = moved.filter(ImageFilter.GaussianBlur(soft * FINE / 8))
        self.fill(blurred.resize(mask.size, Image.Resampling.BICUBIC), (10, 11, 14), strength)

    def write(
        self, x: float, y: float, text: str, size: float, ink: Colour, anchor: str = "mm"
    ) -> None:
        """Write a text."""
        font = ImageFont.truetype(str(FONT), round(size * FINE))
        ImageDraw.Draw(self.image).text((x * FINE, y * FINE), text, ink, font, anchor=anchor)

    def grain(self, cell: float, strength: float) -> None:
        """Roughen everything with noise whose specks are `cell` pixels large."""
        size = (round(WIDTH / cell), round(HEIGHT / cell))
        noise = Image.frombytes("L", size, self.chance.randbytes(size[0] * size[1]))
        even = noise.filter(ImageFilter.GaussianBlur(0.6))
        level = even.point(lambda v: round(128 + (v - 128) * strength))
        large = level.resize(self.image.size, Image.Resampling.BICUBIC)
        self.image = ImageChops.overlay(self.image, Image.merge("RGB", [large] * 3))

    def finished(self) -> Image.Image:
        """Return the picture in its end size, a little darker towards the corners."""
        picture = self.image.resize((WIDTH, HEIGHT), Image.Resampling.LANCZOS)
        dim = Image.radial_gradient("L").resize((WIDTH, HEIGHT), Image.Resampling.BICUBIC)
        dim = dim.point(lambda far: round(255 - 0.3 * max(0, far - 90)))
        return ImageChops.multiply(picture, Image.merge("RGB", [dim] * 3))


class Pen:
    """Draws on a mask in end pixels; `ink` 0 rubs out."""

    def __init__(self, mask: Image.Image) -> None:
        self.draw = ImageDraw.Draw(mask)

    def box(self, box: Box, *, corner: float = 0, ink: int = 255) -> None:
        self.draw.rounded_rectangle(_fine_box(box), corner * FINE, fill=ink)

    def oval(self, x: float, y: float, rx: float, ry: float, *, ink: int = 255) -> None:
        self.draw.ellipse(_fine_box((x - rx, y - ry, x + rx, y + ry)), fill=ink)

    def ring(self, x: float, y: float, radii: tuple[float, float], ratio: float = 1.0) -> None:
        """Draw what lies between two radii, flattened by `ratio`."""
        outer, inner = radii
        self.oval(x, y, outer, outer * ratio)
        self.oval(x, y, inner, inner * ratio, ink=0)

    def shape(self, points: Points, *, ink: int = 255) -> None:
        self.draw.polygon([(x * FINE, y * FINE) for x, y in points], fill=ink)

    def line(self, points: Points, width: float, *, ink: int = 255) -> None:
        thick = max(1, round(width * FINE))
        self.draw.line([(x * FINE, y * FINE) for x, y in points], ink, thick, joint="curve")


def _fine_box(box: Box) -> tuple[float, float, float, float]:
    left, top, right, bottom = box
    return left * FINE, top * FINE, right * FINE, bottom * FINE
