"""Rows of media on one axis of micrometres, drawn for eyes and told in words besides."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, Generic, TypeVar

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from benchlog.window.theme import colours, font_of, px

Row = TypeVar("Row")


class MediaRows(QWidget, Generic[Row]):
    """Whoever draws them says how high a row is, what stands there without any, and how."""

    row_high: ClassVar[int]
    empty: ClassVar[str]

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.rows: tuple[Row, ...] = ()

    def show_rows(self, rows: Iterable[Row]) -> None:
        """Draw these."""
        self.rows = tuple(rows)
        self.setAccessibleDescription(". ".join(self.spoken(row) for row in self.rows))
        self.updateGeometry()
        self.update()

    def spoken(self, row: Row) -> str:
        """Return a row in words."""
        raise NotImplementedError

    def reach(self) -> float:
        """Return how far the axis goes in micrometres, 0 where there is nothing to draw."""
        raise NotImplementedError

    def draw_rows(self, painter: QPainter, room: QRectF, reach: float) -> None:
        """Draw axis and rows."""
        raise NotImplementedError

    def sizeHint(self) -> QSize:
        return QSize(px(500), px(30) + px(self.row_high) * max(1, len(self.rows)))

    minimumSizeHint = sizeHint  # noqa: N815 - Qt's name

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        reach = self.reach()
        if reach > 0.0:
            room = QRectF(self.rect()).adjusted(0, px(4), 0, -px(2))
            self.draw_rows(painter, room, reach)
            return
        painter.setPen(QColor(colours().dim))
        painter.setFont(font_of(15))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.empty)
