"""The readings behind a component: those that stand, and, struck through, those that do not."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.tasks.reading_view import ReadingRow, reading_rows
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from benchlog.window.theme import font_of, sized
from benchlog.window.verdict.number_at import SUM_KEY
from benchlog.window.verdict.plain_table import PlainTable


class ReadingsPage(QWidget):
    """Shows readings; `correct_wanted` carries the row of one that stands.

    `sum_wanted` asks for the sum behind the value that the chosen reading is part of.
    """

    correct_wanted = Signal(object)
    sum_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[ReadingRow, ...] = ()
        self.table = PlainTable("Readings of this component")
        self.table.show_heads(["Specimen", "Attribute", "Reading", "With", "Why"], (6, 9, 8, 8, 6))
        self.correct = QPushButton("&Correct…")
        self.correct.setAccessibleName("Correct this reading")
        sized(self.correct, 15)
        self.words = QLabel("A corrected reading stays, struck through.", wordWrap=True)
        self.words.setProperty("tone", "dim")
        sized(self.words, 14)
        foot = QHBoxLayout()
        foot.addWidget(self.words, 1)
        foot.addWidget(self.correct)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(self.table, 1)
        column.addLayout(foot)
        self.correct.clicked.connect(self._ask)
        self.table.offer_sum(SUM_KEY)
        self.table.sum_wanted.connect(lambda _row, _column: self.sum_wanted.emit())
        self.table.opened.connect(lambda _row, _column: self._ask())
        self.table.itemDoubleClicked.connect(lambda _item: self._ask())
        self.table.currentCellChanged.connect(lambda *_: self._show_choice())

    def show_component(self, record: Record, component: Component) -> None:
        """Show the readings of one component, with the same one chosen where it still is there.

        Once that one is corrected, the correction is chosen in its place.
        """
        kept = self._chosen()
        was = {row.reading.id for row in self._rows}
        self._rows = reading_rows(record, component)
        self.table.blockSignals(True)
        self.table.setRowCount(len(self._rows))
        with self.table.filling():
            for r, row in enumerate(self._rows):
                self._show_row(r, row)
        if self._rows:
            self.table.setCurrentCell(self._place_of(kept, was), 2)
        self.table.blockSignals(False)
        self._show_choice()

    def number_here(self) -> tuple[str, str] | None:
        """Return the attribute and the specimen's id of the chosen reading."""
        chosen = self._chosen()
        return (chosen.reading.attribute, chosen.reading.specimen_id) if chosen else None

    def focus_row(self) -> None:
        """Put the focus on the reading that is chosen."""
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.table.rescaled()
        for r, row in enumerate(self._rows):
            self._strike(r, row)

    def _show_row(self, r: int, row: ReadingRow) -> None:
        for column, words in enumerate(
            (row.specimen.nickname, row.label, row.text, row.taken_with, row.note)
        ):
            spoken = f"{row.spoken}; {row.taken_with}, {row.at}"
            self.table.put(r, column, words, spoken, dim=not row.stands)
        self.table.put_specimen(r, 0, row.specimen)
        self._strike(r, row)

    def _strike(self, r: int, row: ReadingRow) -> None:
        font = font_of(14)
        font.setStrikeOut(not row.stands and not row.reading.withdrawn)
        for column in (1, 2):
            self.table.item(r, column).setFont(font)

    def _place_of(self, kept: ReadingRow | None, was: set[str]) -> int:
        """Return the row of a reading, or of its correction when that is new; else the first."""
        ids = [row.reading.id for row in self._rows]
        if kept is None or kept.reading.id not in ids:
            return 0
        fresh = [
            n
            for n, row in enumerate(self._rows)
            if row.stands and row.reading.supersedes == kept.reading.id and ids[n] not in was
        ]
        return fresh[0] if fresh else ids.index(kept.reading.id)

    def _chosen(self) -> ReadingRow | None:
        row = self.table.currentRow()
        return self._rows[row] if 0 <= row < len(self._rows) else None

    def _show_choice(self) -> None:
        chosen = self._chosen()
        self.correct.setEnabled(chosen is not None and chosen.stands)

    def _ask(self) -> None:
        chosen = self._chosen()
        if chosen is not None and chosen.stands:
            self.correct_wanted.emit(chosen)
