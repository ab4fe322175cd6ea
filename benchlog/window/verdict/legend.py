"""What the marks of the verdict mean, in one line below it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QWidget

from benchlog.judge.verdict import AwardKind
from benchlog.window.theme import colours, font_of, px
from benchlog.window.verdict.award_marks import draw_award

SCALE = "Dot and bar: score from 0 to 10 with its 95 % interval."


class MarkLegend(QWidget):
    """Every outcome with its mark, and how to read a score."""

    def __init__(self) -> None:
        super().__init__()
        self._scale = QLabel(SCALE)
        self._scale.setProperty("tone", "dim")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        self._keys = [_Key(kind) for kind in AwardKind]
        for key in self._keys:
            row.addWidget(key)
        row.addStretch(1)
        row.addWidget(self._scale)
        self.rescaled()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self._scale.setFont(font_of(13))
        for key in self._keys:
            key.setFont(font_of(13))
            key.updateGeometry()


class _Key(QWidget):
    def __init__(self, kind: AwardKind) -> None:
        super().__init__()
        self._kind = kind
        self.setAccessibleName(f"Mark: {kind.value}")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        letters = self.fontMetrics()
        wide = letters.horizontalAdvance(self._kind.value)
        return QSize(wide + px(42), letters.height() + px(4))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        draw_award(painter, self._kind, QPointF(px(12), self.height() / 2), float(px(7)))
        painter.setPen(QColor(colours().dim))
        words = QRectF(px(27), 0, self.width() - px(27), self.height())
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, self._kind.value)
