"""The derived figures of a component, and the sum behind the one that is chosen."""

from __future__ import annotations

from html import escape

from PySide6.QtWidgets import QTextBrowser, QVBoxLayout, QWidget

from benchlog.tasks.figure_view import FigureRow, Sum, figure_rows, sum_of
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from benchlog.trade.specimen import Specimen
from benchlog.window.theme import sized
from benchlog.window.verdict.plain_table import MOST_ACROSS, PlainTable

NOTHING = "No figure is derived for this component."
CHOOSE = "Choose a figure above to see its sum."


class SumsPage(QWidget):
    """Shows figures; choosing one lays its sum open."""

    def __init__(self) -> None:
        super().__init__()
        self._record: Record | None = None
        self._rows: tuple[FigureRow, ...] = ()
        self.figures = PlainTable("Derived figures")
        self.sum = QTextBrowser()
        self.sum.setAccessibleName("The sum of the chosen figure")
        sized(self.sum, 15)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(self.figures, 2)
        column.addWidget(self.sum, 3)
        self.figures.currentCellChanged.connect(lambda row, column, *_: self._show_sum(row, column))

    def show_component(self, record: Record, component: Component) -> None:
        """Show the figures of one component, with the same one chosen as before."""
        row, column = self.figures.currentRow(), self.figures.currentColumn()
        same = self._rows and self._rows[0].kind.component == component
        self._record = record
        self._rows = figure_rows(record, component)
        self.figures.blockSignals(True)
        self.figures.clearSpans()
        down = len(record.lineup.specimens) > MOST_ACROSS
        first = (0, 2) if down else (0, 1)
        if down:
            self._show_down(record.lineup.specimens)
        else:
            self._show_across(record.lineup.specimens)
        self.figures.setVisible(bool(self._rows))
        here = (row, column) if same and 0 <= row < self.figures.rowCount() else first
        if self._rows:
            self.figures.setCurrentCell(*here)
        self.figures.blockSignals(False)
        self._show_sum(*here)

    def _show_across(self, specimens: tuple[Specimen, ...]) -> None:
        self.figures.setRowCount(len(self._rows))
        wide = 66 // len(specimens)
        self.figures.show_heads(["Figure", *specimens], (30, *[wide] * len(specimens)))
        for r, figure in enumerate(self._rows):
            self.figures.put(r, 0, figure.kind.label)
            for c, (text, specimen) in enumerate(zip(figure.texts, specimens, strict=True), 1):
                self.figures.put(r, c, text, f"{figure.kind.label}, {specimen.nickname}: {text}")

    def _show_down(self, specimens: tuple[Specimen, ...]) -> None:
        many = len(specimens)
        self.figures.setRowCount(len(self._rows) * many)
        self.figures.show_heads(["Figure", "Specimen", "Value"], (10, 8, 12))
        for r, figure in enumerate(self._rows):
            self.figures.put(r * many, 0, figure.kind.label)
            self.figures.span_down(r * many, 0, many)
            for n, (text, specimen) in enumerate(zip(figure.texts, specimens, strict=True)):
                spoken = f"{figure.kind.label}, {specimen.nickname}: {text}"
                self.figures.put_specimen(r * many + n, 1, specimen)
                self.figures.put(r * many + n, 2, text, spoken)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.figures.rescaled()

    def _show_sum(self, row: int, column: int) -> None:
        if self._record is None or not self._rows:
            self.sum.setPlainText(NOTHING)
            return
        specimens = self._record.lineup.specimens
        down = len(specimens) > MOST_ACROSS
        figure, who = divmod(row, len(specimens)) if down else (row, column - 1)
        if 0 <= figure < len(self._rows) and who >= 0:
            key = self._rows[figure].kind.key
            self.sum.setHtml(sum_html(sum_of(self._record, key, specimens[who].id)))
        else:
            self.sum.setPlainText(CHOOSE)


def sum_html(shown: Sum) -> str:
    """Return a sum as rich text: formula, what went in, what each adds to the uncertainty."""
    parts = [f"<b>{escape(shown.title)}: {escape(shown.result)}</b>"]
    parts.append(f"<p>{escape(shown.formula)}</p>")
    if shown.inputs:
        rows = "".join(
            f"<tr><td>{escape(one.label)}</td><td>&nbsp;&nbsp;{escape(one.text)}</td></tr>"
            for one in shown.inputs
        )
        parts.append(f"<table>{rows}</table>")
    parts += _listed("What each adds to the uncertainty", shown.shares)
    parts += _listed("The readings in it", shown.readings)
    parts.append(f"<p>Formula: {escape(shown.source)}. {escape(shown.note)}</p>")
    return "".join(parts)


def _listed(title: str, lines: tuple[str, ...]) -> list[str]:
    if not lines:
        return []
    return [f"<p>{title}:<br>" + "<br>".join(escape(line) for line in lines) + "</p>"]
