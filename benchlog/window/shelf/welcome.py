"""The page of an empty shelf: the five places in the order of the work, and the ways to begin."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.window.theme import px, sized

STEPS = (
    ("Shelf", "keeps every line-up, reading and photo, over the years."),
    ("Line-up", "says who stands in it, who paid, and what will be asked."),
    ("Bench", "asks station by station and keeps each answer the moment it is given."),
    ("Verdict", "works out sums and scores, part by part, and shows why."),
    ("Sheet", "hands viewers the comparison as a PDF that anyone can check."),
)


class Welcome(QWidget):
    """Explains the places in one line each and offers three ways to begin."""

    plan = Signal()
    sample = Signal()
    rehearsal = Signal()

    def __init__(self) -> None:
        super().__init__()
        head = QLabel("This shelf is empty. Here is how the work goes:", wordWrap=True)
        sized(head, 26, bold=True)
        self.plan_button = _offer("Plan a line-up", "One to six filters of your own.", self.plan)
        self.sample_button = _offer(
            "Look at the sample line-up",
            "Invented filters, all read and judged: see where it leads.",
            self.sample,
        )
        self.rehearsal_button = _offer(
            "Rehearse at the bench",
            "The invented filters, nothing read yet; weights arrive by themselves.",
            self.rehearsal,
        )
        self.progress = QProgressBar()
        self.progress.setAccessibleName("Filling the sample line-up")
        self.doing = QLabel(wordWrap=True)
        self.doing.setProperty("tone", "dim")
        sized(self.doing, 15)
        self._lay_out(head)
        self.show_busy(busy=False)

    @property
    def offers(self) -> tuple[QPushButton, ...]:
        """The three buttons."""
        return tuple(
            offer.button for offer in (self.plan_button, self.sample_button, self.rehearsal_button)
        )

    def show_busy(self, *, busy: bool) -> None:
        """Show that the sample is being filled in, and take no other wish meanwhile."""
        for button in self.offers:
            button.setEnabled(not busy)
        self.progress.setVisible(busy)
        self.doing.setVisible(busy)

    def show_progress(self, done: int, total: int, what: str) -> None:
        """Show how far the sample is filled in."""
        self.progress.setMaximum(max(total, 1))
        self.progress.setValue(done)
        self.doing.setText(what)

    def begin_here(self) -> None:
        """Put the focus on the first offer."""
        self.plan_button.button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self, head: QLabel) -> None:
        self.page = QVBoxLayout(self)
        self.page.addStretch(1)
        self.page.addWidget(head)
        self.page.addLayout(_steps())
        offers = QHBoxLayout()
        for offer in (self.plan_button, self.sample_button, self.rehearsal_button):
            offers.addWidget(offer, 1)
        self.page.addLayout(offers)
        self.page.addWidget(self.progress)
        self.page.addWidget(self.doing)
        self.page.addStretch(2)
        self._offers = offers
        self.rescaled()

    def rescaled(self) -> None:
        """Set the margins to the window's size."""
        self.page.setContentsMargins(px(90), px(20), px(90), px(20))
        self.page.setSpacing(px(18))
        self._offers.setSpacing(px(16))


def _steps() -> QGridLayout:
    grid = QGridLayout()
    grid.setColumnStretch(2, 1)
    for n, (name, words) in enumerate(STEPS):
        number, place, what = QLabel(str(n + 1)), QLabel(name), QLabel(words, wordWrap=True)
        number.setProperty("tone", "accent")
        number.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        sized(number, 24, bold=True, numeral=True)
        sized(place, 20, bold=True)
        sized(what, 18)
        for column, label in enumerate((number, place, what)):
            grid.addWidget(label, n, column)
    grid.setHorizontalSpacing(16)
    return grid


class _Offer(QFrame):
    """One way to begin: a large button with a line of explanation."""

    def __init__(self, name: str, words: str) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self.button = QPushButton(name)
        self.button.setAccessibleName(name)
        self.button.setAccessibleDescription(words)
        sized(self.button, 19, bold=True)
        said = QLabel(words, wordWrap=True)
        said.setProperty("tone", "dim")
        said.setAlignment(Qt.AlignmentFlag.AlignTop)
        sized(said, 16)
        column = QVBoxLayout(self)
        column.addWidget(self.button)
        column.addWidget(said, 1)


def _offer(name: str, words: str, wish: Signal) -> _Offer:
    offer = _Offer(name, words)
    offer.button.clicked.connect(wish)
    return offer
