"""The derived figures of a component, and the sum behind the one that is chosen."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QTextBrowser, QVBoxLayout, QWidget

from benchlog.settings import METRIC
from benchlog.tasks.figure_view import FigureRow, Sum, figure_rows, sum_of
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from benchlog.trade.specimen import Specimen
from benchlog.window.theme import sized
from benchlog.window.verdict.number_at import SUM_KEY, WARNS, folded, keep_place, number_at
from benchlog.window.verdict.plain_table import MOST_ACROSS, PlainTable

NOTHING = "No figure is derived for this component."
NOT_READ = "No figure of this component had an input read."
CHOOSE = "Choose a figure above to see its sum."


class SumsPage(QWidget):
    """Shows figures; choosing one tells its sum in short, `sum_wanted` asks for all of it."""

    sum_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._record: Record | None = None
        self._component: Component | None = None
        self._units = METRIC
        self._rows: tuple[FigureRow, ...] = ()
        self.figures = PlainTable("Derived figures")
        self.every = QPushButton("Also those &without an input", checkable=True)
        self.every.setAccessibleName("Show also the figures without any input read")
        self.sum = QTextBrowser()
        self.sum.setAccessibleName("The sum of the chosen figure")
        sized(self.every, 14)
        sized(self.sum, 15)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(self.figures, 3)
        foot = QHBoxLayout()
        foot.addStretch(1)
        foot.addWidget(self.every)
        column.addLayout(foot)
        column.addWidget(self.sum, 3)
        self.figures.currentCellChanged.connect(lambda *_: self._show_sum())
        self.figures.offer_sum(SUM_KEY)
        for asked in (self.figures.sum_wanted, self.figures.opened, self.figures.cellDoubleClicked):
            asked.connect(lambda _row, _column: self.sum_wanted.emit())
        self.every.toggled.connect(lambda _on: self._show_figures())

    def show_component(self, record: Record, component: Component, units: str = METRIC) -> None:
        """Show the figures of one component, with the same one chosen as before."""
        self._record, self._component, self._units = record, component, units
        self._show_figures()

    def number_here(self) -> tuple[str, str] | None:
        """Return the figure and the specimen's id of the cell that is chosen."""
        if self._record is None:
            return None
        keys = [row.kind.key for row in self._rows]
        return number_at(self.figures, keys, self._record.lineup.specimens)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.figures.rescaled()

    def _show_figures(self) -> None:
        record, component = self._record, self._component
        if record is None or component is None:
            return
        here = self.figures.currentRow(), self.figures.currentColumn()
        before = [row.kind.key for row in self._rows]
        self._rows = figure_rows(record, component, self._units, every=self.every.isChecked())
        self.figures.blockSignals(True)
        self.figures.clearSpans()
        is_long = len(record.lineup.specimens) > MOST_ACROSS
        with self.figures.filling():
            (self._show_down if is_long else self._show_across)(record.lineup.specimens)
        first = (0, 2 if is_long else 1)
        self.figures.setVisible(bool(self._rows))
        keep_place(self.figures, here if before == [r.kind.key for r in self._rows] else first)
        self.figures.blockSignals(False)
        self._show_sum()

    def _show_across(self, specimens: tuple[Specimen, ...]) -> None:
        self.figures.setRowCount(len(self._rows))
        wide = 66 // len(specimens)
        self.figures.show_heads(["Figure", *specimens], (30, *[wide] * len(specimens)))
        for r, figure in enumerate(self._rows):
            self.figures.put(r, 0, figure.kind.label)
            for c, specimen in enumerate(specimens):
                self._put(r, c + 1, figure, c, specimen)

    def _show_down(self, specimens: tuple[Specimen, ...]) -> None:
        many = len(specimens)
        self.figures.setRowCount(len(self._rows) * many)
        self.figures.show_heads(["Figure", "Specimen", "Value"], (10, 8, 12))
        for r, figure in enumerate(self._rows):
            self.figures.put(r * many, 0, figure.kind.label)
            self.figures.span_down(r * many, 0, many)
            for n, specimen in enumerate(specimens):
                self.figures.put_specimen(r * many + n, 1, specimen)
                self._put(r * many + n, 2, figure, n, specimen)

    def _put(self, row: int, column: int, figure: FigureRow, who: int, of: Specimen) -> None:
        text, warnings = figure.texts[who], figure.warnings[who]
        spoken = ". ".join((f"{figure.kind.label}, {of.nickname}: {text}", *warnings))
        self.figures.put(row, column, folded(text) + (WARNS if warnings else ""), spoken)

    def _show_sum(self) -> None:
        here = self.number_here()
        if self._record is None or not self._rows:
            self.sum.setPlainText(NOTHING if self.every.isChecked() else NOT_READ)
        elif here is None:
            self.sum.setPlainText(CHOOSE)
        else:
            self.sum.setHtml(sum_html(sum_of(self._record, *here, self._units)))


def sum_html(shown: Sum) -> str:
    """Return a sum in short as rich text: formula, what went in, what each adds."""
    parts = [f"<b>{escape(shown.title)}: {escape(shown.result)}</b>"]
    parts += [f"<p><b>{escape(shown.beside)}</b></p>"] if shown.beside else []
    parts += _listed("Warnings", shown.warnings)
    parts.append(f"<p>{escape(shown.formula)}</p>")
    if shown.inputs:
        rows = "".join(
            f"<tr><td>{escape(one.label)}</td><td>&nbsp;&nbsp;{escape(one.text)}</td></tr>"
            for one in shown.inputs
        )
        parts.append(f"<table>{rows}</table>")
    parts += _listed("What each adds to the uncertainty", shown.shares)
    parts += _listed("Assumed", shown.assumed)
    parts += _listed("The readings in it", shown.readings)
    parts.append(f"<p>Formula: {escape(shown.source)}. {escape(shown.note)}</p>")
    return "".join(parts)


def _listed(title: str, lines: tuple[str, ...]) -> list[str]:
    if not lines:
        return []
    return [f"<p>{title}:<br>" + "<br>".join(escape(line) for line in lines) + "</p>"]
