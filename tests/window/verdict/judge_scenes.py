"""What a person does and sees at the verdict."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QLabel, QListWidget, QTableWidget, QWidget

from benchlog.trade.component import Component
from tests.window.place_scenes import Person

ALT = Qt.KeyboardModifier.AltModifier
SPOKEN = Qt.ItemDataRole.AccessibleTextRole
LONG_MS = 15_000


def choose(person: Person, component: Component) -> None:
    """Walk down the components with the arrow keys."""
    table = person.place.scores
    table.setFocus()
    table.setCurrentCell(0, 0)
    for _ in range(table.rowCount()):
        if table.component is component:
            return
        person.press(Qt.Key.Key_Down)
    raise AssertionError(component)


def worked_out(person: Person) -> object:
    return person.qtbot.waitSignal(person.place.watch.worked_out, timeout=LONG_MS)


def outcome_spoken(person: Person, component: Component) -> str:
    """What is read out of a component's outcome."""
    table = person.place.scores
    words = (table.item(row, 0).data(SPOKEN) for row in range(table.rowCount()))
    return next(said for said in words if said.startswith(component.value))


def cells(table: QTableWidget, row: int) -> list[str]:
    return [table.item(row, c).text() for c in range(table.columnCount()) if table.item(row, c)]


def words_in_sight(root: QWidget) -> str:
    """All words that a window shows or reads out now."""
    found = [root.windowTitle()]
    for widget in root.findChildren(QWidget):
        if not widget.isVisible():
            continue
        found += [widget.accessibleName(), widget.toolTip()]
        if isinstance(widget, QLabel | QAbstractButton):
            found.append(widget.text())
        if isinstance(widget, QListWidget):
            found += [widget.item(n).text() for n in range(widget.count())]
        if isinstance(widget, QTableWidget):
            found += [" ".join(cells(widget, r)) for r in range(widget.rowCount())]
    return "\n".join(found)


def colours_in_sight(root: QWidget, wanted: set[str]) -> set[str]:
    """Which of some colours a window shows anywhere."""
    image = root.grab().toImage()
    seen = {
        image.pixelColor(x, y).name()
        for x in range(0, image.width(), 2)
        for y in range(0, image.height(), 2)
    }
    return seen & wanted
