"""Outlines as plain drawing steps: move, line, quadratic and cubic curve, close."""

from __future__ import annotations

import math
from typing import TypeAlias

from benchlog.sheet.cards.look import Area

Step: TypeAlias = tuple[str, tuple[float, ...]]
"""A letter of M, L, Q, C and Z, and its coordinates x, y, x, y …; control points come first."""

Path: TypeAlias = tuple[Step, ...]
"""Closed outlines. What they wind around is filled; an outline against the others' way cuts out."""

_ROUND = 0.5522847498
"""Length of the handles of a quarter circle of radius 1: 4/3 (√2 − 1)."""


def polygon(points: list[tuple[float, float]]) -> Path:
    """Return a closed outline of straight sides."""
    steps: list[Step] = [("M" if n == 0 else "L", point) for n, point in enumerate(points)]
    return (*steps, ("Z", ()))


def rectangle(area: Area) -> Path:
    """Return an upright rectangle."""
    left, top, right, bottom = area.left, area.top, area.right, area.bottom
    return polygon([(left, top), (right, top), (right, bottom), (left, bottom)])


def circle(x: float, y: float, r: float, *, cut_out: bool = False) -> Path:
    """Return a circle; `cut_out` winds it the other way."""
    k, turn = _ROUND * r, -1 if cut_out else 1
    corners = [(0, -r), (turn * r, 0), (0, r), (-turn * r, 0), (0, -r)]
    handles = [(turn * k, 0), (0, k), (-turn * k, 0), (0, -k), (turn * k, 0)]
    steps: list[Step] = [("M", (x, y - r))]
    for n in range(4):
        (ax, ay), (bx, by) = corners[n], corners[n + 1]
        (hx, hy), (gx, gy) = handles[n], handles[n + 1]
        curve = (x + ax + hx, y + ay + hy, x + bx - gx, y + by - gy, x + bx, y + by)
        steps.append(("C", curve))
    return (*steps, ("Z", ()))


def ring(x: float, y: float, r: float, width: float) -> Path:
    """Return a circle's line, as thick as `width`, its middle at radius `r`."""
    return circle(x, y, r + width / 2) + circle(x, y, r - width / 2, cut_out=True)


def around(x: float, y: float, radii: tuple[float, ...], points: int) -> Path:
    """Return a closed outline of `points` corners about a centre, from the top, radii in turn."""
    corners = []
    for n in range(points):
        angle = 2 * math.pi * n / points
        r = radii[n % len(radii)]
        corners.append((x + r * math.sin(angle), y - r * math.cos(angle)))
    return polygon(corners)


def bar(ax: float, ay: float, bx: float, by: float, width: float) -> Path:
    """Return a straight stroke as an outline."""
    length = math.hypot(bx - ax, by - ay)
    nx, ny = -(by - ay) / length * width / 2, (bx - ax) / length * width / 2
    return polygon([(ax + nx, ay + ny), (ax - nx, ay - ny), (bx - nx, by - ny), (bx + nx, by + ny)])


def moved(path: Path, x: float, y: float, scale: float = 1.0) -> Path:
    """Return a path scaled about the origin, then moved."""
    return tuple(
        (step, tuple(scale * c + (y if n % 2 else x) for n, c in enumerate(where)))
        for step, where in path
    )


def bounds(path: Path) -> Area | None:
    """Return the area that holds all points and handles; None for an empty path."""
    xs = [c for _, where in path for c in where[::2]]
    ys = [c for _, where in path for c in where[1::2]]
    return Area(min(xs), min(ys), max(xs), max(ys)) if xs else None
