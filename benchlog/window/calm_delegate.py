"""A chosen row or cell shown calmly: a raised ground and a frame, colours of marks untouched."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from benchlog.window.theme import colours


class CalmDelegate(QStyledItemDelegate):
    """Paints items as usual, and the chosen one on a raised ground; the focus as a frame."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        shown = colours()
        option = QStyleOptionViewItem(option)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        focus = bool(option.state & QStyle.StateFlag.State_HasFocus)
        option.state &= ~(QStyle.StateFlag.State_Selected | QStyle.StateFlag.State_HasFocus)
        if chosen:
            painter.fillRect(option.rect, QColor(shown.raised))
        super().paint(painter, option, index)
        if focus:
            painter.save()
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(shown.accent), 2))
            painter.drawRect(option.rect.adjusted(1, 1, -1, -1))
            painter.restore()
