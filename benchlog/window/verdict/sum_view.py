"""One number's sum, drawn: the result large, its formula, what went in, and its budget."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QTextBrowser, QVBoxLayout, QWidget

from benchlog.tasks.figure_view import Sum, SumInput
from benchlog.window.theme import px, sized
from benchlog.window.verdict.budget_table import BudgetTable
from benchlog.window.verdict.number_at import folded
from benchlog.window.verdict.plain_table import PlainTable

NO_BUDGET = "There is no number here, so there is no uncertainty budget."
EXACT = "An exact number has nothing in its uncertainty budget."


class SumView(QWidget):
    """Draws a Sum and decides nothing."""

    def __init__(self) -> None:
        super().__init__()
        self.title = QLabel(wordWrap=True)
        self.result = QLabel(wordWrap=True)
        self.formula = QLabel(wordWrap=True)
        self.beside = QLabel(wordWrap=True)
        self.warnings = QLabel(wordWrap=True)
        self.inputs = PlainTable("What went in, with its readings and instruments", letters=13)
        self.inputs.show_heads(["Input", "Value", "Readings, and with what"], (11, 9, 18))
        self.about = QTextBrowser()
        self.about.setAccessibleName("Assumptions, source and notes")
        self.budget = BudgetTable()
        self.nothing = QLabel(wordWrap=True)
        self.coverage = QLabel(wordWrap=True)
        self._lay_out()

    def show_sum(self, shown: Sum) -> None:
        """Show a sum."""
        self.title.setText(shown.title)
        self.result.setText(shown.result)
        self.result.setAccessibleName(f"{shown.title}: {shown.result}")
        sized(self.result, 30 if len(shown.result) < 60 else 18, bold=True, numeral=True)
        self.formula.setText(shown.formula)
        for label, words in (
            (self.beside, shown.beside),
            (self.warnings, "\n".join(shown.warnings)),
            (self.coverage, shown.coverage),
        ):
            label.setText(words)
            label.setVisible(bool(words))
        self.inputs.setRowCount(len(shown.inputs))
        with self.inputs.filling():
            for r, one in enumerate(shown.inputs):
                self._show_input(r, one)
        if shown.inputs:
            self.inputs.setCurrentCell(0, 0)
        self.budget.show_budget(shown.rows)
        self.budget.setVisible(bool(shown.rows))
        self.nothing.setText(EXACT if shown.coverage else NO_BUDGET)
        self.nothing.setVisible(not shown.rows)
        self.about.setHtml(about_html(shown))

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.inputs.rescaled()
        self.budget.rescaled()
        self.inputs.setMinimumWidth(px(380))
        self.about.setMinimumHeight(px(60))

    def _show_input(self, r: int, one: SumInput) -> None:
        readings = "\n".join(f"{', '.join(taken)}  ({tool})" for tool, taken in one.by_instrument)
        words = "\n".join(part for part in (readings, one.note) if part)
        spoken = f"{one.label}: {one.text}. {words}"
        for column, text in enumerate((one.label, folded(one.text), words)):
            self.inputs.put(r, column, text, spoken)

    def _lay_out(self) -> None:
        for label, size, tone in (
            (self.title, 16, "dim"), (self.formula, 15, ""), (self.beside, 14, "accent"),
            (self.warnings, 14, "warn"), (self.nothing, 15, "dim"), (self.coverage, 14, ""),
        ):  # fmt: skip
            sized(label, size)
            label.setProperty("tone", tone)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.NoTextInteraction)
        sized(self.result, 30, bold=True, numeral=True)
        sized(self.about, 13)
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        left = QVBoxLayout()
        left.addWidget(self.inputs, 3)
        left.addWidget(self.about, 2)
        right = QVBoxLayout()
        right.addWidget(self.budget, 1)
        right.addWidget(self.nothing, 1)
        right.addWidget(self.coverage)
        tables = QHBoxLayout()
        tables.addLayout(left, 9)
        tables.addLayout(right, 14)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        for part in (self.title, self.result, self.formula, self.beside, self.warnings):
            column.addWidget(part)
        column.addLayout(tables, 1)


def about_html(shown: Sum) -> str:
    """Return what was assumed, where the formula stands, and what to mind, as rich text.

    What an input's own line says already is not said twice.
    """
    parts = []
    notes = {one.note for one in shown.inputs}
    assumed = [escape(sentence) for sentence in shown.assumed if sentence not in notes]
    if assumed:
        parts.append("<p><b>Assumed</b><br>" + "<br>".join(assumed) + "</p>")
    parts.append(f"<p><b>Source</b><br>{escape(shown.source)}</p>")
    if shown.note:
        parts.append(f"<p>{escape(shown.note)}</p>")
    return "".join(parts)
