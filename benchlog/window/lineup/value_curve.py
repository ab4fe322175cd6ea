"""A value function drawn small: corners joined by lines, or a dot for each answer."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.window.theme import colours, px

TOP = 10.0
OUTSIDE = 0.12
"""So much of the width shows that the worth is flat outside of the corners."""


class ValueCurve(QWidget):
    """Shows one rule's value function; nothing for what is never scored."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Value function")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._rule: AttributeRule | None = None

    def show_rule(self, rule: AttributeRule | None) -> None:
        """Show this rule."""
        self._rule = rule
        self.setVisible(rule is not None and rule.kind is not ValueKind.NONE)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(px(200), px(74))

    minimumSizeHint = sizeHint  # noqa: N815 - Qt's name

    def paintEvent(self, _event: QPaintEvent) -> None:
        rule, shown = self._rule, colours()
        if rule is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        room = QRectF(self.rect()).adjusted(px(8), px(8), -px(8), -px(8))
        painter.setPen(QPen(QColor(shown.line), 1))
        for share in (0.0, 0.5, 1.0):
            y = room.bottom() - share * room.height()
            painter.drawLine(QPointF(room.left(), y), QPointF(room.right(), y))
        painter.setPen(QPen(QColor(shown.accent), px(3)))
        if rule.kind is ValueKind.PIECEWISE:
            painter.drawPolyline(QPolygonF(_corners(rule, room)))
            return
        painter.setBrush(QColor(shown.accent))
        for n, rank in enumerate(rule.ranks):
            x = room.left() + (n + 0.5) * room.width() / len(rule.ranks)
            y = room.bottom() - rank.value / TOP * room.height()
            painter.drawLine(QPointF(x, room.bottom()), QPointF(x, y))
            painter.drawEllipse(QPointF(x, y), px(3), px(3))


def _corners(rule: AttributeRule, room: QRectF) -> list[QPointF]:
    first, last = rule.anchors[0].at, rule.anchors[-1].at
    margin = OUTSIDE * room.width()
    wide = room.width() - 2 * margin

    def height(worth: float) -> float:
        return room.bottom() - worth / TOP * room.height()

    points = [
        QPointF(room.left() + margin + wide * (a.at - first) / (last - first), height(a.value))
        for a in rule.anchors
    ]
    return [
        QPointF(room.left(), points[0].y()),
        *points,
        QPointF(room.right(), points[-1].y()),
    ]
