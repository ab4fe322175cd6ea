"""A table of words that folds its lines, for values, figures and readings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAction, QColor, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from benchlog.trade.specimen import Specimen
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, font_of, px
from benchlog.window.verdict.tag_header import TagHeader

MOST_ACROSS = 3
"""So many specimens stand side by side; more of them stand below each other."""


class PlainTable(QTableWidget):
    """Shows rows of words; `opened` carries row and column of a cell that Enter was pressed on.

    After `offer_sum` the context menu offers the sum behind a cell, and `sum_wanted` carries its
    row and column.
    """

    opened = Signal(int, int)
    sum_wanted = Signal(int, int)

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
        self.heads = TagHeader(self, letters)
        self.setHorizontalHeader(self.heads)
        self.heads.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        for header, spoken in ((self.horizontalHeader(), "head"), (self.verticalHeader(), "rows")):
            header.setAccessibleName(f"{name}, {spoken}")
            header.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.rescaled()

    def show_heads(self, heads: Sequence[str | Specimen], shares: Sequence[int]) -> None:
        """Show column heads, each with its share of the width; a specimen's head has its mark."""
        self._shares = tuple(shares)
        self.setColumnCount(len(heads))
        self.setHorizontalHeaderLabels([_words(head) for head in heads])
        self.heads.show_heads(list(heads))
        self._share_width()

    @contextmanager
    def filling(self) -> Iterator[None]:
        """Fit the rows' heights to their words once, when all is put, not after every cell."""
        rows = self.verticalHeader()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        try:
            yield
        finally:
            rows.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)

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

    def put_specimen(self, row: int, column: int, specimen: Specimen) -> None:
        """Put a specimen's mark and nickname into a cell."""
        self.put(row, column, specimen.nickname)
        self.item(row, column).setIcon(tag_icon(specimen, px(16) * 2))

    def offer_sum(self, key: str) -> None:
        """Offer the sum behind a cell in the context menu; `key` is shown beside it."""
        action = QAction(f"Show the sum\t{key}", self)
        action.triggered.connect(
            lambda: self.sum_wanted.emit(self.currentRow(), self.currentColumn())
        )
        self.addAction(action)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)

    def span_down(self, row: int, column: int, many: int) -> None:
        """Let a cell reach over the rows below it."""
        if many > 1:
            self.setSpan(row, column, many, 1)

    def rescaled(self) -> None:
        """Set letters and columns to the window's size."""
        self.setFont(font_of(self._letters))
        self.setIconSize(QSize(px(16), px(16)))
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


def _words(head: str | Specimen) -> str:
    return head.nickname if isinstance(head, Specimen) else head
