"""Someone at one of the places other than the bench, with the keyboard only."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QEventLoop, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)

from benchlog.window.desk import Desk
from benchlog.window.faults import Told
from benchlog.window.theme import rescale
from benchlog.wiring import rehearse_sample
from tests.made_shelves import copy_of
from tests.window.bench_scenes import workshop_in

INTERACTIVE = (
    QAbstractButton, QAbstractItemView, QAbstractSpinBox, QComboBox, QLineEdit, QPlainTextEdit,
)  # fmt: skip
SIZES = {
    "1366 × 768": (1366, 730, 1.0),
    "the same at 150 %": (911, 487, 0.667),
    "1920 × 1080": (1920, 1030, 1.4),
}
NO_MODIFIER = Qt.KeyboardModifier.NoModifier


class NoProgress:
    """Hears of steps and does nothing."""

    def step(self, _done: int, _total: int, _what: str) -> None:
        return


def sample_shelf(folder: Path) -> Path:
    """Copy the closed shelf with the sample line-up, all read, to a folder of its own."""
    return copy_of("sample by a stepping clock", _walk_sample, folder)


def _walk_sample(folder: Path) -> None:
    workshop = workshop_in(folder)
    rehearse_sample(workshop, NoProgress())
    workshop.close()


class Person:
    """Presses keys at a place, and hears where it leads and what it complains of."""

    def __init__(self, qtbot: object, desk: Desk, place: QWidget) -> None:
        self.qtbot, self.desk, self.place = qtbot, desk, place
        self.went: list[str] = []
        self.told: list[Told] = []
        desk.go_to.connect(self.went.append)
        desk.faults.told.connect(self.told.append)

    @property
    def shelf(self):
        return self.desk.workshop.shelf

    @property
    def focus(self) -> QWidget:
        return QApplication.focusWidget()

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NO_MODIFIER) -> None:
        QTest.keyClick(self.focus, key, modifiers)

    def type(self, text: str) -> None:
        QTest.keyClicks(self.focus, text)

    def tab_to(self, widget: QWidget) -> None:
        """Press Tab until a widget has the focus; fails when no Tab leads there."""
        for _ in range(80):
            if self.focus is widget:
                return
            self.press(Qt.Key.Key_Tab)
        raise AssertionError(f"no Tab leads to {widget.accessibleName()!r}")

    def until(self, condition: object) -> None:
        self.qtbot.waitUntil(lambda: bool(condition()), timeout=15_000)


def take_place(qtbot: object, app: QApplication, place: QWidget, size: str = "1366 × 768") -> None:
    """Show a place in a window of a size that the design knows, and enter it."""
    width, height, unit = SIZES[size]
    place.resize(width, height)
    rescale(app, place, unit)
    place.rescaled()
    with qtbot.waitActive(place):
        place.show()
        place.activateWindow()
    place.enter()
    settle()


def settle() -> None:
    """Let Qt lay everything out."""
    for _ in range(4):
        QApplication.processEvents(QEventLoop.ProcessEventsFlag.AllEvents)


def unnamed(root: QWidget) -> list[str]:
    """Interactive widgets without an accessible name; the inner parts of others aside."""
    return [
        f"{type(widget).__name__} in {type(widget.parent()).__name__}"
        for widget in root.findChildren(QWidget)
        if isinstance(widget, INTERACTIVE)
        and not widget.accessibleName()
        and not any(isinstance(p, INTERACTIVE) for p in _parents(widget))
        and not widget.objectName().startswith(("qt_", "ScrollLeft", "ScrollRight"))
    ]


def cut_off(root: QWidget) -> list[str]:
    """Visible labels and buttons that are smaller than their words, or stick out of the place."""
    found = []
    for widget in root.findChildren(QWidget):
        if not isinstance(widget, QLabel | QAbstractButton) or not widget.isVisibleTo(root):
            continue
        if not widget.text() or any(isinstance(p, INTERACTIVE) for p in _parents(widget)):
            continue
        folds = isinstance(widget, QLabel) and widget.wordWrap()
        if folds:
            short = widget.height() < widget.heightForWidth(widget.width()) - 1
        else:
            words = widget.text().replace("&", "")
            wide = max(widget.fontMetrics().horizontalAdvance(line) for line in words.split("\n"))
            short = widget.width() < wide or widget.height() < widget.fontMetrics().height()
        corner = widget.mapTo(root, widget.rect().bottomRight())
        if short or not root.rect().contains(corner):
            found.append(f"{widget.text()!r}: {widget.geometry()}")
    return found


def _parents(widget: QWidget) -> list[QWidget]:
    found = []
    while (widget := widget.parentWidget()) is not None:
        found.append(widget)
    return found
