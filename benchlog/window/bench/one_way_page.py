"""The page before a step that cannot be taken back: cautions, what is lost, a deliberate yes."""

from __future__ import annotations

import random
from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.bench_view import BenchView, StationRow
from benchlog.window import icons
from benchlog.window.theme import colours, px, sized


def any_number() -> str:
    """Return a three-digit number that no habit would type."""
    return str(random.randint(100, 999))


class OneWayPage(QWidget):
    """Shows what the next step costs; it is confirmed by typing the number shown here.

    A number drawn anew each time wants eyes on the page, and one hand on the number pad can give
    it; a single key, a bounce or a kept-down pedal cannot.
    """

    confirmed = Signal()
    left = Signal()
    rules_wanted = Signal()

    def __init__(
        self,
        draw_number: Callable[[], str] = any_number,
        owed: Callable[[], tuple[str, ...]] = tuple,
    ) -> None:
        super().__init__()
        self._draw_number = draw_number
        self._owed = owed
        self.number = ""
        self._station = ""
        self.title = QLabel(wordWrap=True)
        sized(self.title, 32, bold=True)
        self.lost = _ListCard("Once it is done, these can no longer be found out", "one way")
        self.cautions = _ListCard("Take care", "caution")
        self.missing = _ListCard("Answers still missing before this step", "question")
        self.owed = _ListCard("Still owed before this step", "question")
        self.rules = QPushButton("To the &rules")
        self.rules.setAccessibleName("Go to the rules of this line-up, to lock them")
        self.rules.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        sized(self.rules, 18)
        self.rules.clicked.connect(self.rules_wanted)
        self.ask = QLabel(objectName="ask")
        sized(self.ask, 24, bold=True)
        self.field = QLineEdit()
        self.field.setMaxLength(3)
        self.field.setAccessibleName("Number that confirms the step")
        sized(self.field, 40, bold=True, numeral=True)
        self.not_yet = QPushButton("Not yet: go back")
        self.not_yet.setAccessibleName(self.not_yet.text())
        self.not_yet.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        sized(self.not_yet, 18)
        self.wrong = QLabel()
        self.wrong.setProperty("tone", "warn")
        sized(self.wrong, 18)
        self.field.returnPressed.connect(self._try)
        self.not_yet.clicked.connect(self.left)
        self._lay_out()

    def show_view(self, view: BenchView) -> None:
        """Show the page of the view's station; a number once shown stays until it is left."""
        station = view.station
        if station.key != self._station:
            self.number = self._draw_number()
            self._station = station.key
            self.field.clear()
            self.wrong.clear()
        self.title.setText(f"{station.label}: this cannot be undone")
        self.ask.setText(f"To go ahead, type  {self.number}  and press Enter")
        self.field.setAccessibleDescription(self.ask.text())
        self.lost.show_lines(station.lost_after)
        self.cautions.show_lines(station.cautions)
        owed = self._owed()
        self.owed.show_lines(owed)
        self.rules.setVisible(bool(owed))
        before = missing_before(view)
        lines = tuple(f"{row.label}: {row.missing} of {row.asked}" for row in before)
        self.missing.show_lines(lines or ("Nothing: every answer before this step is in.",))

    def left_behind(self) -> None:
        """Forget the number, so that coming again draws another."""
        self._station = ""

    def rescaled(self) -> None:
        """Draw the icons again."""
        self.field.setFixedWidth(px(150))
        for card in (self.lost, self.cautions, self.owed, self.missing):
            card.rescaled()

    def _try(self) -> None:
        if self.field.text().strip() == self.number:
            self.left_behind()
            self.confirmed.emit()
            return
        typed = self.field.text().strip()
        self.field.clear()
        self.wrong.setText(
            f"'{typed}' is not the number shown; nothing was confirmed."
            if typed
            else "Nothing was confirmed: type the number first."
        )

    def _lay_out(self) -> None:
        inside = QWidget()
        cards = QHBoxLayout(inside)
        cards.setContentsMargins(0, 0, 0, 0)
        left = QVBoxLayout()
        left.addWidget(self.lost)
        left.addWidget(self.missing)
        left.addStretch()
        right = QVBoxLayout()
        right.addWidget(self.owed)
        right.addWidget(self.rules, 0, Qt.AlignmentFlag.AlignLeft)
        right.addWidget(self.cautions)
        right.addStretch()
        cards.addLayout(left, 1)
        cards.addLayout(right, 1)
        scroll = QScrollArea()
        scroll.setWidget(inside)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setAccessibleName("What this step costs")
        yes = QHBoxLayout()
        yes.addWidget(self.ask)
        yes.addWidget(self.field)
        yes.addStretch()
        yes.addWidget(self.not_yet)
        column = QVBoxLayout(self)
        column.setContentsMargins(4, 0, 4, 4)
        column.addWidget(self.title)
        column.addWidget(scroll, 1)
        column.addLayout(yes)
        column.addWidget(self.wrong)


class _ListCard(QFrame):
    """A heading with an icon, and lines under it."""

    def __init__(self, heading: str, icon_name: str) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self._icon_name = icon_name
        self._icon = QLabel()
        head = QLabel(heading, wordWrap=True)
        sized(head, 19, bold=True)
        self._lines = QGridLayout()
        self._lines.setColumnStretch(1, 1)
        self._lines.setVerticalSpacing(2)
        self.shown: tuple[str, ...] = ()
        top = QHBoxLayout()
        top.addWidget(self._icon)
        top.addWidget(head, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 8, 14, 10)
        column.addLayout(top)
        column.addLayout(self._lines)

    def show_lines(self, lines: tuple[str, ...]) -> None:
        self.setVisible(bool(lines))
        if lines == self.shown:
            return
        self.shown = lines
        while self._lines.count():
            gone = self._lines.takeAt(0).widget()
            gone.hide()
            gone.deleteLater()
        for row, line in enumerate(lines):
            dot, words = QLabel("•"), QLabel(line, wordWrap=True)
            words.setTextFormat(Qt.TextFormat.PlainText)
            sized(dot, 17)
            sized(words, 17)
            self._lines.addWidget(dot, row, 0, Qt.AlignmentFlag.AlignTop)
            self._lines.addWidget(words, row, 1)
        self.rescaled()

    def rescaled(self) -> None:
        picture = icons.icon(self._icon_name, colours().accent)
        self._icon.setPixmap(picture.pixmap(px(26), px(26)))


def missing_before(view: BenchView) -> tuple[StationRow, ...]:
    """Return the stations before this one that still miss something."""
    keys = [row.key for row in view.stations]
    before = view.stations[: keys.index(view.station.key)]
    return tuple(row for row in before if row.missing)
