"""The parts of a filter, upright and seen from a little above; `tilt` flattens their circles."""

from __future__ import annotations

import math
from itertools import pairwise

from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont

from .models import DARK_STEEL, SHADE, STEEL, Colour, Model
from .paint import FINE, FONT, Pen, Scene, lit, mix, round_surface, row, turned_disc

FLUTES = 15


def tube(scene: Scene, x: float, ends: tuple[float, float], r: float, tilt: float) -> Image.Image:
    """Return the mask of an upright tube's outside, between the middles of its two end circles."""
    top, bottom = ends

    def paint(pen: Pen) -> None:
        pen.box((x - r, top, x + r, bottom))
        pen.oval(x, bottom, r, r * tilt)
        pen.oval(x, top, r, r * tilt, ink=0)

    return scene.mask(paint)


def ground_shadow(scene: Scene, x: float, y: float, r: float, tilt: float) -> None:
    """Darken what a round thing stands on: close beneath it, and away from the light."""
    foot = scene.mask(lambda pen: pen.oval(x, y, r, r * tilt))
    scene.shadow(foot, dx=0.75 * r, dy=r * 0.12, soft=r * 0.16, strength=0.34)
    scene.shadow(foot, dx=0.3 * r, dy=r * 0.06, soft=r * 0.08, strength=0.4)
    scene.shadow(foot, dx=0.01 * r, dy=0.01 * r, soft=0.025 * r, strength=0.6)


def label(model: Model, radius: float, height: float) -> Image.Image:
    """Return the can's band as it is before it is wrapped: half a turn wide."""
    width, tall = round(math.pi * radius * FINE), round(height * FINE)
    flat = Image.new("RGB", (width, tall), model.band)
    draw = ImageDraw.Draw(flat)
    for share in (0.08, 0.86):
        draw.rectangle((0, tall * share, width, tall * (share + 0.06)), fill=model.lettering)
    font = ImageFont.truetype(str(FONT), round(tall * 0.42))
    draw.text((width * 0.5, tall * 0.48), model.nickname, model.lettering, font, anchor="mm")
    return flat


def wrap(
    scene: Scene, flat: Image.Image, x: float, top: float, r: float, tilt: float, gloss: float
) -> None:
    """Bend a flat picture around the front half of a tube."""
    wide, sag = round(2 * r * FINE), round(r * tilt * FINE)
    bent = Image.new("RGB", (wide, flat.height + sag))
    mask = Image.new("L", bent.size)
    for column in range(wide):
        across = max(-1.0, min(1.0, 2 * (column + 0.5) / wide - 1))
        source = (math.asin(across) / math.pi + 0.5) * (flat.width - 1)
        strip = flat.crop((int(source), 0, int(source) + 1, flat.height))
        drop = round(sag * math.sqrt(1 - across * across))
        bent.paste(strip, (column, drop))
        mask.paste(255, (column, drop, column + 1, drop + flat.height))
    light = round_surface((255, 255, 255), 0).resize(bent.size)
    shine = round_surface((0, 0, 0), gloss).resize(bent.size)
    bent = ImageChops.screen(ImageChops.multiply(bent, light), shine)
    scene.image.paste(bent, (round((x - r) * FINE), round(top * FINE)), mask)


def can(scene: Scene, model: Model, x: float, foot: float, mm: float, tilt: float) -> None:
    """Stand the whole filter on its base plate."""
    r, high = model.can_diameter / 2 * mm, model.can_height * mm
    top = foot - high
    ground_shadow(scene, x, foot, r, tilt)

    rim = scene.mask(lambda pen: _solid(pen, x, (foot - 5 * mm, foot), r + 0.8 * mm, tilt))
    scene.fill(rim, round_surface(lit(model.enamel, 0.86), 0.7))
    body = scene.mask(lambda pen: _domed(pen, x, (top, foot - 5.6 * mm), r, tilt, 24 * mm))
    scene.shadow(body, dx=0, dy=0.9 * mm, soft=0.7 * mm, strength=0.55)
    scene.fill(body, round_surface(model.enamel, 0.62))
    dome = scene.mask(lambda pen: pen.oval(x - 0.22 * r, top + 8 * mm, 0.5 * r, 4 * mm))
    scene.fill(soft(dome, 40), (255, 255, 255), 0.34)
    _flutes(scene, x, (top + 20 * mm, top + 40 * mm), r)
    wrap(scene, label(model, r, 44 * mm), x, foot - 74 * mm, r, tilt, gloss=0.3 if r > 200 else 0.2)


def _solid(pen: Pen, x: float, ends: tuple[float, float], r: float, tilt: float) -> None:
    top, bottom = ends
    pen.box((x - r, top, x + r, bottom))
    pen.oval(x, bottom, r, r * tilt)
    pen.oval(x, top, r, r * tilt)


