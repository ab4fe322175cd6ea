"""What the reviewer looked up by hand for a stand-in check, and where it was found."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget

from benchlog.tasks.stand_in import LineOutcome, Told
from benchlog.trade.stand_in import Compare, StandInLine
from benchlog.window.lineup.tag_choice import Choices
from benchlog.window.theme import px, sized

ANSWERS = {
    None: "not looked up",
    LineOutcome.MATCH: LineOutcome.MATCH.value,
    LineOutcome.DIFFERS: LineOutcome.DIFFERS.value,
}


class StandInAnswers(QWidget):
    """A row for each line that no reading answers; `told` carries its key and what was said."""

    told = Signal(str, object)

    def __init__(self, lines: tuple[StandInLine, ...]) -> None:
        super().__init__()
        self.answers: dict[str, Choices] = {}
        self.sources: dict[str, QLineEdit] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(px(10))
        self._grid.setVerticalSpacing(px(3))
        self._grid.setColumnStretch(2, 1)
        for line in lines:
            for subject in line.subjects:
                if subject.compare is Compare.BY_HAND:
                    self._add(subject.key, line)

    def show_told(self, told: Mapping[str, Told]) -> None:
        """Show what was said before."""
        for key, choice in self.answers.items():
            said = told.get(key)
            choice.show_choice(said.outcome if said else None)
            self.sources[key].setText(said.note if said else "")

    def rescaled(self) -> None:
        """Follow the window's size."""
        for choice in self.answers.values():
            choice.setMinimumWidth(px(130))

    def _add(self, key: str, line: StandInLine) -> None:
        row = self._grid.rowCount()
        caption = QLabel(line.label)
        caption.setToolTip(line.rule)
        choice = Choices(f"{line.label}: what was looked up")
        for answer, words in ANSWERS.items():
            choice.addItem(words, answer)
        source = QLineEdit()
        source.setPlaceholderText("where that was found: handbook, page; catalogue, date")
        source.setAccessibleName(f"{line.label}: where that was found")
        source.setAccessibleDescription(line.rule)
        for part in (caption, choice, source):
            sized(part, 14)
        for column, part in enumerate((caption, choice, source)):
            self._grid.addWidget(part, row, column)
        self.answers[key], self.sources[key] = choice, source
        choice.chosen.connect(lambda _answer: self._tell(key))
        source.textEdited.connect(lambda _text: self._tell(key))

    def _tell(self, key: str) -> None:
        outcome = list(ANSWERS)[self.answers[key].currentIndex()]
        note = self.sources[key].text()
        self.told.emit(key, Told(outcome, note) if outcome is not None else None)
