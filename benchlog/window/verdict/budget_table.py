"""The uncertainty budget as a table, with a bar for each share of the variance."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QRectF, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QStyleOptionViewItem

from benchlog.tasks.budget_view import BudgetRow
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import colours, px
from benchlog.window.verdict.plain_table import PlainTable

HEADS = ("What", "Value", "u", "Spread", "ν", "c = ∂f/∂x", "|c|·u", "Share")
SHARES = (30, 12, 12, 14, 6, 15, 12, 10)
SHARE = Qt.ItemDataRole.UserRole
LAST = len(HEADS) - 1
INDENT = "    "


class BudgetTable(PlainTable):
    """Shows a budget's lines: inputs, under each its sources, and what inputs share."""

    def __init__(self) -> None:
        super().__init__("Uncertainty budget", letters=13)
        self.setItemDelegateForColumn(LAST, ShareBars(self))
        self.show_heads(HEADS, SHARES)

    def show_budget(self, rows: tuple[BudgetRow, ...]) -> None:
        """Show these lines."""
        self.setRowCount(len(rows))
        with self.filling():
            for r, row in enumerate(rows):
                self._show_row(r, row)
        if rows:
            self.setCurrentCell(0, 0)

    def _show_row(self, r: int, row: BudgetRow) -> None:
        label = INDENT + row.label if row.inset else row.label
        label += f"\n{row.note}" if row.note else ""
        cells = (label, row.value, row.u, row.spread, row.freedom, row.sensitivity)
        spoken = spoken_row(row)
        for column, words in enumerate((*cells, row.contribution, row.share_text)):
            self.put(r, column, words, spoken if column in (0, LAST) else "", dim=row.inset)
        self.item(r, LAST).setData(SHARE, (row.share, row.inset))


def spoken_row(row: BudgetRow) -> str:
    """Return a line of a budget as it is read out."""
    named = (
        ("", row.value),
        ("standard uncertainty ", row.u),
        ("", row.spread),
        ("degrees of freedom ", row.freedom),
        ("sensitivity ", row.sensitivity),
        ("contribution ", row.contribution),
        ("", f"{row.share_text} of the variance"),
        ("", row.note),
    )
    return f"{row.label}: " + ", ".join(f"{name}{words}" for name, words in named if words)


class ShareBars(CalmDelegate):
    """Paints a share's words and, below them, a bar as long as the share."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        super().paint(painter, option, index)
        kept = index.data(SHARE)
        if kept is None:
            return
        share, inset = kept
        shown = colours()
        room = QRectF(option.rect).adjusted(px(4), 0, -px(4), 0)
        room.setTop(room.bottom() - px(5))
        room.setHeight(px(4) if not inset else px(2))
        painter.save()
        painter.fillRect(room, QColor(shown.line))
        room.setWidth(room.width() * share)
        painter.fillRect(room, QColor(shown.dim if inset else shown.accent))
        painter.restore()
