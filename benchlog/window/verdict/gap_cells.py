"""Drawing a gap against both of its limits: a bar, the band of its uncertainty, what counts."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyleOptionViewItem

from benchlog.tasks.gap_view import GapRow
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, px

GAP = Qt.ItemDataRole.UserRole
ROOM = 1.12
"""So much longer than the longest of the three is the scale."""


class GapDelegate(CalmDelegate):
    """Paints items as usual, and over an item that holds a GapRow its drawing."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        super().paint(painter, option, index)
        row: GapRow | None = index.data(GAP)
        if row is not None:
            room = QRectF(option.rect).adjusted(px(8), px(6), -px(8), -px(6))
            draw_gap(painter, row, room)


def draw_gap(painter: QPainter, row: GapRow, room: QRectF) -> None:
    """Draw a gap from nought at the left; nothing where there is no number."""
    whole = ROOM * max(row.size, row.expanded, row.meaningful)
    if whole <= 0:
        return
    shown = colours()
    height = min(room.height(), px(30))
    box = QRectF(room.left(), room.center().y() - height / 2, room.width(), height)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(shown.line))
    painter.drawRect(_from_left(box, row.expanded / whole))
    bar = _from_left(box, row.size / whole).adjusted(0, height * 0.3, 0, -height * 0.3)
    painter.setBrush(QColor(shown.accent if row.counts else shown.dim))
    painter.drawRect(bar.adjusted(0, 0, max(0.0, px(2) - bar.width()), 0))
    painter.setPen(QPen(QColor(shown.text), px(2)))
    x = box.left() + box.width() * row.meaningful / whole
    painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()))
    painter.setBrush(QColor(shown.text))
    half = float(px(4))
    painter.drawPolygon(
        QPolygonF(
            [
                QPointF(x - half, box.top()),
                QPointF(x + half, box.top()),
                QPointF(x, box.top() + 1.3 * half),
            ]
        )
    )
    painter.setPen(QPen(QColor(shown.dim), 1))
    painter.drawLine(box.topLeft(), box.bottomLeft())
    painter.restore()


def _from_left(box: QRectF, share: float) -> QRectF:
    return QRectF(box.left(), box.top(), box.width() * share, box.height())
