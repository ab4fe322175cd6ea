"""What was found on a picture, drawn over it: outlines, centrelines, circles, or stage lines."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPainterPath, QPen, QPolygonF

from benchlog.tasks.picture_ports import PictureMarks

DARK_RIM = "#000000"
GAP = 8.0
MARKED = (0.3, 0.7)
"""Between these shares of its length a stage micrometer's line is marked."""
INKS = {"outlines": "#ffd34d", "centrelines": "#5fe0ff", "circles": "#ff8ad8", "lines": "#ffd34d"}
"""Each stands out from grey pictures on its dark rim; the words say which is shown, not the ink."""


class Overlay(StrEnum):
    """What lies over the picture, in the words of the button."""

    NOTHING = "picture alone"
    OUTLINES = "outlines of fibres"
    CENTRELINES = "centrelines that gave a width"
    CIRCLES = "covering circles"

    @property
    def after(self) -> Overlay:
        """The next one round."""
        every = list(Overlay)
        return every[(every.index(self) + 1) % len(every)]


@dataclass(frozen=True)
class DrawnMarks:
    """Marks as paths in pixels of the file; made on a worker thread, for there are many points."""

    outlines: QPainterPath
    centrelines: QPainterPath
    circles: QPainterPath

    def path(self, overlay: Overlay) -> QPainterPath | None:
        """Return what an overlay draws; None for the picture alone."""
        return {
            Overlay.OUTLINES: self.outlines,
            Overlay.CENTRELINES: self.centrelines,
            Overlay.CIRCLES: self.circles,
        }.get(overlay)


def marks_drawn(marks: PictureMarks) -> DrawnMarks:
    """Return marks as paths; a file's pixel has its middle at whole numbers, a painter's at ½."""
    circles = QPainterPath()
    for x, y, radius in marks.circles:
        circles.addEllipse(QPointF(x + 0.5, y + 0.5), radius, radius)
    return DrawnMarks(_lines(marks.outlines), _lines(marks.centrelines), circles)


def stage_path(lines: Iterable[tuple[float, float, float, float]]) -> QPainterPath:
    """Return a stage micrometer's lines, each over its middle: its own ends stay to be seen."""
    path = QPainterPath()
    for x0, y0, x1, y1 in lines:
        begins, ends = QPointF(x0 + 0.5, y0 + 0.5), QPointF(x1 + 0.5, y1 + 0.5)
        path.moveTo(begins + MARKED[0] * (ends - begins))
        path.lineTo(begins + MARKED[1] * (ends - begins))
    return path


def draw_path(painter: QPainter, path: QPainterPath, ink: str, wide: float) -> None:
    """Stroke a path on a dark rim, `wide` screen pixels whatever the painter's scale."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for colour, width in ((DARK_RIM, wide * 2.2), (ink, wide)):
        pen = QPen(QColor(colour), width)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.drawPath(path)


def draw_scale_bar(painter: QPainter, room: QRectF, um: float, long: float, letters: QFont) -> None:
    """Draw a bar of `long` screen pixels, named `um`, into the lower left of `room`."""
    painter.setFont(letters)
    words = f"{um:g} µm"
    high = painter.fontMetrics().height()
    wide = max(long, painter.fontMetrics().horizontalAdvance(words)) + 2 * GAP
    box = QRectF(room.left() + GAP, room.bottom() - high - 3 * GAP, wide, high + 2 * GAP)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(0, 0, 0, 170))
    painter.drawRoundedRect(box, GAP / 2, GAP / 2)
    painter.setBrush(QColor("#ffffff"))
    painter.drawRect(QRectF(box.left() + GAP, box.bottom() - GAP, long, 3))
    painter.setPen(QColor("#ffffff"))
    painter.drawText(
        QRectF(box.left() + GAP, box.top() + 2, wide, high), Qt.AlignmentFlag.AlignLeft, words
    )


def bar_length(um_per_px: float, scale: float, most: float) -> tuple[float, float]:
    """Return a round length in µm, and its screen pixels, of at most `most` screen pixels."""
    per_um = scale / um_per_px
    step, best = 1e-3, 1e-3
    while step * per_um <= most:
        best = max(n * step for n in (1, 2, 5) if n * step * per_um <= most)
        step *= 10
    return best, best * per_um


def _lines(rows: Iterable[Iterable[tuple[float, float]]]) -> QPainterPath:
    path = QPainterPath()
    for row in rows:
        path.addPolygon(QPolygonF([QPointF(x + 0.5, y + 0.5) for x, y in row]))
    return path
