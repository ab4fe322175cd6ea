"""A layout that fills lines from the left and goes on below, as text does."""

from __future__ import annotations

from PySide6.QtCore import QMargins, QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class FlowLayout(QLayout):
    """Puts widgets side by side at their own sizes, in as many lines as the width needs."""

    def __init__(self, parent: QWidget | None = None, spacing: int = 5) -> None:
        super().__init__(parent)
        self.setContentsMargins(QMargins(0, 0, 0, 0))
        self.setSpacing(spacing)
        self._items: list[QLayoutItem] = []

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._place(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._place(rect, move=True)

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        widest = QSize()
        for item in self._items:
            if not item.isEmpty():
                widest = widest.expandedTo(item.minimumSize())
        return widest

    def _place(self, rect: QRect, *, move: bool) -> int:
        """Lay the items into `rect`; return the height that they take."""
        left, top, tallest = rect.x(), rect.y(), 0
        for item in self._items:
            if item.isEmpty():
                continue
            size = item.sizeHint()
            if left > rect.x() and left + size.width() > rect.right() + 1:
                left, top, tallest = rect.x(), top + tallest + self.spacing(), 0
            if move:
                item.setGeometry(QRect(QPoint(left, top), size))
            left += size.width() + self.spacing()
            tallest = max(tallest, size.height())
        return top + tallest - rect.y()
