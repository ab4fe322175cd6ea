"""The verdict at a glance: a row a component, its outcome, and every specimen's score."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from benchlog.tasks.verdict_view import ComponentRow
from benchlog.trade.component import Component
from benchlog.trade.specimen import Specimen
from benchlog.window.theme import px
from benchlog.window.verdict.score_cells import CELL, ScoreDelegate
from benchlog.window.verdict.tag_header import TagHeader

FIXED_COLUMNS = 2
COMPONENT, OUTCOME, SCORE, ROW = 128, 208, 90, 50
"""Widths of the columns and height of the rows, in design sizes."""


class ScoreTable(QTableWidget):
    """Shows the components; `chosen` carries the one to look into, `opened` follows Enter."""

    chosen = Signal(object)
    opened = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Verdict, a row for each component")
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setItemDelegate(ScoreDelegate(self))
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.heads = TagHeader(self, 15)
        self.setHorizontalHeader(self.heads)
        self.horizontalHeader().setAccessibleName("Specimens")
        self.verticalHeader().setAccessibleName("Components")
        self._rows: tuple[ComponentRow, ...] = ()
        self.currentCellChanged.connect(self._tell_choice)

    @property
    def component(self) -> Component | None:
        """The component that is chosen; None while nothing is judged."""
        row = self.currentRow()
        return self._rows[row].component if 0 <= row < len(self._rows) else None

    def show_rows(self, rows: tuple[ComponentRow, ...], specimens: tuple[Specimen, ...]) -> None:
        """Show these rows, with the same component chosen as before where it is still there."""
        kept = self.component
        self.blockSignals(True)
        self._rows = rows
        self.setRowCount(len(rows))
        self.setColumnCount(FIXED_COLUMNS + len(specimens))
        self._show_heads(specimens)
        for r, row in enumerate(rows):
            self._show_row(r, row)
        components = [row.component for row in rows]
        if rows:
            column = max(self.currentColumn(), 0)
            self.setCurrentCell(components.index(kept) if kept in components else 0, column)
        self.blockSignals(False)
        self.rescaled()

    def rescaled(self) -> None:
        """Set letters, rows and columns to the window's size."""
        self.verticalHeader().setMinimumSectionSize(px(20))
        self.verticalHeader().setDefaultSectionSize(px(ROW))
        header = self.horizontalHeader()
        header.setMinimumSectionSize(px(40))
        for column, wide in ((0, COMPONENT), (1, OUTCOME)):
            if column < self.columnCount():
                header.setSectionResizeMode(column, QHeaderView.ResizeMode.Fixed)
                header.resizeSection(column, px(wide))
        for column in range(FIXED_COLUMNS, self.columnCount()):
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.Stretch)
        for row in range(self.rowCount()):
            self.setRowHeight(row, px(ROW))
        specimens = max(self.columnCount() - FIXED_COLUMNS, 1)
        self.setMinimumWidth(px(COMPONENT + OUTCOME + specimens * SCORE + 24))
        self.viewport().update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit()
            return
        super().keyPressEvent(event)

    def _show_heads(self, specimens: tuple[Specimen, ...]) -> None:
        nicknames = [s.nickname for s in specimens]
        self.setHorizontalHeaderLabels(["Component", "Outcome", *nicknames])
        self.heads.show_heads(["Component", "Outcome", *specimens])

    def _show_row(self, r: int, row: ComponentRow) -> None:
        outcome = f"{row.component.value}: {row.outcome}"
        outcome += f"; {row.support}" if row.support else ""
        if row.overruled is not None:
            outcome += f"; overruled: {row.overruled.words} {row.overruled.reason}"
        for column, spoken in enumerate((outcome, outcome, *(c.spoken for c in row.cells))):
            item = QTableWidgetItem()
            item.setData(CELL, row)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
            item.setToolTip(spoken)
            self.setItem(r, column, item)

    def _tell_choice(self, row: int, _column: int, before: int, _was: int) -> None:
        if row != before and self.component is not None:
            self.chosen.emit(self.component)
