"""The six pictures of one specimen."""

from __future__ import annotations

import math
from collections.abc import Callable

from PIL import Image, ImageFilter

from .base_plate import GASKET_MM, base_plate
from .bench import mat, ruler, stage, tag
from .models import RUBBER, SHADE, STEEL, Model
from .paint import HEIGHT, WIDTH, Pen, Points, Scene, lit, mix, row, turned_disc
from .parts import can, element, flat_ring, ground_shadow, opened_can, spring


def whole(model: Model) -> Image.Image:
    """Show the filter upright, as bought."""
    scene = stage(model.seed, edge=770)
    can(scene, model, 760, 985, 7.0, tilt=0.15)
    tag(scene, model, 1230, 930)
    ruler(scene, 7.0)
    return scene.finished()


def base(model: Model) -> Image.Image:
    """Show the base plate from above: gasket, inlet holes, thread."""
    scene = mat(model.seed + 1, mm=10.5)
    base_plate(scene, model, 760, 545, 10.5)
    tag(scene, model, 1310, 930)
    ruler(scene, 10.5)
    return scene.finished()


def parts(model: Model) -> Image.Image:
    """Show what came out, laid out on the bench."""
    scene = stage(model.seed + 2, edge=330)
    tilt, mm = 0.34, 3.9
    opened_can(scene, model, 285, 690, mm, tilt)
    element(scene, model, 740, 690, mm, tilt)
    base_plate(scene, model, 1250, 590, mm, tilt, gasket=False)
    spring(scene, 530, 960, (15 * mm, 32 * mm), model.spring_turns, 2.6 * mm, tilt)
    flat_ring(scene, 860, 925, (GASKET_MM[0] * mm, GASKET_MM[1] * mm), tilt, RUBBER)
    _valve(scene, model, 1260, 920, mm, tilt)
    tag(scene, model, 110, 880)
    ruler(scene, mm)
    return scene.finished()


def _valve(scene: Scene, model: Model, x: float, y: float, mm: float, tilt: float) -> None:
    """Lay down the anti-drain-back valve: a low rubber hat with a hole."""
    ground_shadow(scene, x, y, 30 * mm, tilt)
    for nth in range(24):
        share = nth / 23
        r = (30 - 14 * share**0.6) * mm
        tone = lit(model.valve, 0.6 + 0.75 * share)
        layer = scene.mask(lambda pen, r=r, up=11 * mm * share: pen.oval(x, y - up, r, r * tilt))
        scene.fill(layer, turned_disc(tone, 120, nth))
    hole = scene.mask(lambda pen: pen.oval(x, y - 11 * mm, 10.5 * mm, 10.5 * mm * tilt))
    scene.fill(hole, row([lit(model.valve, 0.15 + 0.6 * step / 63) for step in range(64)]))


def element_side(model: Model) -> Image.Image:
    """Show the element from the side, so that pleats can be counted."""
    scene = stage(model.seed + 3, edge=770)
    element(scene, model, 740, 965, 7.6, tilt=0.13)
    tag(scene, model, 1230, 930)
    ruler(scene, 7.6)
    return scene.finished()


def strip(model: Model) -> Image.Image:
    """Show the unfolded media from its cut end on, the ruler's zero at that end."""
    mm, left, top = 5.4, 110.0, 215.0
    scene = mat(model.seed + 4, mm)
    bottom = top + model.strip_width * mm
    sheet = scene.mask(lambda pen: _sheet(scene, pen, left, (top, bottom)))
    scene.shadow(sheet, dx=7, dy=10, soft=9, strength=0.7)
    for first, tones in _panels(scene, model, left, mm):
        panel = scene.mask(
            lambda pen, at=first, w=tones.width: pen.box((at, top - 4, at + w, bottom + 4))
        )
        scene.fill(Image.composite(panel, Image.new("L", panel.size), sheet), tones)
    # Glue and rub marks where the end caps held the edges.
    for y in (top, bottom):
        glued = scene.mask(lambda pen, y=y: pen.box((left, y - 1.3 * mm, WIDTH, y + 1.3 * mm)))
        scene.fill(Image.composite(glued, Image.new("L", glued.size), sheet), SHADE, 0.22)
    scene.grain(1.2, 0.1)
    for x in (left + 250, 1390):
        _weight(scene, x, top + 6, 13 * mm)
    ruler(scene, mm, start=left, top=bottom + 26)
    tag(scene, model, 1240, 990)
    return scene.finished()


def _sheet(scene: Scene, pen: Pen, left: float, edges: tuple[float, float]) -> None:
    """Cut the strip out, its edges not quite straight, its end cut by hand."""
    top, bottom = edges
    upper = [(left + x, top + scene.chance.uniform(-1.2, 1.2)) for x in range(0, WIDTH, 22)]
    lower = [(x - 2, bottom + scene.chance.uniform(-1.2, 1.2)) for x, _ in reversed(upper)]
    pen.shape([*upper, *lower])


