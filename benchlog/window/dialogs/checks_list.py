"""The instruments with what their checks say, in words, by a shape and in a colour."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem

from benchlog.tasks.check_book import CheckMark, ToolCheck
from benchlog.tasks.checks_view import ToolView
from benchlog.window import icons
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, font_of, px

TOOL = Qt.ItemDataRole.UserRole
SHAPES = {
    CheckMark.NOT_CHECKED: "ring",
    CheckMark.OPEN: "half ring",
    CheckMark.PASSED: "tick",
    CheckMark.IN_DOUBT: "caution",
    CheckMark.PUT_RIGHT: "mended",
}
OTHERS = "other instruments"


def mark_ink(check: ToolCheck) -> str:
    """Return the colour of an instrument's mark in the theme in use."""
    shown = colours()
    return {
        CheckMark.NOT_CHECKED: shown.dim,
        CheckMark.OPEN: shown.accent,
        CheckMark.IN_DOUBT: shown.on_warn,
    }.get(check.mark, shown.good)


class ChecksList(QListWidget):
    """Lists the instruments in use, the others below a heading; `chosen` carries an id."""

    chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Instruments and their checks")
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setItemDelegate(CalmDelegate(self))
        self.setWordWrap(True)
        self.setFont(font_of(16))
        self.setIconSize(QSize(px(20), px(20)))
        self.setSpacing(px(2))
        self.currentItemChanged.connect(self._tell)

    def show_tools(self, views: Iterable[ToolView], current: str) -> None:
        """List the instruments and choose one, without telling of it."""
        self.blockSignals(True)
        self.clear()
        here = True
        for view in views:
            if here and not view.here:
                here = False
                self._head(OTHERS)
            item = self._row(view)
            if view.instrument.id == current:
                self.setCurrentItem(item)
        self.blockSignals(False)

    def _row(self, view: ToolView) -> QListWidgetItem:
        item = QListWidgetItem(f"{view.instrument.name}\n{view.check.words}")
        item.setIcon(icons.icon(SHAPES[view.check.mark], mark_ink(view.check)))
        item.setData(TOOL, view.instrument.id)
        spoken = f"{view.instrument.name}, {view.instrument.kind}: {view.check.words}"
        item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
        item.setToolTip(spoken)
        self.addItem(item)
        return item

    def _head(self, words: str) -> None:
        item = QListWidgetItem(words)
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        item.setFont(font_of(14))
        self.addItem(item)

    def _tell(self, item: QListWidgetItem | None) -> None:
        if item is not None and item.data(TOOL):
            self.chosen.emit(item.data(TOOL))
