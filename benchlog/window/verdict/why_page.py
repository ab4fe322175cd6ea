"""Why a component came out so: its values, what they are worth, the reason, the reviewer's say."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.settings import METRIC
from benchlog.tasks.record import Record
from benchlog.tasks.verdict_view import ComponentRow, ValueCell, ValueRow, value_rows
from benchlog.trade.specimen import Specimen
from benchlog.window.theme import sized
from benchlog.window.verdict.number_at import SUM_KEY, WARNS, folded, keep_place, number_at
from benchlog.window.verdict.plain_table import MOST_ACROSS, PlainTable
from benchlog.window.verdict.remark_box import RemarkBox

BLIND = "judged blind"


class WhyPage(QWidget):
    """Shows one component; `said` carries its name and the reviewer's own sentence.

    `sum_wanted` asks for the sum behind the value that is chosen, `overrule_wanted` for the
    reviewer's own award, `take_back_wanted` to let the rules' award stand again.
    """

    said = Signal(str, str)
    sum_wanted = Signal()
    overrule_wanted = Signal()
    take_back_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._component = ""
        self._kept = ""
        self._rows: tuple[ValueRow, ...] = ()
        self._specimens: tuple[Specimen, ...] = ()
        self.values = PlainTable("Values and what they are worth")
        self.reason = QLabel(wordWrap=True)
        self.would_change = QLabel(wordWrap=True)
        self.overruled = QLabel(wordWrap=True)
        self.remark = RemarkBox(
            "Your own sentence, printed beside the rule's reason",
            "Your own sentence on this component",
            "Kept when you leave the box. Say what you saw; claim nothing more.",
        )
        self.own = self.remark.text
        self.overrule = QPushButton("&Overrule this award…")
        self.take_back = QPushButton("Let the rules' award stand")
        for button in (self.overrule, self.take_back):
            button.setAccessibleName(button.text().replace("&", "").rstrip("…"))
            sized(button, 14)
        self.would_change.setProperty("tone", "dim")
        self.overruled.setProperty("tone", "warn")
        for part, size in ((self.reason, 15), (self.would_change, 14), (self.overruled, 15)):
            sized(part, size)
        by_hand = QHBoxLayout()
        by_hand.addWidget(self.overrule)
        by_hand.addWidget(self.take_back)
        by_hand.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(self.values, 1)
        for part in (self.reason, self.would_change, self.overruled):
            column.addWidget(part)
        column.addLayout(by_hand)
        column.addWidget(self.remark)
        self.overrule.clicked.connect(self.overrule_wanted)
        self.take_back.clicked.connect(self.take_back_wanted)
        self.remark.left.connect(self.keep)
        self.values.offer_sum(SUM_KEY)
        for asked in (self.values.sum_wanted, self.values.opened, self.values.cellDoubleClicked):
            asked.connect(lambda _row, _column: self.sum_wanted.emit())

    def show_component(self, record: Record, row: ComponentRow, units: str = METRIC) -> None:
        """Show one component of a record; a sentence being typed stays as it is."""
        if row.component.value != self._component:
            self.keep()
            self._component = row.component.value
            self._show_own(row.remark)
        elif self.own.toPlainText().strip() == self._kept:
            self._show_own(row.remark)
        self.reason.setText(row.award.reason)
        change = f"What would change it: {row.award.would_change} {row.award.judged_by}"
        self.would_change.setText(change.rstrip())
        self._show_overruled(row)
        self._show_values(record, value_rows(record, row.component, units))

    def number_here(self) -> tuple[str, str] | None:
        """Return the subject and the specimen's id of the value that is chosen."""
        return number_at(self.values, [row.subject for row in self._rows], self._specimens)

    def keep(self) -> None:
        """Keep the sentence when it is another than before."""
        text = self.own.toPlainText().strip()
        if self._component and text != self._kept:
            self._kept = text
            self.said.emit(self._component, text)

    def forget(self) -> None:
        """Keep what was typed and be ready for another line-up."""
        self.keep()
        self._component = ""

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.values.rescaled()
        self.remark.rescaled()

    def may_speak(self, allowed: bool) -> None:
        """Let the reviewer overrule and remark, or only read, as under rules not in force."""
        for part in (self.overrule, self.take_back, self.own, self.remark.instead):
            part.setEnabled(allowed)

    def _show_overruled(self, row: ComponentRow) -> None:
        over = row.overruled
        said = f"{over.words} Reason: {over.reason}" if over else ""
        self.overruled.setText("\n".join(filter(None, (said, row.hand_story))))
        self.overruled.setVisible(bool(self.overruled.text()))
        self.take_back.setVisible(over is not None)

    def _show_own(self, text: str) -> None:
        self._kept = text
        if self.own.toPlainText() != text:
            self.own.setPlainText(text)

    def _show_values(self, record: Record, rows: tuple[ValueRow, ...]) -> None:
        self._rows, self._specimens = rows, record.lineup.specimens
        here = self.values.currentRow(), self.values.currentColumn()
        self.values.clearSpans()
        is_long = len(record.lineup.specimens) > MOST_ACROSS
        with self.values.filling():
            (self._show_down if is_long else self._show_across)(record, rows)
        keep_place(self.values, here)

    def _show_down(self, record: Record, rows: tuple[ValueRow, ...]) -> None:
        """Show a block of rows an attribute, a row a specimen: many do not fit side by side."""
        specimens = record.lineup.specimens
        many = len(specimens)
        self.values.setRowCount(len(rows) * many)
        self.values.show_heads(["Attribute", "Specimen", "Value", "Counts from"], (9, 8, 10, 8))
        for r, row in enumerate(rows):
            self.values.put(r * many, 0, f"{row.label}\n{_part(row)}", _about(row))
            self.values.put(r * many, 3, row.meaningful, _counts(row), dim=True)
            self.values.span_down(r * many, 0, many)
            self.values.span_down(r * many, 3, many)
            for n, (cell, specimen) in enumerate(zip(row.cells, specimens, strict=True)):
                spoken = f"{row.label}, {specimen.nickname}: {cell_words(cell, ', ')}"
                self.values.put_specimen(r * many + n, 1, specimen)
                words = folded(cell_words(cell, "\n"))
                self.values.put(r * many + n, 2, words, spoken, dim=not row.part)

    def _show_across(self, record: Record, rows: tuple[ValueRow, ...]) -> None:
        specimens = record.lineup.specimens
        self.values.setRowCount(len(rows))
        wide = (28, *([max(16, 53 // len(specimens))] * len(specimens)), 19)
        self.values.show_heads(["Attribute", *specimens, "Counts from"], wide)
        for r, row in enumerate(rows):
            self.values.put(r, 0, f"{row.label}\n{_part(row)}", _about(row))
            for c, (cell, specimen) in enumerate(zip(row.cells, specimens, strict=True), 1):
                spoken = f"{row.label}, {specimen.nickname}: {cell_words(cell, ', ')}"
                self.values.put(r, c, folded(cell_words(cell, "\n")), spoken, dim=not row.part)
            self.values.put(r, len(specimens) + 1, row.meaningful, _counts(row), dim=True)


def cell_words(cell: ValueCell, joint: str) -> str:
    """Return a value and what it is worth, or why it is worth nothing; marked where it warns."""
    text = f"{cell.text}{WARNS}" if cell.warnings else cell.text
    text = f"{text}{joint}{BLIND}" if cell.blind else text
    if cell.worth:
        return f"{text}{joint}worth {cell.worth}"
    if cell.why_not and cell.why_not != cell.text:
        return f"{text}{joint}no worth: {cell.why_not}"
    return text


def _part(row: ValueRow) -> str:
    return f"{row.part:.0%} of the score" if row.part else "shown, never scored"


def _about(row: ValueRow) -> str:
    return f"{row.label}: {_part(row)}. {row.reason}"


def _counts(row: ValueRow) -> str:
    return f"{row.label} counts from a difference of {row.meaningful}; {row.support}"
