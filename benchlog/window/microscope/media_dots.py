"""Every field's opening as a dot, and the medium's mean with its interval, on one axis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from benchlog.trade.specimen import Specimen
from benchlog.window.microscope.media_axis import Axis
from benchlog.window.theme import colours, font_of, px

ROW_HIGH = 34


@dataclass(frozen=True)
class DotRow:
    """One medium: the fields' values, and mean with its ends where there are any, µm."""

    specimen: Specimen
    values: tuple[float, ...]
    mean: float | None = None
    low: float | None = None
    high: float | None = None


class MediaDots(QWidget):
    """Draws rows of dots; the same is told in words to whoever does not see."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.rows: tuple[DotRow, ...] = ()

    def show_rows(self, rows: Sequence[DotRow]) -> None:
        """Draw these."""
        self.rows = tuple(rows)
        self.setAccessibleDescription(". ".join(spoken(row) for row in self.rows))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(px(500), px(30) + px(ROW_HIGH) * max(1, len(self.rows)))

    minimumSizeHint = sizeHint  # noqa: N815 - Qt's name

    def paintEvent(self, _event: QPaintEvent) -> None:
        shown = colours()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        numbers = [v for row in self.rows for v in (*row.values, row.high or 0.0)]
        if not any(numbers):
            painter.setPen(QColor(shown.dim))
            painter.setFont(font_of(15))
            painter.drawText(
                self.rect(), Qt.AlignmentFlag.AlignCenter, "No field was measured yet."
            )
            return
        axis = Axis(QRectF(self.rect()).adjusted(0, px(4), 0, -px(2)), max(numbers) * 1.04)
        axis.draw(painter)
        for number, row in enumerate(self.rows):
            room = axis.row(number, len(self.rows))
            axis.name(painter, room, row.specimen, row.specimen.nickname)
            _draw_row(painter, axis, room, row)


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
