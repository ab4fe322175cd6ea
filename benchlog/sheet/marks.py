"""The drawn marks: tags that tell specimens apart, and marks for what a comparison comes to.

Every mark is a shape first and a colour second, so that grey print says the same.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

from reportlab.lib.colors import Color, HexColor
from reportlab.pdfgen.canvas import Canvas

from benchlog.judge.verdict import AwardKind
from benchlog.sheet.drawn import Drawn
from benchlog.sheet.tags import figure
from benchlog.sheet.typography import ACCENT, INK, MUTED, TIE_GREY, WHITE
from benchlog.trade.specimen import Shape, Specimen

LOOKS = {
    AwardKind.WINNER: "a rosette with a tick",
    AwardKind.JOINT_WINNERS: "an open rosette",
    AwardKind.TIE: "a box with an equals sign",
    AwardKind.DIFFERENT: "an arrow both ways",
    AwardKind.CANNOT_SEPARATE: "two circles that overlap",
    AwardKind.NOT_JUDGED: "an empty circle",
}
"""What each outcome's mark looks like, in words."""

HAND_LOOKS = "a pencil"
BY_HAND = "the reviewer says so, against the rules"

_HEX = re.compile(r"#[0-9a-fA-F]{6}")


def tag_colour(specimen: Specimen) -> Color:
    """Return the specimen's colour; ink when what is recorded is no colour."""
    return HexColor(specimen.colour) if _HEX.fullmatch(specimen.colour) else INK


def _polygon(canvas: Canvas, points: Iterable[tuple[float, float]]) -> None:
    path = canvas.beginPath()
    for index, (x, y) in enumerate(points):
        (path.lineTo if index else path.moveTo)(x, y)
    path.close()
    canvas.drawPath(path, fill=1, stroke=1)


def _around(x: float, y: float, radii: tuple[float, ...], points: int) -> list[tuple[float, float]]:
    """Return `points` corners around a centre, beginning at the top, radii taking turns."""
    corners = []
    for index in range(points):
        angle = math.pi / 2 + index * 2 * math.pi / points
        radius = radii[index % len(radii)]
        corners.append((x + radius * math.cos(angle), y + radius * math.sin(angle)))
    return corners


def _cross(x: float, y: float, r: float) -> list[tuple[float, float]]:
    arm = r * 0.36
    corners = [
        (-arm, r), (arm, r), (arm, arm), (r, arm), (r, -arm), (arm, -arm),
        (arm, -r), (-arm, -r), (-arm, -arm), (-r, -arm), (-r, arm), (-arm, arm),
    ]  # fmt: skip
    return [(x + dx, y + dy) for dx, dy in corners]


def draw_tag(
    canvas: Canvas, specimen: Specimen, x: float, y: float, r: float, *, hollow: bool = False
) -> None:
    """Draw a specimen's shape in its colour around a centre; hollow for an estimate."""
    canvas.saveState()
    canvas.setStrokeColor(tag_colour(specimen))
    canvas.setFillColor(WHITE if hollow else tag_colour(specimen))
    canvas.setLineWidth(max(0.7, r * 0.22))
    canvas.setLineJoin(1)
    if specimen.shape is Shape.CIRCLE:
        canvas.circle(x, y, r * 0.92, fill=1, stroke=1)
    elif specimen.shape is Shape.SQUARE:
        side = r * 0.82
        canvas.rect(x - side, y - side, 2 * side, 2 * side, fill=1, stroke=1)
    elif specimen.shape is Shape.TRIANGLE:
        _polygon(canvas, _around(x, y - r * 0.2, (r * 1.12,), 3))
    elif specimen.shape is Shape.DIAMOND:
        _polygon(canvas, _around(x, y, (r * 1.08,), 4))
    elif specimen.shape is Shape.CROSS:
        _polygon(canvas, _cross(x, y, r))
    else:
        _polygon(canvas, _around(x, y, (r * 1.15, r * 0.5), 10))
    canvas.restoreState()


def _rosette(canvas: Canvas, x: float, y: float, r: float, *, is_open: bool) -> None:
    canvas.setFillColor(ACCENT)
    canvas.setStrokeColor(ACCENT)
    canvas.setLineWidth(0.4)
    _polygon(canvas, [(x - r * 0.62, y), (x - r * 0.72, y - r * 1.4), (x - r * 0.05, y - r * 0.75)])
    _polygon(canvas, [(x + r * 0.62, y), (x + r * 0.72, y - r * 1.4), (x + r * 0.05, y - r * 0.75)])
    _polygon(canvas, _around(x, y + r * 0.15, (r, r * 0.82), 24))
    canvas.setFillColor(WHITE)
    if is_open:
        canvas.circle(x, y + r * 0.15, r * 0.5, fill=1, stroke=0)
    else:
        canvas.setStrokeColor(WHITE)
        canvas.setLineWidth(r * 0.2)
        tick = canvas.beginPath()
        tick.moveTo(x - r * 0.4, y + r * 0.15)
        tick.lineTo(x - r * 0.1, y - r * 0.15)
        tick.lineTo(x + r * 0.42, y + r * 0.5)
        canvas.drawPath(tick, fill=0, stroke=1)


