"""The head of the verdict: its question, the two ways to look at it, and by which rules."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QTabBar,
    QVBoxLayout,
    QWidget,
)

from benchlog.judge.rules import Rules
from benchlog.tasks.sets_view import IN_FORCE, SetOffer
from benchlog.window.theme import sized

REHEARSAL = "REHEARSAL: invented"
VIEWS = ("Par&ts", "Ran&ks")


class VerdictHead(QWidget):
    """The head; its signals say what was chosen.

    `viewed` carries 0 for the parts and 1 for the ranks; `judged_by` the set of rules chosen,
    None for the line-up's own; `blind_wanted` and `poll_wanted` follow their buttons.
    """

    viewed = Signal(int)
    judged_by = Signal(object)
    blind_wanted = Signal()
    poll_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._offers: tuple[SetOffer, ...] = ()
        self.title = QLabel()
        self.working = QLabel("working it out…")
        self.rehearsal = QLabel(REHEARSAL)
        self.views = QTabBar()
        self.rules = QComboBox()
        self.rules_caption = QLabel("&As judged by")
        self.blind = QPushButton("Judge &blind…")
        self.poll = QPushButton("&Viewers' poll…")
        self.polls = QLabel(wordWrap=True)
        self.polls.setProperty("tone", "dim")
        self.polls.hide()
        self.look = QLabel(wordWrap=True)
        self.look_strip = QFrame()
        self._lay_out()
        self.views.currentChanged.connect(self.viewed)
        self.rules.activated.connect(self._chosen)
        self.blind.clicked.connect(self.blind_wanted)
        self.poll.clicked.connect(self.poll_wanted)

    def show_sets(self, offers: tuple[SetOffer, ...]) -> None:
        """Offer these sets beside the line-up's own rules, which are chosen."""
        self._offers = offers
        self.rules.clear()
        self.rules.addItem(IN_FORCE)
        self.rules.addItems([offer.label for offer in offers])
        self.rules.setCurrentIndex(0)

    def show_polls(self, stories: tuple[str, ...]) -> None:
        """Show what viewers picked beside the bench's result; nothing where nobody was asked."""
        self.polls.setText("\n".join(f"Viewers: {story}" for story in stories))
        self.polls.setVisible(bool(stories))

    def may_judge(self, may: bool) -> None:
        """Offer other rules, the blind judgement and the poll, or nothing before any reading."""
        for part in (self.rules_caption, self.rules, self.blind, self.poll):
            part.setVisible(may)

    def say_look(self, words: str) -> None:
        """Say that what is shown is a look only, or nothing where it is the verdict."""
        self.look.setText(words)
        self.look_strip.setVisible(bool(words))

    def _chosen(self, place: int) -> None:
        rules: Rules | None = self._offers[place - 1].rules if place > 0 else None
        self.judged_by.emit(rules)

    def _lay_out(self) -> None:
        for label, size, bold in (
            (self.title, 17, True), (self.working, 14, False), (self.rehearsal, 15, True),
            (self.rules_caption, 14, False), (self.look, 15, True),
            (self.polls, 14, False),
        ):  # fmt: skip
            sized(label, size, bold=bold)
        self.working.setProperty("tone", "accent")
        self.rehearsal.setProperty("tone", "warn")
        self.rules_caption.setProperty("tone", "dim")
        self.rules_caption.setBuddy(self.rules)
        self.working.hide()
        for name in VIEWS:
            self.views.addTab(name)
        self.views.setAccessibleName("Parts or ranks")
        self.views.setExpanding(False)
        self.views.setDrawBase(False)
        self.rules.setAccessibleName("As judged by")
        self.rules.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.rules.setMinimumContentsLength(22)
        self.rules.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.blind.setAccessibleName("Judge by eye, blind")
        self.poll.setAccessibleName("Viewers' poll")
        for part in (self.views, self.rules, self.blind, self.poll):
            sized(part, 14)
        top = QHBoxLayout()
        top.addWidget(self.title, 1)
        top.addWidget(self.working)
        top.addWidget(self.rehearsal)
        low = QHBoxLayout()
        low.addWidget(self.views)
        low.addStretch(1)
        for part in (self.rules_caption, self.rules, self.blind, self.poll):
            low.addWidget(part)
        self.look_strip.setProperty("strip", "warn")
        inside = QHBoxLayout(self.look_strip)
        inside.addWidget(self.look)
        self.look_strip.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(top)
        column.addLayout(low)
        column.addWidget(self.polls)
        column.addWidget(self.look_strip)
