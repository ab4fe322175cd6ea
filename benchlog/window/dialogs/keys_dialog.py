"""Assign keys and pedals: click a place, press the key, done."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.window.desk import Desk
from benchlog.window.keys import ACTS, Action, KeyMap, key_name, plain_key
from benchlog.window.theme import sized

PLACES = 3
WAITING = "press a key or pedal…"
RESERVED = {"Tab": "it moves between the fields", "Ctrl+V": "it pastes pictures"}


class KeysDialog(QDialog):
    """Every action with up to three keys; changes are kept when the dialog is accepted."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Keys and pedals")
        self._desk = desk
        self.keys = KeyMap.from_settings(desk.settings.keys)
        self.words = QLabel(
            "Click a place, then press the key or the pedal. A pedal that sends F13 to F24 "
            "cannot type by accident. Delete takes a key away.",
            wordWrap=True,
        )
        sized(self.words, 15)
        self.caps: dict[tuple[Action, int], KeyCap] = {}
        grid = QGridLayout()
        grid.setVerticalSpacing(1)
        for row, action in enumerate(Action):
            name = QLabel(action.value)
            sized(name, 15, bold=True)
            grid.addWidget(name, row, 0)
            for place in range(PLACES):
                cap = KeyCap(action, place)
                cap.pressed_key.connect(self.assign)
                self.caps[action, place] = cap
                grid.addWidget(cap, row, 1 + place)
            when = QLabel(f"acts {ACTS[action]}")
            when.setProperty("tone", "dim")
            grid.addWidget(when, row, 1 + PLACES)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok
            | QDialogButtonBox.StandardButton.Cancel
            | QDialogButtonBox.StandardButton.RestoreDefaults
        )
        for button in buttons.buttons():
            button.setAccessibleName(button.text().replace("&", ""))
            button.setAutoDefault(False)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        buttons.button(QDialogButtonBox.StandardButton.RestoreDefaults).clicked.connect(
            self.restore
        )
        column = QVBoxLayout(self)
        column.addWidget(self.words)
        column.addLayout(grid)
        column.addWidget(buttons)
        self._show()

    def assign(self, action: Action, place: int, key: str) -> None:
        """Give an action a key; refuses one that another action answers to in the same state."""
        clash = self.keys.clash(action, key) if key else None
        if key in RESERVED:
            self._say(f"{plain_key(key)} cannot be assigned: {RESERVED[key]}.")
        elif clash is not None:
            self._say(f"{plain_key(key)} already means '{clash}' in the same state. Free it first.")
        elif action is Action.ACCEPT and not key and len(self.keys.keys[action]) == 1:
            self._say("'accept' needs at least one key.")
        else:
            self.keys = self.keys.with_key(action, place, key)
            self._say("")
        self._show()

    def restore(self) -> None:
        """Go back to the keys the program came with."""
        self.keys = KeyMap()
        self._say("These are the keys the program came with.")
        self._show()

    def accept(self) -> None:
        """Keep the keys."""
        self._desk.change_settings(keys=self.keys.to_settings())
        super().accept()

    def _say(self, words: str) -> None:
        if words:
            self.words.setText(words)

    def _show(self) -> None:
        for (action, place), cap in self.caps.items():
            names = self.keys.keys[action]
            cap.show_key(names[place] if place < len(names) else "")


class KeyCap(QPushButton):
    """One place for a key: a click waits for the next key press and takes it."""

    pressed_key = Signal(object, int, str)

    def __init__(self, action: Action, place: int) -> None:
        super().__init__()
        self._action = action
        self._place = place
        self._key = ""
        self._listening = False
        self.setAutoDefault(False)
        self.setMinimumWidth(150)
        self.clicked.connect(self._listen)

    def show_key(self, key: str) -> None:
        """Show the key that is assigned here; "" for none."""
        self._key = key
        self._listening = False
        self.setText(plain_key(key) if key else "–")
        told = plain_key(key) if key else "no key"
        self.setAccessibleName(f"{self._action}, key {self._place + 1}: {told}")

    def event(self, event: QEvent) -> bool:
        if self._listening and event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        if self._listening and event.type() == QEvent.Type.KeyPress:
            self._take(event)
            return True
        return super().event(event)

    def focusOutEvent(self, event: QEvent) -> None:
        if self._listening:
            self.show_key(self._key)
        super().focusOutEvent(event)

    def _listen(self) -> None:
        self._listening = True
        self.setText(WAITING)
        self.setFocus()

    def _take(self, event: QKeyEvent) -> None:
        key = key_name(event)
        if not key or event.isAutoRepeat():
            return
        if event.key() == Qt.Key.Key_Delete:
            key = ""
        self.pressed_key.emit(self._action, self._place, key)
