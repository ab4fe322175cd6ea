"""A box that fills lines from the left and goes on below, as text does."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget


class FlowBox(QWidget):
    """Puts widgets side by side at their own sizes, in as many lines as the width needs.

    What is hidden takes no room; call `arrange` after hiding or showing.
    """

    def __init__(self, spacing: int = 5) -> None:
        super().__init__()
        self._spacing = spacing
        self._widgets: list[QWidget] = []
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def add(self, widget: QWidget) -> None:
        """Put one more widget at the end."""
        widget.setParent(self)
        self._widgets.append(widget)
        widget.show()
        self._changed()

    def clear(self) -> None:
        """Take all widgets away for good."""
        for widget in self._widgets:
            widget.hide()
            widget.deleteLater()
        self._widgets = []
        self._changed()

    def arrange(self) -> None:
        """Place the widgets anew, some having been hidden or shown."""
        self._changed()

    def lines(self, width: int) -> int:
        """Return how many lines the widgets take in a width."""
        count, left = 1, 0
        for widget in self._in_sight():
            wide = widget.sizeHint().width()
            if left > 0 and left + wide > width:
                count, left = count + 1, 0
            left += wide + self._spacing
        return count

    def sizeHint(self) -> QSize:
        width = max(self.width(), self.minimumSizeHint().width())
        return QSize(width, self._place(width, move=False))

    def minimumSizeHint(self) -> QSize:
        hints = [widget.sizeHint() for widget in self._in_sight()]
        return QSize(
            max((hint.width() for hint in hints), default=0),
            max((hint.height() for hint in hints), default=0),
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._changed()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self._changed()
        return super().event(event)

    def _in_sight(self) -> list[QWidget]:
        return [widget for widget in self._widgets if not widget.isHidden()]

    def _changed(self) -> None:
        """Place the widgets, and stand exactly as tall as their lines."""
        height = self._place(self.width(), move=True)
        if height != self.minimumHeight():
            self.setFixedHeight(height)

    def _place(self, width: int, *, move: bool) -> int:
        """Lay the widgets into lines of `width`; return the height that they take."""
        left, top, tallest = 0, 0, 0
        for widget in self._in_sight():
            size = widget.sizeHint()
            if left > 0 and left + size.width() > width:
                left, top, tallest = 0, top + tallest + self._spacing, 0
            if move:
                widget.setGeometry(left, top, size.width(), size.height())
            left += size.width() + self._spacing
            tallest = max(tallest, size.height())
        return top + tallest
