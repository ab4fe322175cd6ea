"""Column heads in our own drawing: words, or a specimen's mark with its nickname, never cut."""

from __future__ import annotations

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QHeaderView, QWidget

from benchlog.trade.specimen import Specimen
from benchlog.window.bench.tag_marker import draw_shape
from benchlog.window.theme import colours, font_of, px

SMALLEST = 10


class TagHeader(QHeaderView):
    """A horizontal header; letters shrink where a head would not fit, and only then end in …."""

    def __init__(self, parent: QWidget, letters: int) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._letters = letters
        self._heads: list[str | Specimen] = []
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHighlightSections(False)
        self.setSectionsClickable(False)

    def show_heads(self, heads: list[str | Specimen]) -> None:
        """Show these heads, one a column."""
        self._heads = heads
        self.viewport().update()

    def sizeHint(self) -> QSize:
        return QSize(super().sizeHint().width(), px(self._letters + 15))

    def paintSection(self, painter: QPainter, rect: QRect, column: int) -> None:
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(rect, QColor(colours().raised))
        if column < len(self._heads):
            self._draw(painter, QRectF(rect).adjusted(px(7), 0, -px(3), 0), self._heads[column])
        painter.restore()

    def _draw(self, painter: QPainter, room: QRectF, head: str | Specimen) -> None:
        words = head
        if isinstance(head, Specimen):
            words = head.nickname
            side = float(px(self._letters + 1))
            mark = QRectF(room.left(), room.center().y() - side / 2, side, side)
            painter.setPen(QPen(QColor(colours().text), 1))
            painter.setBrush(QColor(head.colour))
            draw_shape(painter, head.shape, mark)
            room = room.adjusted(side + px(5), 0, 0, 0)
        painter.setPen(QColor(colours().text))
        for size in range(self._letters, SMALLEST - 1, -1):
            painter.setFont(font_of(size, bold=True))
            if painter.fontMetrics().horizontalAdvance(words) <= room.width():
                break
        fitted = painter.fontMetrics().elidedText(
            words, Qt.TextElideMode.ElideRight, round(room.width())
        )
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, fitted)
