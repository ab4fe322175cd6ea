"""The five places in the order of the work, who furnishes each, and the bar that leads there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeySequence, QPainter, QPaintEvent, QPen, QShortcut
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QWidget

from benchlog.window.theme import colours, px, sized

if TYPE_CHECKING:
    from benchlog.window.desk import Desk


@dataclass(frozen=True)
class Place:
    """One place: its key, its name on the bar, and where its widget is made, module:class.

    The class is imported when the shelf has opened, takes the Desk as its only argument, and
    may have a method `enter()` that is called each time the place is shown.
    """

    key: str
    name: str
    made_by: str


PLACES = (
    Place("shelf", "Shelf", "benchlog.window.shelf.shelf_place:ShelfPlace"),
    Place("lineup", "Line-up", "benchlog.window.lineup.lineup_place:LineupPlace"),
    Place("bench", "Bench", "benchlog.window.bench.bench_place:BenchPlace"),
    Place("verdict", "Verdict", "benchlog.window.verdict.verdict_place:VerdictPlace"),
    Place("sheet", "Sheet", "benchlog.window.sheet.sheet_place:SheetPlace"),
)


def maker_of(place: Place) -> Callable[[Desk], QWidget] | None:
    """Return what makes a place's widget; None while nobody has furnished it."""
    module, _, name = place.made_by.partition(":")
    try:
        made: Callable[[Desk], QWidget] = getattr(import_module(module), name)
    except ModuleNotFoundError as missing:
        if missing.name and module.startswith(missing.name):
            return None
        raise
    return made


class PlacesBar(QWidget):
    """A line of numbered stops, joined as the work goes; Ctrl+1 to Ctrl+5 lead there."""

    chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Places")
        self._stops = {place.key: _Stop(n, place) for n, place in enumerate(PLACES, 1)}
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        for key, stop in self._stops.items():
            stop.clicked.connect(lambda _=False, key=key: self.chosen.emit(key))
            # The button's own shortcut would act only after its click was shown, a tenth of a
            # second late, and the key typed next would be lost.
            keys = QShortcut(QKeySequence(stop.keys), self)
            keys.activated.connect(lambda key=key: self.chosen.emit(key))
            row.addWidget(stop)

    def show_place(self, key: str) -> None:
        """Mark where the window stands."""
        for name, stop in self._stops.items():
            stop.setChecked(name == key)

    def stop(self, key: str) -> QAbstractButton:
        """Return the button that leads to a place."""
        return self._stops[key]


class _Stop(QAbstractButton):
    """One stop: a numbered dot on a line, with the place's name beside it."""

    def __init__(self, number: int, place: Place) -> None:
        super().__init__()
        self._number = number
        self.keys = f"Ctrl+{number}"
        self.setText(place.name)
        self.setCheckable(True)
        self.setAccessibleName(f"{place.name}, step {number} of {len(PLACES)}")
        self.setToolTip(f"{place.name}  ({self.keys})")
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        sized(self, 16, bold=True)

    def sizeHint(self) -> QSize:
        letters = self.fontMetrics()
        dot = letters.height() + px(4)
        return QSize(dot + letters.horizontalAdvance(self.text()) + px(48), dot + px(10))

    minimumSizeHint = sizeHint  # noqa: N815 - Qt's name

    def nextCheckState(self) -> None:
        """The window marks where it stands; a click only asks to go there."""

    def paintEvent(self, _event: QPaintEvent) -> None:
        shown = colours()
        here = self.isChecked()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        dot = float(self.fontMetrics().height() + px(4))
        middle = self.height() / 2
        left = float(px(16))
        painter.setPen(QPen(QColor(shown.line), px(2)))
        if self._number > 1:
            painter.drawLine(0, round(middle), round(left), round(middle))
        if self._number < len(PLACES):
            painter.drawLine(self.width() - px(10), round(middle), self.width(), round(middle))
        ring = QRectF(left, middle - dot / 2, dot, dot)
        painter.setPen(QPen(QColor(shown.accent if here else shown.line), px(2)))
        painter.setBrush(QColor(shown.accent if here else shown.window))
        painter.drawEllipse(ring)
        painter.setPen(QColor(shown.on_accent if here else shown.dim))
        painter.drawText(ring, Qt.AlignmentFlag.AlignCenter, str(self._number))
        painter.setPen(QColor(shown.text if here or self.underMouse() else shown.dim))
        words = QRectF(ring.right() + px(8), 0, self.width(), self.height())
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, self.text())
        if self.hasFocus():
            painter.setPen(QPen(QColor(shown.accent), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(self.rect().adjusted(px(12), 3, -px(12), -3), 6, 6)
