"""The viewers' poll: what they were asked and how many picked whom; polls so far above it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import WorldError
from benchlog.tasks.poll import enter_poll, is_before_reveal, poll_story
from benchlog.window.desk import Desk
from benchlog.window.lineup.field import Field
from benchlog.window.theme import px, sized

MOST_VOTES = 100_000_000
BEFORE = "The reveal is still to come: the poll will be marked as entered before it."
AFTER = "The reveal is past: the poll will be marked as entered after it."


class PollDialog(QDialog):
    """Asks for a poll and keeps it; polls entered before are told above."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle("Viewers' poll")
        self._desk = desk
        lineup = desk.teardown.lineup
        shelf = desk.workshop.shelf
        self.stories = [poll_story(poll, lineup) for poll in shelf.polls(lineup.id)]
        self.so_far = QLabel("\n".join(self.stories), wordWrap=True)
        self.so_far.setVisible(bool(self.stories))
        before = is_before_reveal(shelf, lineup.id, desk.teardown.sequence)
        self.when = QLabel(BEFORE if before else AFTER, wordWrap=True)
        self.question = QLineEdit()
        self.question_field = Field("What viewers were asked", self.question, "in their words")
        self.votes = {specimen.id: QSpinBox() for specimen in lineup.specimens}
        self.told = QLabel(wordWrap=True)
        self.told.setProperty("tone", "warn")
        self.told.hide()
        self.keep = QPushButton("Keep the poll")
        self.leave = QPushButton("Not now")
        self._lay_out({s.id: s.nickname for s in lineup.specimens})
        self.keep.clicked.connect(self._try)
        self.leave.clicked.connect(self.reject)
        self.question.setFocus(Qt.FocusReason.OtherFocusReason)

    def _try(self) -> None:
        workshop, teardown = self._desk.workshop, self._desk.teardown
        votes = {one: box.value() for one, box in self.votes.items()}
        try:
            enter_poll(
                workshop.shelf, workshop.clock, teardown.lineup.id, self.question.text(), votes,
                teardown.sequence,
            )  # fmt: skip
        except WorldError as refusal:
            self.told.setText(f"{refusal.what} {refusal.do}".strip())
            self.told.show()
            return
        self._desk.recorded.emit()
        self.accept()

    def _lay_out(self, names: dict[str, str]) -> None:
        for part, size in ((self.so_far, 15), (self.when, 15), (self.told, 15)):
            sized(part, size)
        self.when.setProperty("tone", "dim")
        grid = QGridLayout()
        for row, (one, box) in enumerate(self.votes.items()):
            caption = QLabel(f"Votes for {names[one]}")
            caption.setBuddy(box)
            box.setRange(0, MOST_VOTES)
            box.setAccessibleName(caption.text())
            box.setMinimumWidth(px(150))
            for part in (caption, box):
                sized(part, 16)
            grid.addWidget(caption, row, 0)
            grid.addWidget(box, row, 1)
        grid.setColumnStretch(2, 1)
        self.keep.setAccessibleName("Keep the poll on the shelf")
        self.leave.setAccessibleName("Leave without a poll")
        self.keep.setDefault(True)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        for button in (self.keep, self.leave):
            sized(button, 16)
            buttons.addWidget(button)
        column = QVBoxLayout(self)
        for part in (self.so_far, self.when, self.question_field):
            column.addWidget(part)
        column.addLayout(grid)
        column.addWidget(self.told)
        column.addLayout(buttons)
        self.setMinimumWidth(px(560))
