"""One question about the part under one code, answered by one key; nothing tells whose it is."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.blind_pictures import BlindPicture
from benchlog.tasks.blind_view import KeyedChoice, keyed_choices
from benchlog.tasks.judge_blind import BlindQuestion
from benchlog.window.microscope.picture_view import CLOSER
from benchlog.window.theme import px, sized
from benchlog.window.verdict.blind_look import BlindLook

COLUMNS = 2
LARGE, SMALL = 170, 64
"""How tall a code stands alone, and above its part's pictures."""
LOOKING: Mapping[Qt.Key, Callable[[BlindLook], None]] = {
    Qt.Key.Key_Left: lambda look: look.step(-1),
    Qt.Key.Key_Right: lambda look: look.step(1),
    Qt.Key.Key_Plus: lambda look: look.view.closer(),
    Qt.Key.Key_Minus: lambda look: look.view.closer(1 / CLOSER),
}
BACK_KEYS = (Qt.Key.Key_Backspace, Qt.Key.Key_Asterisk)


class QuestionPage(QWidget):
    """`answered` carries what was said, `taken_back` wants the latest answer asked again.

    `paused` leaves with the codes sealed, `ended` leads to the reveal.
    """

    answered = Signal(str)
    taken_back = Signal()
    paused = Signal()
    ended = Signal()

    def __init__(
        self, fetch: Callable[[str], bytes], failed: Callable[[BaseException], None]
    ) -> None:
        super().__init__()
        self.look = BlindLook(fetch, failed)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName("Blind judging")
        self.code = QLabel(alignment=Qt.AlignmentFlag.AlignCenter)
        self.question = QLabel(wordWrap=True)
        self.help = QLabel(wordWrap=True)
        self.done = QLabel()
        self.progress = QProgressBar()
        self.progress.setAccessibleName("Answers given")
        self.progress.setTextVisible(False)
        self.told = QLabel(wordWrap=True)
        self.back = QPushButton("Take the last back  ⌫")
        self.pause = QPushButton("Pause  Esc")
        self.end = QPushButton("End and &open the codes…")
        self._choices: tuple[KeyedChoice, ...] = ()
        self.buttons: list[QPushButton] = []
        self._grid = QGridLayout()
        self._columns = COLUMNS
        self._lay_out()
        self.back.clicked.connect(self.taken_back)
        self.pause.clicked.connect(self.paused)
        self.end.clicked.connect(self.ended)

    def ask(
        self, asked: BlindQuestion, said: str = "", pictures: Sequence[BlindPicture] = ()
    ) -> None:
        """Ask a question; `said` tells what was kept of the answer before.

        `pictures` are those of the part under this code, where it is judged by them.
        """
        self.look.show_pictures(pictures)
        self._make_room(pictures=bool(pictures))
        self.code.setText(asked.code)
        self.code.setAccessibleName(f"Part {' '.join(asked.code)}")
        self.question.setText(asked.attribute.label)
        self.help.setText(asked.attribute.help)
        self.done.setText(f"{asked.done} of {asked.of} answered")
        self.progress.setRange(0, asked.of)
        self.progress.setValue(asked.done)
        self.back.setEnabled(asked.done > 0)
        self.say(said)
        self._choices = keyed_choices(asked)
        self._show_choices()

    def say(self, words: str, *, warn: bool = False) -> None:
        """Tell what was kept, or why an answer was not."""
        self.told.setText(words)
        self.told.setProperty("tone", "warn" if warn else "dim")
        self.told.style().polish(self.told)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.progress.setFixedHeight(px(10))
        self.code.setMinimumWidth(px(360))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.isAutoRepeat():  # a key held down answers once
            return
        if event.key() == Qt.Key.Key_Escape:
            self.paused.emit()
            return
        if event.key() in BACK_KEYS:
            self.taken_back.emit()
            return
        if not self.look.isHidden() and event.key() in LOOKING:
            LOOKING[Qt.Key(event.key())](self.look)
            return
        chosen = next((c for c in self._choices if c.key == event.text()), None)
        if chosen is None:
            super().keyPressEvent(event)
            return
        self.answered.emit(chosen.text)

    def _make_room(self, *, pictures: bool) -> None:
        """Give pictures the larger part of the page, and the answers one column."""
        sized(self.code, SMALL if pictures else LARGE, bold=True, numeral=True)
        for place, stretch in enumerate((3, 2) if pictures else (2, 3)):
            self._middle.setStretch(place, stretch)
        self._columns = 1 if pictures else COLUMNS

    def _show_choices(self) -> None:
        while len(self.buttons) < len(self._choices):
            button = QPushButton()
            sized(button, 22)
            button.setAutoDefault(True)
            number = len(self.buttons)
            button.clicked.connect(lambda _=False, n=number: self._click(n))
            self.buttons.append(button)
        for number, button in enumerate(self.buttons):
            self._grid.addWidget(button, number // self._columns, number % self._columns)
            button.setVisible(number < len(self._choices))
            if number < len(self._choices):
                choice = self._choices[number]
                button.setText(f"{choice.key}   {choice.label}".replace("&", "&&"))
                button.setAccessibleName(f"{choice.key}: {choice.label}")

    def _click(self, number: int) -> None:
        self.answered.emit(self._choices[number].text)
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        for part, size, bold in (
            (self.code, LARGE, True), (self.question, 34, True), (self.help, 20, False),
            (self.done, 20, False), (self.told, 18, False), (self.back, 17, False),
            (self.pause, 17, False), (self.end, 17, False),
        ):  # fmt: skip
            sized(part, size, bold=bold, numeral=part is self.code)
        self.help.setProperty("tone", "dim")
        for button in (self.back, self.pause, self.end):
            button.setAccessibleName(button.text().replace("&", ""))
        right = QVBoxLayout()
        right.addWidget(self.question)
        right.addWidget(self.help)
        right.addSpacing(px(14))
        right.addLayout(self._grid)
        right.addStretch(1)
        right.addWidget(self.told)
        self._middle = middle = QHBoxLayout()
        part = QVBoxLayout()
        part.addWidget(self.code, 0)
        part.addWidget(self.look, 1)
        middle.addLayout(part, 2)
        middle.addLayout(right, 3)
        foot = QHBoxLayout()
        foot.addWidget(self.done)
        foot.addStretch(1)
        for button in (self.back, self.pause, self.end):
            foot.addWidget(button)
        column = QVBoxLayout(self)
        column.addWidget(self.progress)
        column.addLayout(middle, 1)
        column.addLayout(foot)
