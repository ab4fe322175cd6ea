"""A table of words that folds its lines, for values, figures and readings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from benchlog.trade.specimen import Specimen
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, font_of, px


class PlainTable(QTableWidget):
    """Shows rows of words; `opened` carries row and column of a cell that Enter was pressed on."""

    opened = Signal(int, int)

    def __init__(self, name: str, letters: int = 14) -> None:
        super().__init__()
        self._letters = letters
        self._shares: tuple[int, ...] = ()
        self.setAccessibleName(name)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTabKeyNavigation(False)
        self.setItemDelegate(CalmDelegate(self))
        self.setWordWrap(True)
        self.setTextElideMode(Qt.TextElideMode.ElideNone)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        for header, spoken in ((self.horizontalHeader(), "head"), (self.verticalHeader(), "rows")):
            header.setAccessibleName(f"{name}, {spoken}")
            header.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            header.setHighlightSections(False)
        self.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        self.rescaled()

    def show_heads(
        self, names: Sequence[str], shares: Sequence[int], specimens: Iterable[Specimen] = ()
    ) -> None:
        """Show column heads, each with its share of the width; specimens come last, with marks."""
        marked = tuple(specimens)
        self._shares = tuple(shares)
        self.setColumnCount(len(names) + len(marked))
        for column, name in enumerate(names):
            self.setHorizontalHeaderItem(column, QTableWidgetItem(name))
        self.show_specimens(marked, len(names))
        self._share_width()

    def show_specimens(self, specimens: Iterable[Specimen], first: int) -> None:
        """Head columns from `first` on with specimens' marks and nicknames."""
        for column, specimen in enumerate(specimens, first):
            head = QTableWidgetItem(tag_icon(specimen, px(16) * 2), specimen.nickname)
            self.setHorizontalHeaderItem(column, head)

    def put(
        self, row: int, column: int, words: str, spoken: str = "", *, dim: bool = False
    ) -> None:
        """Put words into a cell; `spoken` is what is read out instead."""
        item = QTableWidgetItem(words)
        item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken or words)
        item.setToolTip(spoken or words)
        item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        if dim:
            item.setForeground(QColor(colours().dim))
        self.setItem(row, column, item)

    def rescaled(self) -> None:
        """Set letters and columns to the window's size."""
        self.setFont(font_of(self._letters))
        self.horizontalHeader().setFont(font_of(self._letters, bold=True))
        self.verticalHeader().setMinimumSectionSize(px(24))
        self.horizontalHeader().setMinimumSectionSize(px(30))
        self._share_width()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.currentItem():
            self.opened.emit(self.currentRow(), self.currentColumn())
            return
        super().keyPressEvent(event)

    def resizeEvent(self, event: object) -> None:
        super().resizeEvent(event)
        self._share_width()

    def _share_width(self) -> None:
        whole = sum(self._shares)
        if not whole or len(self._shares) != self.columnCount():
            return
        wide = self.viewport().width()
        for column, share in enumerate(self._shares):
            self.setColumnWidth(column, int(wide * share / whole))
