"""What lies around the specimens: a mat, a backdrop, a steel ruler, a card with the nickname."""

from __future__ import annotations

import math

from PIL import Image, ImageFilter

from .models import Colour, Model
from .paint import HEIGHT, WIDTH, Pen, Scene, lit, mix, row

MAT: Colour = (106, 112, 117)
PAPER: Colour = (244, 241, 232)
INK: Colour = (40, 42, 46)
RULER_TOP = HEIGHT - 118
RULER_BOTTOM = HEIGHT - 22


def mat(seed: int, mm: float) -> Scene:
    """Start a scene that looks straight down on a mat with a centimetre grid."""
    scene = Scene(seed, MAT)
    _light_from_upper_left(scene)
    step, nth = 10 * mm, 0
    while nth * step < WIDTH:
        width = 1.6 if nth % 5 == 0 else 0.8
        x, y = nth * step, nth * step
        lines = scene.mask(
            lambda pen, x=x, y=y, width=width: (
                pen.line([(x, 0), (x, HEIGHT)], width),
                pen.line([(0, y), (WIDTH, y)], width),
            )
        )
        scene.fill(lines, (176, 182, 186), 0.2)
        nth += 1
    scene.grain(1.0, 0.1)
    return scene


def stage(seed: int, edge: float = 760) -> Scene:
    """Start a scene that looks across the mat at a plain backdrop; they meet at `edge`."""
    scene = Scene(seed, MAT)
    colours = []
    for step in range(240):
        y = step / 240 * HEIGHT
        wall = mix((150, 155, 160), (196, 199, 201), min(1.0, y / edge))
        floor = mix((122, 127, 132), (92, 97, 102), max(0.0, (y - edge) / (HEIGHT - edge)))
        colours.append(mix(wall, floor, 1 / (1 + math.exp(-(y - edge) / 16))))
    column = row(colours).transpose(Image.Transpose.ROTATE_270)
    scene.image.paste(column.resize(scene.image.size, Image.Resampling.BICUBIC))
    _light_from_upper_left(scene)
    scene.grain(1.0, 0.07)
    return scene


def _light_from_upper_left(scene: Scene) -> None:
    glow = Image.radial_gradient("L").resize((64, 64)).point(lambda far: 255 - far)
    spread = Image.new("L", (96, 72))
    spread.paste(glow, (-4, -16))
    soft = spread.filter(ImageFilter.GaussianBlur(6)).resize(
        scene.image.size, Image.Resampling.BICUBIC
    )
    scene.fill(soft, (255, 252, 244), 0.24)


def ruler(scene: Scene, mm: float, start: float = 30, top: float = RULER_TOP) -> None:
    """Lay a steel ruler along the lower edge; its zero is `start` pixels from the left."""
    bottom = top + RULER_BOTTOM - RULER_TOP
    plate = scene.mask(lambda pen: pen.box((start - 18, top, WIDTH + 40, bottom), corner=5))
    scene.shadow(plate, dx=5, dy=7, soft=6)
    steel = [lit((214, 217, 220), 0.84 + 0.16 * math.sin(x / 9.0)) for x in range(64)]
    scene.fill(plate, row(steel))
    marks = scene.mask(lambda pen: _ruler_marks(pen, mm, start, top))
    scene.fill(marks, INK)
    centimetre = 0
    while start + centimetre * 10 * mm < WIDTH - 12:
        # Every second numeral where the marks stand too close for all of them.
        if mm > 2.5 or centimetre % 5 == 0:
            scene.write(start + centimetre * 10 * mm, top + 64, str(centimetre), 22, INK)
        centimetre += 1
    scene.write(start + 5 * mm if mm > 5 else WIDTH - 40, top + 82, "cm", 15, INK)


def _ruler_marks(pen: Pen, mm: float, start: float, top: float) -> None:
    nth = 0
    while start + nth * mm < WIDTH:
        x = start + nth * mm
        length = 40 if nth % 10 == 0 else 30 if nth % 5 == 0 else 20
        pen.line([(x, top + 3), (x, top + length)], 1.7 if nth % 10 == 0 else 1.2)
        nth += 1


def tag(scene: Scene, model: Model, x: float, y: float) -> None:
    """Lay down a small paper card with the nickname."""
    width, height = 236, 96
    card = scene.mask(lambda pen: pen.box((x, y, x + width, y + height), corner=7))
    scene.shadow(card, dx=4, dy=5, soft=5)
    scene.fill(card, PAPER)
    stripe = scene.mask(lambda pen: pen.box((x, y, x + 26, y + height), corner=7))
    scene.fill(stripe, model.enamel)
    scene.write(x + 26 + (width - 26) / 2, y + height / 2, model.nickname, 40, INK)
