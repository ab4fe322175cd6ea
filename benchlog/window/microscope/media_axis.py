"""One axis of micrometres under rows of media, and each row's name with its specimen's mark."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from benchlog.trade.specimen import Specimen
from benchlog.window.bench.tag_marker import draw_shape
from benchlog.window.theme import colours, font_of, px

NAMES_SHARE = 0.24
TICKS = 6


def round_step(reach: float, most: int = TICKS) -> float:
    """Return a step of 1, 2 or 5 times a power of ten that divides a reach into a few."""
    if not reach > 0.0:
        return 1.0
    rough = reach / most
    power = 10.0 ** math.floor(math.log10(rough))
    return next(n * power for n in (1, 2, 5, 10) if n * power >= rough)


class Axis:
    """Places micrometres on a row's width; from 0, so that lengths may be compared by eye."""

    def __init__(self, room: QRectF, largest: float) -> None:
        self.names = QRectF(room.left(), room.top(), room.width() * NAMES_SHARE, room.height())
        self.room = QRectF(
            self.names.right(), room.top(), room.width() - self.names.width() - px(44),
            room.height() - px(22),
        )  # fmt: skip
        self.step = round_step(largest)
        self.largest = self.step * max(1, math.ceil(largest / self.step - 1e-9))

    def x(self, um: float) -> float:
        """Return where a length stands."""
        return self.room.left() + self.room.width() * um / self.largest

    def row(self, number: int, of: int) -> QRectF:
        """Return the room of one row."""
        high = self.room.height() / max(1, of)
        return QRectF(self.room.left(), self.room.top() + number * high, self.room.width(), high)

    def draw(self, painter: QPainter, unit: str = "µm") -> None:
        """Draw the ticks with their numbers."""
        shown = colours()
        painter.setFont(font_of(12))
        for number in range(round(self.largest / self.step) + 1):
            value = number * self.step
            x = self.x(value)
            painter.setPen(QPen(QColor(shown.line), 1))
            painter.drawLine(QPointF(x, self.room.top()), QPointF(x, self.room.bottom()))
            painter.setPen(QColor(shown.dim))
            box = QRectF(x - px(40), self.room.bottom() + px(2), px(80), px(18))
            last = value + self.step > self.largest * 1.0001
            words = f"{value:g} {unit}" if last else f"{value:g}"
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)

    def name(self, painter: QPainter, row: QRectF, specimen: Specimen, words: str) -> None:
        """Write a row's name with its specimen's mark."""
        shown = colours()
        side = float(px(15))
        mark = QRectF(self.names.left() + px(4), row.center().y() - side / 2, side, side)
        painter.setPen(QPen(QColor(shown.text), 1))
        painter.setBrush(QColor(specimen.colour))
        draw_shape(painter, specimen.shape, mark)
        painter.setPen(QColor(shown.text))
        painter.setFont(font_of(14))
        room = QRectF(
            mark.right() + px(6), row.top(), self.names.width() - side - px(16), row.height()
        )
        fitted = painter.fontMetrics().elidedText(
            words, Qt.TextElideMode.ElideRight, round(room.width())
        )
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, fitted)
