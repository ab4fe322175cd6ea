"""The keys that act now, shown as caps; each can be clicked as well."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QToolButton, QWidget

from benchlog.window.bench.flow_layout import FlowLayout
from benchlog.window.keys import ACTS, Action, KeyMap, When, plain_key
from benchlog.window.theme import sized


class Legend(QWidget):
    """One button an action, named with its first key; what cannot act now is greyed out."""

    chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._keys = KeyMap()
        self._typed = False
        self.buttons = {action: self._made(action) for action in Action}
        flow = FlowLayout(self, spacing=3)
        for button in self.buttons.values():
            flow.addWidget(button)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.show_keys(self._keys)

    def show_keys(self, keys: KeyMap) -> None:
        """Show the keys as they are assigned."""
        self._keys = keys
        for action, button in self.buttons.items():
            names = keys.keys[action]
            cap = plain_key(names[0]) if names else "no key"
            button.setText(f"{cap}  {action}")
            every = " or ".join(plain_key(name) for name in names) or "no key"
            button.setToolTip(f"{action}: {every}")
            button.setAccessibleName(f"{action}, key {every}")
        self.updateGeometry()

    def show_state(self, *, typed: bool, useless: frozenset[Action] = frozenset()) -> None:
        """Grey out what cannot act: by what is typed, and what has no use just now."""
        here = When.TYPED if typed else When.EMPTY
        for action, button in self.buttons.items():
            button.setEnabled(ACTS[action] in (When.ALWAYS, here) and action not in useless)

    def _made(self, action: Action) -> QToolButton:
        button = QToolButton(self)
        button.setProperty("flat", "true")
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.clicked.connect(lambda: self.chosen.emit(action))
        sized(button, 14)
        return button