def _panels(scene: Scene, model: Model, left: float, mm: float) -> list[tuple[float, Image.Image]]:
    """Return where each panel between two folds begins, and its shading from fold to fold."""
    step = model.strip_length / (2 * model.pleats) * mm
    found = []
    at, up = left, True
    while at < WIDTH:
        wide = step * scene.chance.uniform(0.94, 1.06)
        tones = []
        for nth in range(max(2, round(wide))):
            share = nth / wide
            slope = math.cos(math.pi * share)
            light = 0.93 + (0.1 if up else -0.1) * slope
            crease = math.exp(-((share / 0.06) ** 2))
            tones.append(lit(model.media, light + (0.1 if up else -0.26) * crease))
        found.append((at, row(tones)))
        at, up = at + len(tones), not up
    return found


def _weight(scene: Scene, x: float, y: float, r: float) -> None:
    """Set a round steel weight on the strip's edge, to keep it flat."""
    disc = scene.mask(lambda pen: pen.oval(x, y, r, r))
    scene.shadow(disc, dx=9, dy=12, soft=8, strength=0.8)
    scene.fill(disc, turned_disc(lit(STEEL, 0.8), 160, 9))
    face = scene.mask(lambda pen: pen.oval(x, y, 0.88 * r, 0.88 * r))
    scene.fill(face, turned_disc(lit(STEEL, 1.1), 160, 10))
    knob = scene.mask(lambda pen: pen.oval(x, y, 0.36 * r, 0.36 * r))
    scene.shadow(knob, dx=4, dy=6, soft=4, strength=0.6)
    scene.fill(knob, turned_disc(lit(STEEL, 1.2), 80, 11))


def closeup(model: Model) -> Image.Image:
    """Show the media under the microscope: one pixel is one micrometre."""
    scene = Scene(model.seed + 5, lit(model.media, 0.16))
    layers, thin, thick = 6, *model.fibre_um
    for layer in range(layers):
        near = layer / (layers - 1)
        for _ in range(round(1400 / (20 + thick))):
            width = scene.chance.uniform(thin, thick) * (0.75 + 0.25 * near)
            _fibre(scene, model, _curve(scene), width, 0.3 + 0.62 * near)
        if layer < layers - 1:
            scene.image = scene.image.filter(ImageFilter.GaussianBlur(3.4 * (1 - near)))
    # No lens at this magnification draws a hard edge.
    scene.image = scene.image.filter(ImageFilter.GaussianBlur(2.2))
    _scale_bar(scene)
    return scene.finished()


def _curve(scene: Scene) -> Points:
    """Return a fibre's way across the field, mostly along the sheet."""
    chance = scene.chance
    x, y = chance.uniform(-300, WIDTH), chance.uniform(-100, HEIGHT + 100)
    turn, bend = chance.gauss(0.0, 0.75), chance.gauss(0, 0.02)
    points = []
    for _ in range(chance.randint(24, 60)):
        points.append((x, y))
        x, y = x + 26 * math.cos(turn), y + 26 * math.sin(turn)
        turn += bend + chance.gauss(0, 0.03)
    return points


def _fibre(scene: Scene, model: Model, points: Points, width: float, light: float) -> None:
    pen = _Brush(scene)
    light *= scene.chance.uniform(0.86, 1.1)
    pen.stroke(points, width + 3, mix(SHADE, model.media, 0.22 * light))
    pen.stroke(points, width, lit(model.media, light * 0.74))
    steps = 7
    for nth in range(1, steps + 1):
        # Ever narrower and lighter towards the side that the lamp is on.
        share, inset = 1 - 0.86 * nth / steps, 0.25 * nth / steps
        moved = [(x - inset * width * 0.6, y - inset * width) for x, y in points]
        pen.stroke(moved, width * share, lit(model.media, light * (0.78 + 0.36 * nth / steps)))


class _Brush(Pen):
    """A pen that draws in colour on the scene itself."""

    def __init__(self, scene: Scene) -> None:
        super().__init__(scene.image)

    def stroke(self, points: Points, width: float, colour: tuple[int, int, int]) -> None:
        self.line(points, width, ink=colour)  # type: ignore[arg-type]
        for x, y in (points[0], points[-1]):
            self.oval(x, y, width / 2, width / 2, ink=colour)  # type: ignore[arg-type]


def _scale_bar(scene: Scene) -> None:
    plate = scene.mask(lambda pen: pen.box((1310, 1066, 1570, 1172), corner=8))
    scene.fill(plate, (14, 14, 16), 0.72)
    bar = scene.mask(lambda pen: pen.box((1340, 1138, 1540, 1150)))
    scene.fill(bar, (255, 255, 255))
    scene.write(1440, 1104, "200 µm", 36, (255, 255, 255))


SCENES: dict[str, Callable[[Model], Image.Image]] = {
    "whole": whole,
    "base": base,
    "parts": parts,
    "element": element_side,
    "strip": strip,
    "closeup": closeup,
}
