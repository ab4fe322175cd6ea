"""Drawing a chance in a cell: its words over a bar as long as the chance is large."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QRectF, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QStyleOptionViewItem

from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, px

CHANCE = Qt.ItemDataRole.UserRole


class ChanceDelegate(CalmDelegate):
    """Paints items as usual, and along the foot of one that holds a chance its bar."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        super().paint(painter, option, index)
        chance = index.data(CHANCE)
        if chance is None:
            return
        foot = QRectF(option.rect).adjusted(px(5), 0, -px(5), -px(4))
        foot.setTop(foot.bottom() - px(6))
        painter.save()
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours().line))
        painter.drawRect(foot)
        if chance > 0:
            foot.setWidth(max(foot.width() * chance, 1.0))
            painter.setBrush(QColor(colours().accent))
            painter.drawRect(foot)
        painter.restore()
