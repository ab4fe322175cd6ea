"""What will be asked: the fixed order of stations, and a tick for every attribute."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import (
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.plan import usual_attributes
from benchlog.trade.attribute import Attribute, Judged, Sequence, Station
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.icons import icon
from benchlog.window.theme import colours, font_of, px, sized

KEY = Qt.ItemDataRole.UserRole
ONE_WAY = KEY + 1
FIXED = (
    "The stations stand in the order of the work. It is part of the method and cannot be changed. "
    "The right arrow key opens a station."
)
JUDGED = {
    Judged.IDENTITY: "says what it is",
    Judged.INPUT: "goes into a sum",
    Judged.BAND: "within a band",
    Judged.MORE: "more counts",
    Judged.LESS: "less counts",
    Judged.RANK: "kinds ranked",
    Judged.PRESENCE: "there or not",
    Judged.FAULT: "a fault counts",
    Judged.AMPLE: "enough is enough",
    Judged.DIFFERENT: "different, not better",
}


class AskedTree(QWidget):
    """Shows what a line-up asks; `asked` carries the keys that are ticked."""

    asked = Signal(tuple)

    def __init__(self) -> None:
        super().__init__()
        self._sequence: Sequence | None = None
        self.count = QLabel()
        self.count.setProperty("tone", "dim")
        sized(self.count, 15)
        self.usual = _button("Usual &only", "Ask only for what is usual")
        self.all = _button("As&k all", "Ask for everything")
        self.tree = QTreeWidget()
        self.tree.setAccessibleName("What will be asked, station by station")
        self.tree.setColumnCount(3)
        self.tree.setHeaderLabels(["Station and attribute", "How it is judged", "Support"])
        self.tree.setUniformRowHeights(True)
        self.tree.setAllColumnsShowFocus(True)
        self.tree.setItemDelegate(CalmDelegate(self.tree))
        self.fixed = QLabel(FIXED, wordWrap=True)
        self.fixed.setProperty("tone", "dim")
        sized(self.fixed, 13)
        self._lay_out()
        self.tree.itemChanged.connect(self._ticked)
        self.usual.clicked.connect(self._ask_usual)
        self.all.clicked.connect(self._ask_all)

    def show_asked(self, sequence: Sequence, keys: tuple[str, ...]) -> None:
        """Show what is asked of a sequence's attributes."""
        self.tree.blockSignals(True)
        if sequence is not self._sequence:
            self._sequence = sequence
            self._fill(sequence)
        for item in self._attribute_items():
            ticked = item.data(0, KEY) in keys
            item.setCheckState(0, Qt.CheckState.Checked if ticked else Qt.CheckState.Unchecked)
        self._show_counts()
        self.tree.blockSignals(False)

    def rescaled(self) -> None:
        """Set letters and columns to the window's size."""
        self.tree.setFont(font_of(14))
        self.tree.header().setFont(font_of(13))
        self.tree.setIndentation(px(18))
        for row in range(self.tree.topLevelItemCount()):
            branch = self.tree.topLevelItem(row)
            branch.setFont(0, font_of(15, bold=True))
            if branch.data(0, ONE_WAY):
                branch.setIcon(0, icon("one way", QColor(colours().on_warn)))
        header = self.tree.header()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        for column, wide in ((1, 150), (2, 98)):
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.Fixed)
            header.resizeSection(column, px(wide))

    def ticked_keys(self) -> tuple[str, ...]:
        """Return the keys that are ticked, in the sequence's order."""
        return tuple(
            item.data(0, KEY)
            for item in self._attribute_items()
            if item.checkState(0) is Qt.CheckState.Checked
        )

    # --- inside ----------------------------------------------------------------------------

    def _fill(self, sequence: Sequence) -> None:
        self.tree.clear()
        for station in sequence.stations:
            attributes = [a for a in sequence.at(station.key) if not a.specimen_field]
            branch = _station_item(station)
            branch.addChildren([_attribute_item(a) for a in attributes])
            self.tree.addTopLevelItem(branch)
        self.rescaled()

    def _ticked(self, item: QTreeWidgetItem, column: int) -> None:
        if column != 0:
            return
        if item.parent() is None:
            self._tick_station(item)
        self.asked.emit(self.ticked_keys())

    def _tick_station(self, branch: QTreeWidgetItem) -> None:
        if branch.checkState(0) is not Qt.CheckState.PartiallyChecked:
            self.tree.blockSignals(True)
            for row in range(branch.childCount()):
                branch.child(row).setCheckState(0, branch.checkState(0))
            self.tree.blockSignals(False)

    def _ask_usual(self) -> None:
        if self._sequence is not None:
            self.asked.emit(usual_attributes(self._sequence))

    def _ask_all(self) -> None:
        if self._sequence is not None:
            self.asked.emit(tuple(a.key for a in self._sequence.attributes))

    def _show_counts(self) -> None:
        of_all = ticked_all = 0
        for row in range(self.tree.topLevelItemCount()):
            branch = self.tree.topLevelItem(row)
            children = [branch.child(n) for n in range(branch.childCount())]
            ticked = sum(child.checkState(0) is Qt.CheckState.Checked for child in children)
            of_all += len(children)
            ticked_all += ticked
            branch.setText(1, f"{ticked} of {len(children)} asked" if children else "nothing asked")
            if children:
                branch.setCheckState(0, _state(ticked, len(children)))
        self.count.setText(f"Asked: {ticked_all} of {of_all}")

    def _attribute_items(self) -> list[QTreeWidgetItem]:
        branches = [self.tree.topLevelItem(row) for row in range(self.tree.topLevelItemCount())]
        return [b.child(n) for b in branches for n in range(b.childCount())]

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.count, 1)
        top.addWidget(self.usual)
        top.addWidget(self.all)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(top)
        column.addWidget(self.tree, 1)
        column.addWidget(self.fixed)
        self.rescaled()


def _station_item(station: Station) -> QTreeWidgetItem:
    item = QTreeWidgetItem([station.label])
    item.setToolTip(0, station.help)
    spoken = f"Station {station.label}"
    item.setData(0, ONE_WAY, station.one_way)
    if station.one_way:
        spoken += ", cannot be taken back"
    item.setData(0, Qt.ItemDataRole.AccessibleTextRole, spoken)
    return item


def _attribute_item(attribute: Attribute) -> QTreeWidgetItem:
    item = QTreeWidgetItem([attribute.label, JUDGED[attribute.judged], attribute.support.value])
    item.setData(0, KEY, attribute.key)
    words = f"{attribute.help} {attribute.warning} Source: {attribute.source}."
    for column in range(3):
        item.setToolTip(column, words)
    spoken = f"{attribute.label}: {JUDGED[attribute.judged]}; support: {attribute.support.value}"
    item.setData(0, Qt.ItemDataRole.AccessibleTextRole, spoken)
    return item


def _state(ticked: int, of: int) -> Qt.CheckState:
    if ticked == of:
        return Qt.CheckState.Checked
    return Qt.CheckState.PartiallyChecked if ticked else Qt.CheckState.Unchecked


def _button(name: str, spoken: str) -> QPushButton:
    button = QPushButton(name)
    button.setAccessibleName(spoken)
    button.setToolTip(spoken)
    sized(button, 14)
    return button
