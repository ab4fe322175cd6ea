"""What goes out with a revision: each output, ticked or not, with its choices."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QFrame, QPushButton, QSizePolicy, QVBoxLayout

from benchlog.settings import BOTH, INCH, METRIC
from benchlog.tasks.changed import CARDS, CHAPTERS, DATA, DESCRIPTION, SHEET
from benchlog.tasks.going_out import RowNote
from benchlog.tasks.publish import PAPERS
from benchlog.tasks.publish_wishes import HEIGHTS, PublishWishes
from benchlog.window.lineup.tag_choice import Choices
from benchlog.window.sheet.output_row import OutputRow
from benchlog.window.theme import px, sized
from benchlog.wiring import data_licences

UNITS = {METRIC: "metric", INCH: "inch", BOTH: "both units"}
SIZES = {HEIGHTS: "1080 and 2160", (1080,): "1080 alone", (2160,): "2160 alone"}
NO_LICENCE = "choose a licence"


class OutputRows(QFrame):
    """The rows; `wished` carries the choices whenever one of them was changed by a person."""

    wished = Signal(object)
    paper_chosen = Signal(object)
    units_chosen = Signal(object)
    start_wanted = Signal()
    words_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._wishes = PublishWishes()
        self.paper = _choices("Paper", {paper: paper for paper in PAPERS})
        self.units = _choices("Units of the values", UNITS)
        self.sums = QCheckBox("sums")
        self.sums.setAccessibleName("with the sums")
        self.sums.setToolTip("An appendix with the sum behind every figure and its uncertainty")
        self.sums.setAccessibleDescription(self.sums.toolTip())
        self.large = QCheckBox("large")
        self.large.setAccessibleName("with one page in large print")
        self.large.setToolTip("One page in large letters: who paid, and what each part came to")
        self.large.setAccessibleDescription(self.large.toolTip())
        self.sizes = _choices("Sizes of the cards, in lines", SIZES)
        licences = data_licences()
        self._licences = ("", *(name for name, _asks in licences))
        self.licence = _choices("Licence of the data", {n: n or NO_LICENCE for n in self._licences})
        for row, (_name, asks) in enumerate(licences, 1):
            self.licence.setItemData(row, asks, Qt.ItemDataRole.ToolTipRole)
        self.start = _button("Start of the clip…")
        self.words = _button("Links and question…")
        self.rows = {
            row.kind: row
            for row in (
                OutputRow(SHEET, "Sheet", (self.paper, self.units, self.sums, self.large)),
                OutputRow(CARDS, "Cards", (self.sizes,)),
                OutputRow(DATA, "Data", (self.licence,)),
                OutputRow(CHAPTERS, "Chapters, subtitles", (self.start,)),
                OutputRow(DESCRIPTION, "Description", (self.words,)),
            )
        }
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(px(9))
        for row in self.rows.values():
            column.addWidget(row)
        self._connect()

    @property
    def wishes(self) -> PublishWishes:
        """What goes out, as chosen."""
        return self._wishes

    def show_wishes(self, wishes: PublishWishes) -> None:
        """Show choices that were kept, or that a dialog has changed."""
        self._wishes = wishes
        for kind, row in self.rows.items():
            row.box.setChecked(kind in wishes.kinds)
        self.sums.setChecked(wishes.sums)
        self.large.setChecked(wishes.large_print)
        self.sizes.show_choice(wishes.heights)
        self.licence.show_choice(wishes.licence)

    def show_settings(self, paper: str, units: str) -> None:
        """Show paper and units, which hold for this machine."""
        self.paper.show_choice(paper)
        self.units.show_choice(units)

    def show_notes(self, notes: Mapping[str, RowNote]) -> None:
        """Show what should be known of each output."""
        for kind, row in self.rows.items():
            row.show_note(notes.get(kind, RowNote("")))

    def _connect(self) -> None:
        for row in self.rows.values():
            row.box.clicked.connect(lambda _on=False: self._take())
        self.sums.clicked.connect(lambda _on=False: self._take())
        self.large.clicked.connect(lambda _on=False: self._take())
        self.sizes.chosen.connect(lambda _sizes: self._take())
        self.licence.chosen.connect(lambda _name: self._take())
        self.paper.chosen.connect(self.paper_chosen)
        self.units.chosen.connect(self.units_chosen)
        self.start.clicked.connect(self.start_wanted)
        self.words.clicked.connect(self.words_wanted)

    def _take(self) -> None:
        self._wishes = replace(
            self._wishes,
            kinds=tuple(kind for kind, row in self.rows.items() if row.box.isChecked()),
            sums=self.sums.isChecked(),
            large_print=self.large.isChecked(),
            heights=list(SIZES)[self.sizes.currentIndex()],
            licence=self._licences[self.licence.currentIndex()],
        )
        self.wished.emit(self._wishes)


def _choices(name: str, answers: Mapping[object, str]) -> Choices:
    made = Choices(name)
    for answer, words in answers.items():
        made.addItem(words, answer)
    made.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
    return made


def _button(name: str) -> QPushButton:
    made = QPushButton(name)
    made.setAccessibleName(name.removesuffix("…"))
    sized(made, 13)
    return made
