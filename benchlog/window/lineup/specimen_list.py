"""The specimens in bench order, with the ways to add, remove and move them."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.plan import MOST_SPECIMENS
from benchlog.trade.specimen import Lineup, Paid, Specimen
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import px, sized

ID = Qt.ItemDataRole.UserRole


class SpecimenList(QWidget):
    """Shows who stands in the line-up; `chosen` carries an id, the others wishes for it."""

    chosen = Signal(str)
    add_wanted = Signal()
    remove_wanted = Signal()
    move_wanted = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self.caption = QLabel("Specimens, in bench order")
        self.caption.setProperty("tone", "dim")
        sized(self.caption, 15)
        self.list = _List()
        self.list.setAccessibleName("Specimens in bench order")
        sized(self.list, 15)
        self.add = _button("&Add", "Add a specimen")
        self.remove = _button("&Remove", "Remove this specimen")
        self.up = _button("&Move up", "Move this specimen up in bench order")
        self.down = _button("Move &down", "Move this specimen down in bench order")
        self._lay_out()
        self.list.currentItemChanged.connect(self._tell_choice)
        self.add.clicked.connect(self.add_wanted)
        self.remove.clicked.connect(self.remove_wanted)
        self.list.removed.connect(self.remove_wanted)
        self.list.moved.connect(self.move_wanted)
        self.up.clicked.connect(lambda: self.move_wanted.emit(-1))
        self.down.clicked.connect(lambda: self.move_wanted.emit(1))

    def show_lineup(self, lineup: Lineup, current: str) -> None:
        """Show the specimens with one of them chosen."""
        self.list.blockSignals(True)
        while self.list.count() > len(lineup.specimens):
            self.list.takeItem(self.list.count() - 1)
        while self.list.count() < len(lineup.specimens):
            self.list.addItem(QListWidgetItem())
        self.list.setIconSize(QSize(px(22), px(22)))
        for row, specimen in enumerate(lineup.specimens):
            _show(self.list.item(row), specimen)
            if specimen.id == current:
                self.list.setCurrentRow(row)
        self.list.blockSignals(False)
        many, row = len(lineup.specimens), self.list.currentRow()
        self.add.setEnabled(many < MOST_SPECIMENS)
        self.remove.setEnabled(many > 1)
        self.up.setEnabled(row > 0)
        self.down.setEnabled(row < many - 1)

    def _tell_choice(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.chosen.emit(item.data(ID))

    def _lay_out(self) -> None:
        buttons = QGridLayout()
        buttons.setSpacing(4)
        for n, button in enumerate((self.add, self.remove, self.up, self.down)):
            buttons.addWidget(button, n // 2, n % 2)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.caption)
        column.addWidget(self.list, 1)
        column.addLayout(buttons)


class _List(QListWidget):
    """Delete removes, Alt+Up and Alt+Down move."""

    removed = Signal()
    moved = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setItemDelegate(CalmDelegate(self))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        held = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        if event.key() == Qt.Key.Key_Delete:
            self.removed.emit()
        elif held and event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.moved.emit(-1 if event.key() == Qt.Key.Key_Up else 1)
        else:
            super().keyPressEvent(event)


def _show(item: QListWidgetItem, specimen: Specimen) -> None:
    owed = specimen.paid is Paid.UNANSWERED
    name = specimen.nickname or "no nickname"
    item.setData(ID, specimen.id)
    item.setIcon(tag_icon(specimen, px(22) * 2))
    item.setText(f"{name}\nwho paid?" if owed else f"{name}\n{_briefly(specimen.paid)}")
    spoken = f"{name}, {specimen.shape}, who paid: {specimen.paid.value}"
    item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
    item.setToolTip(spoken)


def _briefly(paid: Paid) -> str:
    return paid.value.replace(" by the reviewer", "")


def _button(name: str, spoken: str) -> QPushButton:
    button = QPushButton(name)
    button.setAccessibleName(spoken)
    button.setToolTip(spoken)
    sized(button, 14)
    return button