def _equal_box(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.setFillColor(TIE_GREY)
    canvas.rect(x - r * 1.15, y - r * 0.95, r * 2.3, r * 1.9, fill=1, stroke=0)
    canvas.setLineWidth(r * 0.3)
    for offset in (-0.34, 0.34):
        canvas.line(x - r * 0.62, y + r * offset, x + r * 0.62, y + r * offset)


def _two_way(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.setLineWidth(r * 0.26)
    canvas.line(x - r * 0.8, y, x + r * 0.8, y)
    canvas.setLineWidth(0.3)
    for side in (-1, 1):
        tip = x + side * r * 1.3
        back = x + side * r * 0.55
        _polygon(canvas, [(tip, y), (back, y + r * 0.55), (back, y - r * 0.55)])


def _overlap(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.setLineWidth(r * 0.22)
    for side in (-0.45, 0.45):
        canvas.circle(x + side * r, y, r * 0.75, fill=0, stroke=1)


def draw_award(
    canvas: Canvas, kind: AwardKind, x: float, y: float, r: float, *, told: str = ""
) -> None:
    """Draw the mark of an outcome around a centre; `r` is half its height.

    `told` is what a reader program is told; "" where words beside the mark say it.
    """
    with figure(canvas, told, (x - 1.4 * r, y - 1.4 * r, x + 1.4 * r, y + 1.2 * r)):
        _award(canvas, kind, x, y, r)


def _award(canvas: Canvas, kind: AwardKind, x: float, y: float, r: float) -> None:
    canvas.saveState()
    canvas.setStrokeColor(INK)
    canvas.setFillColor(INK)
    if kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS):
        _rosette(canvas, x, y, r, is_open=kind is AwardKind.JOINT_WINNERS)
    elif kind is AwardKind.TIE:
        _equal_box(canvas, x, y, r)
    elif kind is AwardKind.DIFFERENT:
        _two_way(canvas, x, y, r)
    elif kind is AwardKind.CANNOT_SEPARATE:
        _overlap(canvas, x, y, r)
    else:
        canvas.setStrokeColor(MUTED)
        canvas.setLineWidth(r * 0.22)
        canvas.circle(x, y, r * 0.78, fill=0, stroke=1)
    canvas.restoreState()


def draw_by_hand(canvas: Canvas, x: float, y: float, r: float, *, told: str = "") -> None:
    """Draw the sign of the reviewer's hand, a pencil, around a centre; `r` is half its height.

    `told` is what a reader program is told; "" where words beside the mark say it.
    """
    with figure(canvas, told, (x - 1.3 * r, y - 1.3 * r, x + 1.3 * r, y + 1.3 * r)):
        _pencil(canvas, x, y, r)


def _pencil(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.saveState()
    canvas.setStrokeColor(INK)
    canvas.setFillColor(INK)
    canvas.setLineWidth(0.3)
    canvas.translate(x, y)
    canvas.rotate(45)
    half = r * 0.36
    _polygon(canvas, [(-half, -r * 0.55), (half, -r * 0.55), (0, -r * 1.3)])
    canvas.setLineWidth(r * 0.2)
    canvas.rect(-half, -r * 0.55, 2 * half, r * 1.75, fill=0, stroke=1)
    canvas.restoreState()


class Tag(Drawn):
    """A specimen's tag as a flowable, for table cells."""

    def __init__(self, specimen: Specimen, r: float = 4.5) -> None:
        super().__init__(2 * r + 2, 2 * r + 2)
        self._specimen = specimen
        self._r = r

    def draw(self) -> None:
        """Draw the tag in its box."""
        draw_tag(self.canv, self._specimen, self._r + 1, self._r + 1, self._r)


class AwardMark(Drawn):
    """The mark of an outcome as a flowable, for table cells."""

    def __init__(self, kind: AwardKind, r: float = 5.0, told: str = "") -> None:
        super().__init__(2.8 * r, 2.6 * r)
        self._kind = kind
        self._r = r
        self._told = told

    def told(self) -> str:
        """Return what a reader program is told; "" where words beside the mark say it."""
        return self._told

    def draw(self) -> None:
        """Draw the mark in its box."""
        draw_award(self.canv, self._kind, self._r * 1.4, self._r * 1.4, self._r)


class HandMark(Drawn):
    """The sign of the reviewer's hand as a flowable, for table cells."""

    def __init__(self, r: float = 5.0) -> None:
        super().__init__(2.8 * r, 2.6 * r)
        self._r = r

    def draw(self) -> None:
        """Draw the sign in its box."""
        draw_by_hand(self.canv, self._r * 1.4, self._r * 1.4, self._r)
