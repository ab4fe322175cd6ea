"""Leads key presses at the bench to actions, whatever widget has the focus."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractButton, QLineEdit, QWidget

from benchlog.window.bench.entry_row import EntryField
from benchlog.window.keys import ACTS, Action, KeyMap, LockOut, When, key_name, types_text

FROM_OTHER_FIELDS = (Action.BACK, Action.FLAG, Action.GO_TO)
NAVIGATION = (Qt.Key.Key_Space, Qt.Key.Key_Tab, Qt.Key.Key_Backtab)


class KeyRouter(QObject):
    """An event filter for the entry and every other widget of the bench that takes keys.

    `acted` carries an Action; `blocked` one that waits for the entry to be clear; `sign` a
    printable sign pressed on an empty entry, before it is typed (return True from
    `takes_sign` to swallow it).
    """

    acted = Signal(object)
    blocked = Signal(object)

    def __init__(self, entry: EntryField, lock_out: LockOut, takes_sign: object) -> None:
        super().__init__()
        self.keys = KeyMap()
        self._entry = entry
        self._lock_out = lock_out
        self._takes_sign = takes_sign

    def watch(self, widget: QWidget) -> None:
        """Watch one more widget."""
        widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind not in (QEvent.Type.KeyPress, QEvent.Type.ShortcutOverride):
            return False
        key = key_name(event)
        typed = bool(self._entry.text())
        if kind == QEvent.Type.ShortcutOverride:
            if self.keys.bound(key):
                event.accept()
            return False
        if not key:
            return False
        return self._pressed(watched, event, key, typed=typed)

    def _pressed(self, watched: QObject, event: QKeyEvent, key: str, *, typed: bool) -> bool:
        action = self.keys.action(key, typed=typed)
        elsewhere = isinstance(watched, QLineEdit) and watched is not self._entry
        if elsewhere and (action not in FROM_OTHER_FIELDS or watched.text()):
            return False
        if action is not None:
            if not event.isAutoRepeat() and not self._lock_out.bounces(action.value):
                self.acted.emit(action)
            return True
        waiting = self.keys.bound(key)
        if waiting and not types_text(event):
            if typed and any(ACTS[w] is When.EMPTY for w in waiting) and not event.isAutoRepeat():
                self.blocked.emit(waiting[0])
            return True
        if types_text(event):
            return self._typed(watched, event, typed=typed)
        self._lock_out.other_key()
        return False

    def _typed(self, watched: QObject, event: QKeyEvent, *, typed: bool) -> bool:
        """A sign: perhaps a whole answer; else it is typed, even when the focus is elsewhere."""
        if isinstance(watched, QAbstractButton) and event.key() in NAVIGATION:
            return False
        if not typed and self._takes_sign is not None and self._takes_sign(event.text()):
            return True
        self._lock_out.other_key()
        if watched is self._entry:
            return False
        self._entry.setFocus()
        if event.text().strip():
            self._entry.insert(event.text())
        return True
