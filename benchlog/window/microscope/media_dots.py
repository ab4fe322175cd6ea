"""Every field's opening as a dot, and the medium's mean with its interval, on one axis."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from benchlog.trade.specimen import Specimen
from benchlog.window.microscope.media_axis import Axis
from benchlog.window.microscope.media_rows import MediaRows
from benchlog.window.theme import colours, px


@dataclass(frozen=True)
class DotRow:
    """One medium: the fields' values, and mean with its ends where there are any, µm."""

    specimen: Specimen
    values: tuple[float, ...]
    mean: float | None = None
    low: float | None = None
    high: float | None = None


class MediaDots(MediaRows[DotRow]):
    """Draws rows of dots."""

    row_high = 34
    empty = "No field was measured yet."

    def spoken(self, row: DotRow) -> str:
        return spoken(row)

    def reach(self) -> float:
        numbers = [v for row in self.rows for v in (*row.values, row.high or 0.0)]
        return max(numbers, default=0.0) * 1.04

    def draw_rows(self, painter: QPainter, room: QRectF, reach: float) -> None:
        axis = Axis(room, reach)
        axis.draw(painter)
        for number, row in enumerate(self.rows):
            band = axis.row(number, len(self.rows))
            axis.name(painter, band, row.specimen, row.specimen.nickname)
            _draw_row(painter, axis, band, row)


def _draw_row(painter: QPainter, axis: Axis, room: QRectF, row: DotRow) -> None:
    shown = colours()
    middle = room.center().y()
    if row.low is not None and row.high is not None:
        half = float(px(6))
        painter.setPen(QPen(QColor(shown.text), px(2)))
        left, right = axis.x(max(0.0, row.low)), axis.x(row.high)
        painter.drawLine(QPointF(left, middle), QPointF(right, middle))
        for x in (left, right):
            painter.drawLine(QPointF(x, middle - half), QPointF(x, middle + half))
    painter.setPen(QPen(QColor(shown.accent), px(1.6)))
    painter.setBrush(QColor(shown.panel))
    for value in row.values:
        painter.drawEllipse(QPointF(axis.x(value), middle), px(4), px(4))
    if row.mean is not None:
        x, half = axis.x(row.mean), float(px(6))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(shown.text))
        corners = ((x, middle - half), (x + half, middle), (x, middle + half), (x - half, middle))
        painter.drawPolygon(QPolygonF([QPointF(*corner) for corner in corners]))


def spoken(row: DotRow) -> str:
    """Return a row in words."""
    who = row.specimen.nickname
    if row.mean is None:
        return f"{who}: nothing measured"
    within = ""
    if row.low is not None and row.high is not None:
        within = f", 95 % interval {row.low:.1f} to {row.high:.1f}"
    fields = "1 field" if len(row.values) == 1 else f"{len(row.values)} fields"
    return f"{who}: mean {row.mean:.1f} micrometres{within}, {fields}"
