"""The fields in the order in which they are taken, each with its state in words and by a shape."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QBrush, QColor
from PySide6.QtWidgets import QListWidget, QListWidgetItem

from benchlog.tasks.field_order import FieldStanding, FieldState, WantedField
from benchlog.trade.specimen import Specimen
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, font_of, px

FIELD = Qt.ItemDataRole.UserRole
SIGNS = {
    FieldState.WANTED: "·",
    FieldState.WAITING: "…",
    FieldState.MEASURED: "✓",
    FieldState.REFUSED: "✕",
}
STATES = {
    FieldState.WANTED: "",
    FieldState.WAITING: "waits",
    FieldState.MEASURED: "measured",
    FieldState.REFUSED: "refused",
}


class FieldList(QListWidget):
    """`chosen` carries a WantedField that is looked at; `opened` one that Enter was pressed on."""

    chosen = Signal(object)
    opened = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Fields of the media; Enter takes one next")
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setItemDelegate(CalmDelegate(self))
        self.setUniformItemSizes(True)
        self.currentItemChanged.connect(self._tell)
        self.itemActivated.connect(lambda item: self.opened.emit(item.data(FIELD)))
        self.rescaled()

    @property
    def here(self) -> WantedField | None:
        """The field that is chosen."""
        item = self.currentItem()
        return item.data(FIELD) if item else None

    def show_fields(
        self,
        standings: Sequence[FieldStanding],
        specimen: Callable[[str], Specimen],
        wanted: WantedField | None,
    ) -> None:
        """Show how the fields stand; the one that was chosen stays so, without telling of it."""
        here = self.here
        self.blockSignals(True)
        self.clear()
        for one in standings:
            item = self._row(one, specimen(one.field.specimen_id), next_one=one.field == wanted)
            if one.field == here:
                self.setCurrentItem(item)
        self.blockSignals(False)

    def choose(self, field: WantedField | None) -> None:
        """Choose a field, and tell of it."""
        for row in range(self.count()):
            if self.item(row).data(FIELD) == field:
                self.setCurrentRow(row)

    def step(self, by: int) -> None:
        """Choose the field before or after."""
        row = min(max(self.currentRow() + by, 0), self.count() - 1)
        self.setCurrentRow(row)

    def rescaled(self) -> None:
        """Set letters and marks to the window's size."""
        self.setFont(font_of(15))
        self.setIconSize(QSize(px(18), px(18)))

    def _row(self, one: FieldStanding, who: Specimen, *, next_one: bool) -> QListWidgetItem:
        side = "inlet" if one.field.side.name == "IN" else "outlet"
        words = f"{SIGNS[one.state]} {who.nickname}, {side} {one.field.field}"
        state = told = STATES[one.state]
        if next_one:
            told = "next" if one.state is FieldState.WANTED else "again"
            state = "next" if one.state is FieldState.WANTED else "next, again"
        item = QListWidgetItem(f"{words}   {told}".rstrip())
        item.setIcon(tag_icon(who, px(18) * 2))
        item.setData(FIELD, one.field)
        spoken = f"{who.nickname}, {one.field.side}, field {one.field.field}: {state or one.state}"
        item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
        item.setToolTip(spoken)
        if next_one:
            item.setFont(font_of(15, bold=True))
        shown = colours()
        if one.state is FieldState.REFUSED:
            item.setForeground(_brush(shown.on_warn))
        elif one.state is FieldState.MEASURED:
            item.setForeground(_brush(shown.good))
        elif one.state is FieldState.WANTED and not next_one:
            item.setForeground(_brush(shown.dim))
        self.addItem(item)
        return item

    def _tell(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.chosen.emit(item.data(FIELD))


def _brush(colour: str) -> QBrush:

    return QBrush(QColor(colour))
