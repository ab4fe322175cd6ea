"""All rules of a line-up in one table: component by component, what counts, how much, from what."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent

from benchlog.tasks.rules_view import RuleRow
from benchlog.window.verdict.plain_table import PlainTable

HEADS = ("Component", "What is judged", "Counts", "Weight", "Share", "Counts from", "Support")
SHARES = (13, 25, 8, 8, 8, 13, 17)


class RulesTable(PlainTable):
    """`chosen` carries the subject that is chosen, `toggled` one whose counting was switched."""

    chosen = Signal(str)
    toggled = Signal(str)

    def __init__(self) -> None:
        super().__init__("Rules, a row for each; Space lets it count or not")
        self._rows: tuple[RuleRow, ...] = ()
        self.currentCellChanged.connect(self._tell)

    @property
    def subject(self) -> str:
        """The subject that is chosen, "" for none."""
        row = self.currentRow()
        return self._rows[row].subject if 0 <= row < len(self._rows) else ""

    def show_rows(self, rows: tuple[RuleRow, ...]) -> None:
        """Show rules, with the same one chosen as before."""
        kept, column = self.subject, max(self.currentColumn(), 1)
        self.blockSignals(True)
        self._rows = rows
        self.clearSpans()
        self.setRowCount(len(rows))
        self.show_heads(HEADS, SHARES)
        begun = 0
        with self.filling():
            for r, row in enumerate(rows):
                if row.component is not rows[begun].component:
                    self.span_down(begun, 0, r - begun)
                    begun = r
                self._put(r, row)
            self.span_down(begun, 0, len(rows) - begun)
        subjects = [row.subject for row in rows]
        if rows:
            self.setCurrentCell(subjects.index(kept) if kept in subjects else 0, column)
        self.blockSignals(False)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and self.subject:
            self.toggled.emit(self.subject)
            return
        super().keyPressEvent(event)

    def _put(self, r: int, row: RuleRow) -> None:
        counts = "yes" if row.counts else "no"
        share = f"{100 * row.share:.0f} %" if row.counts else ""
        spoken = (
            f"{row.component.value}, {row.label}: "
            + (f"weight {row.weight}, {share} of the score" if row.counts else "never scored")
            + f"; {_counts_from(row, 'counts from ', 'any other answer')}; {row.support}"
        )
        cells = (
            row.component.value, row.label, counts, row.weight, share,
            _counts_from(row, "", "any"), row.support,
        )  # fmt: skip
        for c, words in enumerate(cells):
            self.put(r, c, words, spoken, dim=not row.counts)

    def _tell(self, row: int, _column: int, before: int, _was: int) -> None:
        if row != before and self.subject:
            self.chosen.emit(self.subject)


def _counts_from(row: RuleRow, lead: str, without: str) -> str:
    return f"{lead}{row.meaningful or without}" if row.compared else "not compared"
