"""The base plate's face, from straight above or flattened by `tilt`."""

from __future__ import annotations

import math

from .models import DARK_STEEL, RUBBER, SHADE, STEEL, Model
from .paint import Scene, lit, mix, turned_disc
from .parts import flat_ring, soft

GASKET_MM = (35.5, 30.6)
HOLES_AT_MM = 21.5
HOLE_MM = 3.7
BORE_MM = 9.4


def base_plate(
    scene: Scene,
    model: Model,
    x: float,
    y: float,
    mm: float,
    tilt: float = 1.0,
    *,
    gasket: bool = True,
) -> None:
    """Lay the base plate down, its outside up."""
    r = model.can_diameter / 2 * mm
    whole = scene.mask(lambda pen: pen.oval(x, y, r, r * tilt))
    scene.shadow(whole, dx=0.05 * r + 6, dy=0.05 * r + 6, soft=0.04 * r + 5, strength=0.75)
    if tilt < 1:
        edge = scene.mask(lambda pen: pen.oval(x, y + 3.0 * mm, r, r * tilt))
        scene.fill(edge, turned_disc(lit(model.enamel, 0.55), 200, 5))
    scene.fill(whole, turned_disc(model.enamel, 420, model.seed))
    for radii, tone in (
        ((r - 3.2 * mm, 0.0), 0.42),
        ((r - 4.2 * mm, 0.0), 0.95),
        ((r - 8.6 * mm, 0.0), 0.5),
        ((r - 9.4 * mm, 0.0), 1.02),
    ):
        step = scene.mask(lambda pen, at=radii[0]: pen.oval(x, y, at, at * tilt))
        scene.fill(step, turned_disc(lit(STEEL, tone), 420, model.seed + 1))
    if gasket:
        flat_ring(scene, x, y, (GASKET_MM[0] * mm, GASKET_MM[1] * mm), tilt, RUBBER)
    for nth in range(model.holes):
        turn = 2 * math.pi * (nth + 0.25) / model.holes
        at = (x + HOLES_AT_MM * mm * math.cos(turn), y + HOLES_AT_MM * mm * math.sin(turn) * tilt)
        _inlet(scene, model, at, HOLE_MM * mm, tilt)
    _bore(scene, x, y, mm, tilt)


def _inlet(scene: Scene, model: Model, at: tuple[float, float], r: float, tilt: float) -> None:
    """Punch one inlet hole; the valve's rubber shows behind it."""
    x, y = at
    lip = scene.mask(lambda pen: pen.oval(x, y, r * 1.14, r * 1.14 * tilt))
    scene.fill(lip, (250, 250, 252), 0.55)
    wall = scene.mask(
        lambda pen: pen.oval(x - 0.05 * r, y - 0.05 * r * tilt, r * 1.04, r * 1.04 * tilt)
    )
    scene.fill(wall, SHADE)
    behind = scene.mask(
        lambda pen: pen.oval(x + 0.14 * r, y + 0.16 * r * tilt, 0.84 * r, 0.84 * r * tilt)
    )
    scene.fill(soft(behind, 2), lit(model.valve, 0.72))


def _bore(scene: Scene, x: float, y: float, mm: float, tilt: float) -> None:
    """Cut the thread: a collar, turns that go into the dark, the centre tube far below."""
    r = BORE_MM * mm
    for radius, tone in ((1.36, 0.5), (1.33, 1.15), (1.1, 0.62), (1.07, 1.0)):
        ring = scene.mask(lambda pen, at=radius * r: pen.oval(x, y, at, at * tilt))
        scene.fill(ring, turned_disc(lit(STEEL, tone), 200, 7))
    turns = 9
    for nth in range(turns):
        depth = nth / turns
        radius = r * (1 - 0.26 * depth)
        # Each turn of the thread shows its crest, then the flank that lies in shade.
        for shrink, tone in ((1.0, 1.0), (0.985, 0.45)):
            ring = scene.mask(
                lambda pen, at=radius * shrink, d=depth: pen.oval(
                    x + 0.05 * r * d, y + 0.07 * r * d, at, at * tilt
                )
            )
            tint = mix(lit(STEEL, tone), SHADE, 0.15 + 0.7 * depth)
            scene.fill(ring, turned_disc(tint, 160, nth))
    dark = scene.mask(lambda pen: pen.oval(x + 0.05 * r, y + 0.07 * r, 0.72 * r, 0.72 * r * tilt))
    scene.fill(soft(dark, 3), SHADE)
    glint = scene.mask(
        lambda pen: pen.oval(x + 0.2 * r, y + 0.24 * r * tilt, 0.34 * r, 0.34 * r * tilt)
    )
    scene.fill(soft(glint, 12), DARK_STEEL, 0.4)