def _domed(
    pen: Pen, x: float, ends: tuple[float, float], r: float, tilt: float, dome: float
) -> None:
    """Draw an upright can whose upper end is pressed into a dome."""
    top, bottom = ends
    crown = []
    for step in range(181):
        across = step / 90 - 1
        crown.append((x + r * across, top + dome * (1 - (1 - abs(across) ** 2.7) ** (1 / 2.7))))
    pen.shape([*crown, (x + r, bottom), (x - r, bottom)])
    pen.oval(x, bottom, r, r * tilt)


def _flutes(scene: Scene, x: float, ends: tuple[float, float], r: float) -> None:
    """Press the grip's flats into the can, near its dome."""
    top, bottom = ends
    for nth in range(FLUTES + 1):
        turn = math.pi * (nth / FLUTES - 0.5)
        here, width = x + r * math.sin(turn), r * 0.035 * max(0.12, math.cos(turn))
        for shift, ink, strength in ((0.0, SHADE, 0.34), (1.6 * width, (255, 255, 255), 0.26)):
            groove = scene.mask(
                lambda pen, at=here + shift, wide=width: pen.box(
                    (at - wide, top, at + wide, bottom), corner=wide
                )
            )
            scene.fill(soft(groove, 3), ink, strength)


def soft(mask: Image.Image, blur: float) -> Image.Image:
    """Return the mask with soft edges; worked out small, since nothing sharp remains."""
    part = max(1, min(8, round(blur / 4)))
    small = mask.resize((mask.width // part, mask.height // part))
    from_small = small.filter(ImageFilter.GaussianBlur(blur * FINE / part))
    return from_small.resize(mask.size, Image.Resampling.BICUBIC)


def opened_can(scene: Scene, model: Model, x: float, foot: float, mm: float, tilt: float) -> None:
    """Stand the can, its base plate cut off, with its cut edge up."""
    r, high = model.can_diameter / 2 * mm, (model.can_height - 8) * mm
    top = foot - high
    ground_shadow(scene, x, foot, r, tilt)
    scene.fill(tube(scene, x, (top, foot - 2 * mm), r, tilt), round_surface(model.enamel, 0.5))
    wrap(scene, label(model, r, 44 * mm), x, top + 42 * mm, r, tilt, gloss=0.2)
    edge = scene.mask(lambda pen: pen.oval(x, top, r, r * tilt))
    scene.fill(edge, turned_disc((222, 224, 226), 200, model.seed))
    inside = scene.mask(lambda pen: pen.oval(x, top, r - 1.3 * mm, (r - 1.3 * mm) * tilt))
    wall = [lit(STEEL, 0.16 + 0.62 * (step / 255) ** 1.6) for step in range(256)]
    scene.fill(inside, row(wall))
    deep = scene.mask(lambda pen: pen.oval(x - 0.1 * r, top + 0.14 * r, 0.8 * r, 0.7 * r * tilt))
    scene.fill(ImageChops.multiply(soft(deep, 14), inside), SHADE, 0.8)


def element(scene: Scene, model: Model, x: float, foot: float, mm: float, tilt: float) -> None:
    """Stand the element: pleats between two end caps, the centre hole up."""
    r, high = model.element_diameter / 2 * mm, model.element_height * mm
    ground_shadow(scene, x, foot, r, tilt)
    _cap_side(scene, model, x, (foot - 4 * mm, foot), r, tilt)
    _pleats(scene, model, x, (foot - high, foot - 4 * mm), 0.965 * r, tilt)
    top = foot - high
    _cap_side(scene, model, x, (top - 0.5 * mm, top + 3.5 * mm), r, tilt)
    _cap_face(scene, model, x, top - 0.5 * mm, r, tilt)


def _cap_side(
    scene: Scene, model: Model, x: float, ends: tuple[float, float], r: float, tilt: float
) -> None:
    side = tube(scene, x, ends, r, tilt)
    scene.shadow(side, dx=0, dy=r * 0.025, soft=r * 0.02, strength=0.5)
    scene.fill(side, round_surface(model.cap, 0.08 if model.cap_is_card else 0.6))


def _cap_face(scene: Scene, model: Model, x: float, y: float, r: float, tilt: float) -> None:
    face = scene.mask(lambda pen: pen.oval(x, y, r, r * tilt))
    if model.cap_is_card:
        tones = [lit(model.cap, 1.08 - 0.16 * step / 63) for step in range(64)]
        scene.fill(face, row(tones))
        fibre = scene.mask(lambda pen: _specks(scene, pen, x, y, r, tilt))
        scene.fill(ImageChops.multiply(fibre, face), lit(model.cap, 0.72), 0.5)
    else:
        scene.fill(face, turned_disc(lit(model.cap, 1.08), 300, model.seed))
    step = scene.mask(lambda pen: pen.ring(x, y, (0.72 * r, 0.69 * r), tilt))
    scene.fill(step, lit(model.cap, 0.6), 0.7)
    light = scene.mask(lambda pen: pen.ring(x, y + 0.012 * r, (0.735 * r, 0.72 * r), tilt))
    scene.fill(light, (255, 255, 255), 0.4)
    hole = scene.mask(lambda pen: pen.oval(x, y, 0.4 * r, 0.4 * r * tilt))
    wall = [lit(DARK_STEEL, 0.2 + 0.7 * (nth / 127) ** 1.5) for nth in range(128)]
    scene.fill(hole, row(wall))
    deep = scene.mask(lambda pen: pen.oval(x - 0.03 * r, y + 0.1 * r, 0.34 * r, 0.34 * r * tilt))
    scene.fill(ImageChops.multiply(soft(deep, 8), hole), SHADE, 0.9)


def _specks(scene: Scene, pen: Pen, x: float, y: float, r: float, tilt: float) -> None:
    for _ in range(900):
        px, py = x + scene.chance.uniform(-r, r), y + scene.chance.uniform(-r, r) * tilt
        turn, long = scene.chance.uniform(0, math.pi), scene.chance.uniform(3, 9)
        pen.line([(px, py), (px + long * math.cos(turn), py + long * math.sin(turn) * tilt)], 0.8)


def _pleats(
    scene: Scene, model: Model, x: float, ends: tuple[float, float], r: float, tilt: float
) -> None:
    """Draw the visible half of the pleats, each a lit and a shaded flank."""
    top, bottom = ends
    draw = ImageDraw.Draw(scene.image)
    turns = [math.pi * (nth / model.pleats - 0.5) for nth in range(model.pleats + 1)]
    wobble = [scene.chance.uniform(-0.26, 0.26) * math.pi / model.pleats for _ in turns]
    edges = [turn + shift for turn, shift in zip(turns, wobble, strict=True)]
    for nth, (left, right) in enumerate(pairwise(edges)):
        middle = (left + right) / 2
        light = 0.34 + 0.78 * max(0.0, math.cos(middle + 0.5))
        flank = 1.1 if nth % 2 else 0.66
        steps = 4
        for step in range(steps):
            a = left + (right - left) * step / steps
            b = left + (right - left) * (step + 1) / steps
            depth = (step + 0.5) / steps if nth % 2 else 1 - (step + 0.5) / steps
            tone = lit(model.media, light * flank * (0.72 + 0.34 * depth))
            draw.polygon(_flank(x, (a, b), (top, bottom), r, tilt), fill=tone)
    caps = scene.mask(lambda pen: pen.box((x - r, top, x + r, top + 0.16 * r)))
    scene.fill(soft(caps, 12), SHADE, 0.3)


def _flank(
    x: float, turns: tuple[float, float], ends: tuple[float, float], r: float, tilt: float
) -> list[tuple[float, float]]:
    corners = [(turns[0], ends[0]), (turns[1], ends[0]), (turns[1], ends[1]), (turns[0], ends[1])]
    return [
        ((x + r * math.sin(turn)) * FINE, (y + r * tilt * math.cos(turn)) * FINE)
        for turn, y in corners
    ]


def spring(
    scene: Scene,
    x: float,
    foot: float,
    size: tuple[float, float],
    turns: float,
    wire: float,
    tilt: float,
) -> None:
    """Stand a coil spring; `size` is its radius and free length."""
    r, high = size
    ground_shadow(scene, x, foot, r, tilt)
    steps = round(turns * 72)
    points = []
    for step in range(steps + 1):
        turn = 2 * math.pi * turns * step / steps
        # The end coils lie flat, as on a ground spring.
        rise = min(1.0, max(0.0, (step / steps * turns - 0.75) / max(0.1, turns - 1.5)))
        points.append(
            (x + r * math.cos(turn), foot - wire / 2 - high * rise + r * tilt * math.sin(turn))
        )
    halves = [(points[first : first + 37], (first // 36) % 2 == 0) for first in range(0, steps, 36)]
    for piece, in_front in sorted(halves, key=lambda half: half[1]):
        _wire(scene, piece, wire, 1.0 if in_front else 0.55)


def _wire(scene: Scene, points: list[tuple[float, float]], wire: float, light: float) -> None:
    for width, shift, tone in (
        (1.0, 0.0, 0.42),
        (0.76, -0.05, 0.8),
        (0.4, -0.12, 1.12),
        (0.14, -0.2, 1.42),
    ):
        moved = [(px, py + shift * wire) for px, py in points]
        thread = scene.mask(lambda pen, at=moved, w=width: pen.line(at, w * wire))
        scene.fill(thread, lit(STEEL, tone * light))


def flat_ring(
    scene: Scene, x: float, y: float, radii: tuple[float, float], tilt: float, colour: Colour
) -> None:
    """Lay down a rubber ring."""
    ring = scene.mask(lambda pen: pen.ring(x, y, radii, tilt))
    scene.shadow(ring, dx=10, dy=8, soft=7, strength=0.6)
    scene.fill(ring, turned_disc(colour, 200, 3))
    outer, inner = radii
    middle = (outer + inner) / 2
    shine = scene.mask(
        lambda pen: pen.ring(x - 1, y - 2, (middle + (outer - inner) * 0.12, middle), tilt)
    )
    scene.fill(soft(shine, 2), mix(colour, (255, 255, 255), 0.6), 0.5)
