"""Why there is no value: five numbered states and a reason, plus other things in reach."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
)

from benchlog.measure.state import MEANING, WITHOUT_VALUE, State
from benchlog.window.flow_box import FlowBox
from benchlog.window.keys import Action
from benchlog.window.theme import sized

ALSO = (Action.FLAG, Action.PUT_BACK, Action.ROUND, Action.GO_TO, Action.PHOTO)
"""What digits 6 to 9 and 0 do here, so that a number pad alone reaches everything."""


class NoValuePanel(QFrame):
    """Opens in place of the table; a digit chooses, Enter stores, Esc or the same key closes.

    `stored` carries the state and the reason, `also` another action chosen by its digit.
    """

    stored = Signal(object, str)
    also = Signal(object)
    closed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName("Why there is no value: press 1 to 5, then Enter")
        self.chosen: State | None = None
        self.title = QLabel("Why is there no value?  Press 1 to 5, then Enter.")
        sized(self.title, 20, bold=True)
        self.buttons = {state: self._state_button(n, state) for n, state in _numbered()}
        self.reason = QLineEdit(placeholderText="reason, if you want to give one")
        self.reason.setAccessibleName("Reason")
        sized(self.reason, 18)
        self.store = QPushButton("Store")
        self.store.setAccessibleName("Store the state that was chosen")
        sized(self.store, 18)
        self.store.clicked.connect(self.confirm)
        self.reason.installEventFilter(self)
        self._also_buttons = [self._also_button(n, action) for n, action in _also_numbered()]
        self._lay_out()

    def open(self) -> None:
        """Begin anew."""
        self.chosen = None
        self.reason.clear()
        for button in self.buttons.values():
            button.setChecked(False)
        self.setFocus()

    def choose(self, state: State) -> None:
        """Choose a state; Enter stores it, a reason may be typed before."""
        self.chosen = state
        for other, button in self.buttons.items():
            button.setChecked(other is state)
        self.reason.setFocus()

    def confirm(self) -> None:
        """Store the chosen state once, if there is one."""
        chosen, self.chosen = self.chosen, None
        if chosen is not None:
            self.stored.emit(chosen, self.reason.text().strip())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.take_key(event):
            super().keyPressEvent(event)

    def take_key(self, event: QKeyEvent) -> bool:
        """Handle a key press; whether it meant anything here."""
        sign = event.text()
        if event.isAutoRepeat():
            return True
        if event.key() == Qt.Key.Key_Escape or sign == "/":
            self.closed.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.confirm()
        elif sign in dict(_numbered_signs()):
            self.choose(dict(_numbered_signs())[sign])
        elif sign in {str(n): a for n, a in _also_numbered()}:
            self.also.emit({str(n): a for n, a in _also_numbered()}[sign])
        else:
            return False
        return True

    def eventFilter(self, _watched: object, event: object) -> bool:
        """In the reason field digits still choose while nothing is written there."""
        if isinstance(event, QKeyEvent) and event.type() == QKeyEvent.Type.KeyPress:
            digit = event.text() != "" and event.text() in "1234567890/"
            ends = event.key() in (Qt.Key.Key_Escape, Qt.Key.Key_Return, Qt.Key.Key_Enter)
            if ends or (digit and not self.reason.text()):
                return self.take_key(event)
        return False

    def _state_button(self, number: int, state: State) -> QPushButton:
        button = QPushButton(f"{number}   {state}")
        button.setCheckable(True)
        button.setAccessibleName(f"{number}: {state}, {MEANING[state]}")
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setStyleSheet("text-align: left;")
        button.clicked.connect(lambda: self.choose(state))
        sized(button, 19, bold=True)
        return button

    def _also_button(self, number: int, action: Action) -> QPushButton:
        button = QPushButton(f"{number}  {action}")
        button.setAccessibleName(f"{number}: {action}")
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.clicked.connect(lambda: self.also.emit(action))
        sized(button, 15)
        return button

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setVerticalSpacing(2)
        for row, (state, button) in enumerate(self.buttons.items()):
            grid.addWidget(button, row, 0)
            meaning = QLabel(MEANING[state])
            meaning.setProperty("tone", "dim")
            sized(meaning, 16)
            grid.addWidget(meaning, row, 1)
        grid.setColumnStretch(1, 1)
        reason = QHBoxLayout()
        reason.addWidget(self.reason, 1)
        reason.addWidget(self.store)
        also = FlowBox()
        for button in self._also_buttons:
            also.add(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 4, 12, 6)
        column.setSpacing(3)
        column.addWidget(self.title)
        column.addLayout(grid)
        column.addLayout(reason)
        column.addWidget(also)
        column.addStretch()


def _numbered() -> list[tuple[int, State]]:
    return list(enumerate(WITHOUT_VALUE, 1))


def _numbered_signs() -> list[tuple[str, State]]:
    return [(str(n), state) for n, state in _numbered()]


def _also_numbered() -> list[tuple[int, Action]]:
    return [((n + 6) % 10, action) for n, action in enumerate(ALSO)]
