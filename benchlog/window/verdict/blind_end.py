"""After judging blind: the codes are opened, and then it is seen whose part was which."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.judge.blind import BlindRun
from benchlog.tasks.blind_view import codes_by_owner
from benchlog.trade.specimen import Lineup
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.calm_delegate import CalmDelegate
from benchlog.window.theme import font_of, px, sized

SEALED = (
    "The codes are still sealed. A viewers' poll counts as taken before the reveal only while "
    "they are. Once they are open, nothing of this run can be judged blind any more."
)
OPENED = "What was judged in this run is marked “judged blind” in the record."


class EndPage(QWidget):
    """`reveal_wanted` says whether open questions were accepted; `poll_wanted`, `back`, `over`."""

    reveal_wanted = Signal(bool)
    poll_wanted = Signal()
    back = Signal()
    over = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._sure = False
        self.title = QLabel()
        self.words = QLabel(wordWrap=True)
        self.told = QLabel(wordWrap=True)
        self.told.setProperty("tone", "warn")
        self.list = QListWidget()
        self.list.setAccessibleName("Codes and whose they were")
        self.list.setItemDelegate(CalmDelegate(self.list))
        self.reveal = QPushButton("&Open the codes")
        self.poll = QPushButton("&Viewers' poll first…")
        self.go_back = QPushButton("Back to the questions")
        self.done = QPushButton("To the &verdict")
        sized(self.title, 30, bold=True)
        for label in (self.words, self.told):
            sized(label, 18)
        line = QHBoxLayout()
        for button in (self.reveal, self.poll, self.go_back, self.done):
            button.setAccessibleName(button.text().replace("&", "").rstrip("…"))
            sized(button, 20)
            line.addWidget(button)
        line.addStretch(1)
        column = QVBoxLayout(self)
        for part in (self.title, self.words):
            column.addWidget(part)
        column.addWidget(self.list, 1)
        column.addStretch(0)
        column.addWidget(self.told)
        column.addLayout(line)
        self.reveal.clicked.connect(lambda: self.reveal_wanted.emit(self._sure))
        self.poll.clicked.connect(self.poll_wanted)
        self.go_back.clicked.connect(self.back)
        self.done.clicked.connect(self.over)

    def stand_ready(self, *, all_answered: bool) -> None:
        """Show the page before the reveal."""
        self._sure = False
        self.title.setText("Every part is judged" if all_answered else "End before every answer")
        self.words.setText(SEALED)
        self.told.clear()
        self.list.clear()
        self.list.hide()
        self.reveal.setText("&Open the codes")
        self._show_buttons(sealed=True)
        self.go_back.setVisible(not all_answered)
        self.reveal.setFocus(Qt.FocusReason.OtherFocusReason)

    def ask_again(self, words: str) -> None:
        """Ask once more, since questions are open."""
        self._sure = True
        self.told.setText(words)
        self.reveal.setText("Yes, &open the codes")

    def say(self, words: str) -> None:
        """Tell why the codes stay sealed."""
        self.told.setText(words)

    def show_opened(self, run: BlindRun, lineup: Lineup) -> None:
        """Show whose code was whose."""
        self.title.setText("The codes are open")
        self.words.setText(OPENED)
        self.told.clear()
        for code, specimen in codes_by_owner(run, lineup):
            item = QListWidgetItem(f"{code}    {specimen.nickname}")
            item.setIcon(tag_icon(specimen, px(34) * 2))
            self.list.addItem(item)
        self.list.show()
        self._show_buttons(sealed=False)
        self.done.setFocus(Qt.FocusReason.OtherFocusReason)

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.list.setFont(font_of(30, bold=True))
        self.list.setIconSize(QSize(px(34), px(34)))

    def _show_buttons(self, *, sealed: bool) -> None:
        for button in (self.reveal, self.poll, self.go_back):
            button.setVisible(sealed)
        self.done.setVisible(not sealed)
