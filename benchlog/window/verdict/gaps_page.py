"""Gaps between specimens in one component, each against its uncertainty and what counts."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from benchlog.settings import METRIC
from benchlog.tasks.gap_view import SCORE, GapRow, gap_rows
from benchlog.tasks.record import Record
from benchlog.tasks.rule_flip import would_change_rules
from benchlog.tasks.verdict_view import ComponentRow
from benchlog.window.theme import sized
from benchlog.window.verdict.gap_cells import GAP, GapDelegate
from benchlog.window.verdict.number_at import SUM_KEY
from benchlog.window.verdict.plain_table import PlainTable

HEADS = ("In what", "Who", "Gap", "Drawn", "Comes to")
SHARES = (19, 16, 25, 16, 24)
DRAWN = 3
HOW = (
    "Bar: the gap, from nought. Grey band: its uncertainty. Arrow: what counts. "
    "A gap counts only beyond both."
)


class GapsPage(QWidget):
    """Shows every pair of specimens; `sum_wanted` asks for the sum behind the chosen value."""

    sum_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[GapRow, ...] = ()
        self.gaps = PlainTable("Gaps and their limits")
        self.gaps.setItemDelegate(GapDelegate(self.gaps))
        self.how = QLabel(HOW, wordWrap=True)
        self.would_change = QLabel(wordWrap=True)
        for label in (self.how, self.would_change):
            label.setProperty("tone", "dim")
            sized(label, 14)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(self.gaps, 1)
        column.addWidget(self.how)
        column.addWidget(self.would_change)
        self.gaps.offer_sum(SUM_KEY)
        for asked in (self.gaps.sum_wanted, self.gaps.opened, self.gaps.cellDoubleClicked):
            asked.connect(lambda _row, _column: self.sum_wanted.emit())

    def show_component(self, record: Record, row: ComponentRow, units: str = METRIC) -> None:
        """Show one component of a record, with the same row chosen as before where it fits."""
        here = max(self.gaps.currentRow(), 0)
        self._rows = gap_rows(record, row.component, units)
        self.gaps.clearSpans()
        self.gaps.setRowCount(len(self._rows))
        self.gaps.show_heads(HEADS, SHARES)
        begun = 0
        for r, gap in enumerate(self._rows):
            if gap.subject != self._rows[begun].subject:
                self.gaps.span_down(begun, 0, r - begun)
                begun = r
            self._put(r, gap)
        self.gaps.span_down(begun, 0, len(self._rows) - begun)
        if self._rows:
            self.gaps.setCurrentCell(min(here, len(self._rows) - 1), 1)
        change = f"{row.award.would_change} {would_change_rules(record, row.award)}"
        self.would_change.setText(f"What would change it: {change}".rstrip())

    def number_here(self) -> tuple[str, str] | None:
        """Return the subject and the first specimen's id of the chosen pair."""
        row = self.gaps.currentRow()
        if not 0 <= row < len(self._rows) or self._rows[row].subject == SCORE:
            return None
        return self._rows[row].subject, self._rows[row].first

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.gaps.rescaled()

    def _put(self, r: int, gap: GapRow) -> None:
        self.gaps.put(r, 0, gap.label, gap.label)
        self.gaps.put(r, 1, f"{gap.names[0]}\nless {gap.names[1]}", gap.spoken)
        lines = (gap.gap, gap.uncertainty, f"counts from {gap.limit}" if gap.gap else "")
        self.gaps.put(r, 2, "\n".join(filter(None, lines)) or "–", gap.spoken)
        self.gaps.put(r, DRAWN, "", gap.spoken)
        self.gaps.item(r, DRAWN).setData(GAP, gap)
        self.gaps.put(r, 4, gap.outcome, gap.spoken, dim=not gap.counts)
