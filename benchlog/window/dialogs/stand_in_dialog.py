"""Could one filter stand in for the specified one: held against it line by line."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import PlanRefused
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in import LineOutcome, StandInCheck, Told
from benchlog.tasks.stand_in_wish import StandInWish, by_hand, stand_in_of, wish_for
from benchlog.window.dialogs.stand_in_answers import StandInAnswers
from benchlog.window.lineup.field import Field
from benchlog.window.lineup.tag_choice import Choices
from benchlog.window.theme import px, sized
from benchlog.window.verdict.plain_table import PlainTable
from benchlog.wiring import stand_in_words

HEADS = ("Line", "Comes to", "Candidate", "Specified", "Why, and what to mind")
SHARES = (19, 15, 14, 14, 38)
MARKS = {LineOutcome.MATCH: "=", LineOutcome.DIFFERS: "≠", LineOutcome.UNKNOWN: "?"}
CAREFUL = (
    "Only what is listed was held against the specified filter. The engine's maker and the "
    "handbook say what may be used."
)
COPIED = "Copied as text."


class StandInDialog(QDialog):
    """Shows the check as it is asked for; `asked` carries what was asked when it is kept.

    Raises PlanRefused where there are no two specimens, or no lines for this kind of filter.
    """

    asked = Signal(object)

    def __init__(
        self, record: Record, kept: StandInWish | None, parent: QWidget | None = None
    ) -> None:
        wish = wish_for(record.lineup, kept)
        stand_in_of(record, wish)
        super().__init__(parent)
        self.setWindowTitle("Stand-in check")
        self._record, self._wish = record, wish
        self.check: StandInCheck | None = None
        self.candidate = self._specimens("Candidate")
        self.specified = self._specimens("Specified filter")
        self.handbook = QLineEdit(wish.handbook)
        self.handbook.setAccessibleName("Part number by the vehicle maker's handbook")
        self.word = QLabel(wordWrap=True)
        self.word.setAccessibleName("What all lines come to")
        self.beside = QLabel(wordWrap=True)
        self.table = PlainTable("Line by line")
        self.table.show_heads(HEADS, SHARES)
        self.by_hand = StandInAnswers(by_hand(record))
        self.by_hand.show_told(wish.told or {})
        self.cards = QCheckBox("Its cards go out with the others")
        self.cards.setAccessibleName(self.cards.text())
        self.cards.setChecked(wish.on_cards)
        self.page = QCheckBox("It gets a page of the sheet")
        self.page.setAccessibleName(self.page.text())
        self.page.setChecked(wish.on_sheet)
        self.copy = _button("Co&py as text")
        self.keep = _button("&Keep")
        self.leave = _button("&Cancel")
        self._lay_out()
        self._connect()
        self._show()
        self._fit(parent)

    def accept(self) -> None:
        """Keep what was asked."""
        self.asked.emit(self._wish)
        super().accept()

    def _specimens(self, name: str) -> Choices:
        made = Choices(name)
        for specimen in self._record.lineup.specimens:
            number = f" · {specimen.part_number}" if specimen.part_number else ""
            made.addItem(f"{specimen.nickname}{number}", specimen.id)
        return made

    def _connect(self) -> None:
        self.candidate.show_choice(self._wish.candidate)
        self.specified.show_choice(self._wish.specified)
        self.candidate.chosen.connect(lambda one: self._ask(candidate=one))
        self.specified.chosen.connect(lambda one: self._ask(specified=one))
        self.handbook.textEdited.connect(lambda text: self._ask(handbook=text))
        self.by_hand.told.connect(self._take)
        self.cards.toggled.connect(lambda on: self._ask(on_cards=on))
        self.page.toggled.connect(lambda on: self._ask(on_sheet=on))
        self.copy.clicked.connect(self._copy)
        self.keep.clicked.connect(self.accept)
        self.leave.clicked.connect(self.reject)

    def _ask(self, **changes: object) -> None:
        self._wish = replace(self._wish, **changes)
        self._show()

    def _take(self, key: str, told: Told | None) -> None:
        self._wish = self._wish.answered(key, told)
        self._show()

    def _show(self) -> None:
        try:
            self.check = stand_in_of(self._record, self._wish)
        except PlanRefused as refusal:
            self.check = None
            self.word.setText(refusal.what)
            self.beside.setText(refusal.do)
            self.table.setRowCount(0)
        else:
            self.word.setText(self.check.word.value)
            self.beside.setText(
                f"{self.check.candidate} beside {self.check.specified}, the specified filter. "
                f"{self.check.handbook}. {CAREFUL}"
            )
            self._show_lines(self.check)
        for button in (self.copy, self.keep):
            button.setEnabled(self.check is not None)

    def _show_lines(self, check: StandInCheck) -> None:
        self.table.setRowCount(sum(len(line.subjects) for line in check.lines))
        row = 0
        for line in check.lines:
            for place, one in enumerate(line.subjects):
                same = one.label == line.line.label
                name = one.label if same else f"{line.line.label}: {one.label}"
                last = place == len(line.subjects) - 1
                why = f"{one.why} {line.words}".strip() if last else one.why
                outcome = f"{MARKS[one.outcome]}  {one.outcome.value}"
                cells = (name, outcome, one.candidate, one.specified, why)
                for column, (head, words) in enumerate(zip(HEADS, cells, strict=True)):
                    spoken = one.outcome.value if column == 1 else words
                    self.table.put(row, column, words, f"{head}: {spoken or 'nothing'}")
                row += 1
        if self.table.currentRow() < 0 and row:
            self.table.setCurrentCell(0, 0)

    def _copy(self) -> None:
        if self.check is not None:
            QGuiApplication.clipboard().setText(stand_in_words(self.check))
            self.copy.setText(COPIED)

    def _lay_out(self) -> None:
        sized(self.word, 24, bold=True)
        sized(self.beside, 14)
        sized(self.cards, 14)
        sized(self.page, 14)
        head = QHBoxLayout()
        head.setSpacing(px(14))
        head.addWidget(Field("Candidate", self.candidate), 2)
        head.addWidget(Field("in the place of the specified filter", self.specified), 2)
        head.addWidget(Field("Part number by the vehicle maker's handbook", self.handbook), 3)
        caption = QLabel("Looked up by hand")
        sized(caption, 14, bold=True)
        foot = QHBoxLayout()
        ticks = QVBoxLayout()
        ticks.addWidget(self.page)
        ticks.addWidget(self.cards)
        foot.addLayout(ticks, 1)
        for button in (self.copy, self.keep, self.leave):
            foot.addWidget(button)
        column = QVBoxLayout(self)
        column.addLayout(head)
        column.addWidget(self.word)
        column.addWidget(self.beside)
        column.addWidget(self.table, 1)
        column.addWidget(caption)
        column.addWidget(self.by_hand)
        column.addLayout(foot)
        self.handbook.setFocus()

    def _fit(self, parent: QWidget | None) -> None:
        """Take most of the window's room, whatever its size."""
        if parent is not None:
            room = parent.window().size()
            self.resize(round(room.width() * 0.96), round(room.height() * 0.96))
        self.by_hand.rescaled()
        self.table.rescaled()


def _button(text: str) -> QPushButton:
    button = QPushButton(text)
    button.setAccessibleName(text.replace("&", ""))
    button.setAutoDefault(False)
    sized(button, 15)
    return button
