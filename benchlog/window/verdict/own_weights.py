"""A small form for the reviewer's own weights: a line for each component."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QLabel,
    QLineEdit,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.own_purpose import LABEL, WANTED
from benchlog.trade.component import Component
from benchlog.window.theme import px, sized


class OwnWeights(QWidget):
    """`typed` tells that a line was left, or Enter pressed in it, with another text than before."""

    typed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.lines: dict[str, QLineEdit] = {}
        self.fault = QLabel(wordWrap=True)
        self.fault.setProperty("tone", "warn")
        self.fault.hide()
        sized(self.fault, 14)
        inside = QWidget()
        self._grid = QGridLayout(inside)
        self._grid.setContentsMargins(0, 0, px(6), 0)
        self._grid.setVerticalSpacing(px(2))
        self._grid.setColumnStretch(0, 1)
        self._area = _Area()
        self._area.setFrameShape(QFrame.Shape.NoFrame)
        self._area.setWidgetResizable(True)
        self._area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        for component in Component:
            self._add(component)
        self._area.setWidget(inside)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.fault)
        column.addWidget(self._area, 1)
        self._told = self.texts

    @property
    def texts(self) -> dict[str, str]:
        """What stands in the lines, by component; empty ones are left out."""
        found = {key: line.text().strip() for key, line in self.lines.items()}
        return {key: text for key, text in found.items() if text}

    def show_texts(self, texts: Mapping[str, str]) -> None:
        """Put weights into the lines."""
        for key, line in self.lines.items():
            line.setText(texts.get(key, ""))
        self._told = self.texts

    def show_fault(self, field: str, words: str) -> None:
        """Say what is wrong, and beside which component when the screen is read out."""
        self.fault.setText(words)
        self.fault.setVisible(bool(words))
        for key, line in self.lines.items():
            line.setAccessibleDescription(words if key == field else WANTED)

    def rescaled(self) -> None:
        """Follow the window's size."""
        for line in self.lines.values():
            line.setFixedWidth(px(72))

    def _add(self, component: Component) -> None:
        name, line = QLabel(component.value), _Line(self._area)
        name.setBuddy(line)
        line.setAccessibleName(f"{LABEL}: {component.value}")
        line.setAccessibleDescription(WANTED)
        line.setPlaceholderText("0")
        sized(name, 15)
        sized(line, 15)
        line.editingFinished.connect(self._tell)
        row = len(self.lines)
        self._grid.addWidget(name, row, 0)
        self._grid.addWidget(line, row, 1)
        self.lines[component.value] = line

    def _tell(self) -> None:
        if self.texts != self._told:
            self._told = self.texts
            self.typed.emit()


class _Area(QScrollArea):
    """Keeps the line that is typed in in sight when the room shrinks."""

    def __init__(self) -> None:
        super().__init__()
        later = Qt.ConnectionType.QueuedConnection  # when what moves has moved
        self.verticalScrollBar().rangeChanged.connect(self._keep_in_sight, later)

    def show_whole(self, line: QWidget) -> None:
        """Bring a line into sight with its frame, not its cursor alone."""
        middle = line.geometry().center()
        self.ensureVisible(middle.x(), middle.y(), 0, line.height())

    def _keep_in_sight(self, _low: int, _high: int) -> None:
        typing = self.focusWidget()
        if typing is not None and typing.hasFocus():
            self.show_whole(typing)


class _Line(QLineEdit):
    """A line that comes into sight when the keys reach it."""

    def __init__(self, area: _Area) -> None:
        super().__init__()
        self._area = area

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._area.show_whole(self)
