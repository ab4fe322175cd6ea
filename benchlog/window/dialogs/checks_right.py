"""Putting readings in doubt right: what each would be, what to weigh, why, and two ways."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from benchlog.measure.check import Remedy
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading
from benchlog.tasks.checks_view import shift_words
from benchlog.tasks.group_correct import Offer
from benchlog.trade.specimen import Specimen
from benchlog.window.bench.reasons import is_a_value
from benchlog.window.lineup.field import Field
from benchlog.window.theme import px, sized
from benchlog.window.verdict.plain_table import PlainTable

Named = Callable[[Reading], tuple[Specimen, str]]
"""Says whose reading it is, and of what, in the words of the bench."""
ROWS_SEEN = 4


class RightPanel(QWidget):
    """`wanted` carries the failed check's id, the remedy and the reason."""

    wanted = Signal(str, object, str)

    def __init__(self) -> None:
        super().__init__()
        self._offer: Offer | None = None
        self.head = QLabel(wordWrap=True)
        self.head.setProperty("tone", "warn")
        sized(self.head, 17, bold=True)
        self.table = PlainTable("Readings in doubt, as read and as a shift would make them")
        self.table.show_heads(["Specimen", "What", "As read", "Shifted"], (5, 9, 5, 5))
        self.caution = QLabel(wordWrap=True)
        sized(self.caution, 15)
        self.reason = QLineEdit()
        self.field = Field("Why", self.reason, "printed with the correction")
        self.shift = _button("Shift all readings")
        self.spoil = _button("Mark all readings as spoiled")
        buttons = QHBoxLayout()
        buttons.setSpacing(px(8))
        buttons.addWidget(self.shift)
        buttons.addWidget(self.spoil)
        buttons.addStretch()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(px(5))
        for part in (self.head, self.table, self.caution, self.field):
            column.addWidget(part)
        column.addLayout(buttons)
        self.shift.clicked.connect(lambda: self._wish(Remedy.SHIFT))
        self.spoil.clicked.connect(lambda: self._wish(Remedy.SPOILED))
        self.reason.textEdited.connect(lambda _text: self.field.show_fault(""))
        for one, other in pairwise(self.tab_stops()):
            QWidget.setTabOrder(one, other)

    def tab_stops(self) -> list[QWidget]:
        """Return what Tab goes through, in order."""
        return [self.table, self.reason, self.shift, self.spoil]

    def show_offer(self, offer: Offer | None, instrument: Instrument, named: Named) -> None:
        """Show what is in doubt and what a shift would make of it; hides where nothing is."""
        if offer is None or self._offer is None or offer.check != self._offer.check:
            self.reason.clear()
            self.field.show_fault("")
        self._offer = offer
        self.setVisible(offer is not None)
        if offer is None:
            return
        number = len(offer.rows)
        readings = "1 reading" if number == 1 else f"{number} readings"
        self.head.setText(f"{readings} in doubt: {offer.check.moment} check failed.")
        self.table.setRowCount(number)
        for row, shifted in enumerate(offer.rows):
            specimen, label = named(shifted.reading)
            spoken = f"{specimen.nickname}, {label}: {shifted.old}, shifted {shifted.new}"
            self.table.put_specimen(row, 0, specimen)
            for column, words in enumerate((label, shifted.old, shifted.new), 1):
                self.table.put(row, column, words, spoken)
        self.caution.setText(f"{offer.caution} {offer.refusal}".strip())
        every = "the reading" if number == 1 else f"all {readings}"
        self.shift.setText(f"&Shift {every} by {shift_words(float(offer.shift), instrument)}")
        self.spoil.setText(f"&Mark {every} as spoiled")
        for button in (self.shift, self.spoil):
            button.setAccessibleName(button.text().replace("&", ""))
        self.shift.setEnabled(not offer.refusal)
        self.rescaled()

    def rescaled(self) -> None:
        """Give the table room for a few readings; more of them scroll."""
        self.table.rescaled()
        rows = min(self.table.rowCount(), ROWS_SEEN)
        self.table.setFixedHeight(px(34) + rows * px(31) + 2 * self.table.frameWidth())

    def refused(self, words: str) -> None:
        """Say why nothing was done, at the reason, which is what mostly lacks."""
        self.field.show_fault(words)
        self.reason.setFocus()

    def _wish(self, remedy: Remedy) -> None:
        said = self.reason.text().strip()
        if is_a_value(said):
            self.refused(f"'{said}' is a value, not a reason. Say in words what went wrong.")
        elif self._offer is not None:
            self.wanted.emit(self._offer.check.id, remedy, said)


def _button(name: str) -> QPushButton:
    button = QPushButton()
    button.setAccessibleName(name)
    button.setAutoDefault(False)
    sized(button, 16)
    return button
