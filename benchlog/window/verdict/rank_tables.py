"""The tables of the ranks: chances of each rank, who comes before whom, and for which weights."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QWidget

from benchlog.tasks.rank_view import PLACES, RanksShown, percent
from benchlog.tasks.record import Record
from benchlog.trade.specimen import Specimen
from benchlog.window.theme import px, sized
from benchlog.window.verdict.plain_table import PlainTable
from benchlog.window.verdict.rank_cells import CHANCE, ChanceDelegate

NUMBERS = ("1st", "2nd", "3rd", "4th", "5th", "6th")
ROW = 36


class RankTables(QWidget):
    """Shows ranks once they are worked out."""

    def __init__(self) -> None:
        super().__init__()
        self.ranks = PlainTable("Chances of each rank", 15)
        self.before = PlainTable("Chances of coming before another", 15)
        self.weights = PlainTable("Weights that speak for each")
        for table in (self.ranks, self.before):
            table.setItemDelegate(ChanceDelegate(table))
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        for place, (words, table) in enumerate(
            (
                ("Chance of each rank", self.ranks),
                ("Chance of coming before", self.before),
                ("For which weights it comes first", self.weights),
            )
        ):
            head = QLabel(words)
            sized(head, 15, bold=True)
            head.setBuddy(table)
            row, column, wide = (0, place, 1) if place < 2 else (2, 0, 2)
            grid.addWidget(head, row, column, 1, wide)
            grid.addWidget(table, row + 1, column, 1, wide)
            table.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
            head.setAlignment(Qt.AlignmentFlag.AlignBottom)
        grid.setRowStretch(3, 1)

    def show_ranks(self, record: Record, shown: RanksShown) -> None:
        """Put ranks into the tables."""
        ids = {specimen.id: specimen for specimen in record.lineup.specimens}
        order = [
            replace(ids[row.specimen_id], nickname=", ".join(ids[s].nickname for s in row.party))
            for row in shown.rows
        ]
        self._show_ranks(order, shown)
        self._show_before(order, shown)
        self._show_weights(order, shown)
        for table in (self.ranks, self.before, self.weights):
            if table.currentRow() < 0 and shown.rows:
                table.setCurrentCell(0, 1)
        self.rescaled()

    def rescaled(self) -> None:
        """Follow the window's size."""
        for table in (self.ranks, self.before, self.weights):
            table.rescaled()
            table.verticalHeader().setMinimumSectionSize(px(ROW))
        for table in (self.ranks, self.before):
            table.setFixedHeight(px(ROW) * max(table.rowCount(), 2) + px(38))

    def _show_ranks(self, order: list[Specimen], shown: RanksShown) -> None:
        many = len(order)
        self.ranks.setRowCount(many)
        self.ranks.show_heads(["", *NUMBERS[:many]], (max(3, many), *([2] * many)))
        for r, row in enumerate(shown.rows):
            self.ranks.put_specimen(r, 0, order[r])
            self.ranks.item(r, 0).setData(Qt.ItemDataRole.AccessibleTextRole, row.sentence)
            for c, share in enumerate(row.shares):
                said = f"{row.nickname} {PLACES[c]} in {percent(share)} of the draws"
                self._chance(self.ranks, (r, c + 1), share, said)

    def _show_before(self, order: list[Specimen], shown: RanksShown) -> None:
        many = len(order)
        self.before.setRowCount(many)
        self.before.show_heads(["", *order], (max(3, many), *([2] * many)))
        for r, row in enumerate(shown.rows):
            self.before.put_specimen(r, 0, order[r])
            for c, share in enumerate(row.before):
                if share is None:
                    self.before.put(r, c + 1, "", f"{row.nickname} itself")
                    continue
                said = f"{row.nickname} before {order[c].nickname} in {percent(share)} of the draws"
                self._chance(self.before, (r, c + 1), share, said)

    def _show_weights(self, order: list[Specimen], shown: RanksShown) -> None:
        self.weights.setRowCount(len(order))
        heads = ("", "First under just these", "Mean weights where it comes first")
        self.weights.show_heads(heads, (3, 3, 11))
        for r, row in enumerate(shown.rows):
            self.weights.put_specimen(r, 0, order[r])
            never = f"{row.nickname} comes first for no weights"
            sure = f"{row.nickname} is first in {row.confidence} of the draws under these weights"
            self.weights.put(r, 1, row.confidence or "–", sure if row.confidence else never)
            self.weights.put(r, 2, row.central or "comes first for none", row.central or never)

    @staticmethod
    def _chance(table: PlainTable, place: tuple[int, int], share: float, said: str) -> None:
        table.put(*place, percent(share), said, dim=share == 0)
        table.item(*place).setData(CHANCE, share)
