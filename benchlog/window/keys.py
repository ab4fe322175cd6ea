"""What the keys of the bench do: defaults for one hand on the number pad, all re-assignable."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from PySide6.QtCore import QKeyCombination, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence

LOCK_OUT_S = 0.4
LIST_SEPARATOR = " , "


class Action(StrEnum):
    """What a key can do, in the words of the legend."""

    ACCEPT = "accept"
    NEXT = "next"
    BACK = "back"
    SCRATCH = "scratch last"
    PUT_BACK = "put back"
    CLEAR = "clear typed"
    ESTIMATE = "as estimate"
    NO_VALUE = "no value…"
    FLAG = "flag moment"
    GO_TO = "station…"
    ROUND = "turn round"
    PHOTO = "photo…"
    WEIGH = "ask scale"
    TOOL = "instrument…"
    SUM = "sum…"
    CHECK = "checks…"
    FIELDS = "fields…"


class When(StrEnum):
    """In which state of the entry a key acts; otherwise it types its sign, or says why not."""

    ALWAYS = "always"
    EMPTY = "while the entry is empty"
    TYPED = "while something is typed"


ACTS: Mapping[Action, When] = {
    Action.ACCEPT: When.ALWAYS,
    Action.NEXT: When.EMPTY,
    Action.BACK: When.EMPTY,
    Action.SCRATCH: When.EMPTY,
    Action.PUT_BACK: When.EMPTY,
    Action.CLEAR: When.TYPED,
    Action.ESTIMATE: When.TYPED,
    Action.NO_VALUE: When.EMPTY,
    Action.FLAG: When.ALWAYS,
    Action.GO_TO: When.EMPTY,
    Action.ROUND: When.EMPTY,
    Action.PHOTO: When.ALWAYS,
    Action.WEIGH: When.EMPTY,
    Action.TOOL: When.ALWAYS,
    Action.SUM: When.ALWAYS,
    Action.CHECK: When.ALWAYS,
    Action.FIELDS: When.ALWAYS,
}

DEFAULTS: Mapping[Action, tuple[str, ...]] = {
    Action.ACCEPT: ("Num+Enter", "Return"),
    Action.NEXT: ("Num++", "PgDown"),
    Action.BACK: ("Num+-", "PgUp"),
    Action.SCRATCH: ("Num+*", "F8"),
    Action.PUT_BACK: ("F9",),
    Action.CLEAR: ("Num+*", "Esc"),
    Action.ESTIMATE: ("Num++", "F4"),
    Action.NO_VALUE: ("Num+/", "F3"),
    Action.FLAG: ("F2",),
    Action.GO_TO: ("F5",),
    Action.ROUND: ("F7",),
    Action.PHOTO: ("F10",),
    Action.WEIGH: ("F6",),
    Action.TOOL: ("F11",),
    Action.SUM: ("F12",),
    Action.CHECK: ("F1",),
    Action.FIELDS: ("Ctrl+M",),
}

PLAIN = {"Return": "Enter", "Esc": "Esc", "PgDown": "Page down", "PgUp": "Page up"}


@dataclass(frozen=True)
class KeyMap:
    """Which keys do what; keys are portable names such as "Num++", "F8", "Ctrl+G"."""

    keys: Mapping[Action, tuple[str, ...]] = field(default_factory=lambda: dict(DEFAULTS))

    @classmethod
    def from_settings(cls, kept: Mapping[str, str]) -> KeyMap:
        """Return the defaults with what the reviewer re-assigned in their place."""
        keys = dict(DEFAULTS)
        for action in Action:
            if action.name.lower() in kept:
                names = kept[action.name.lower()].split(LIST_SEPARATOR)
                keys[action] = tuple(name for name in names if name)
        return cls(keys)

    def to_settings(self) -> dict[str, str]:
        """Return only what differs from the defaults, for the settings."""
        return {
            action.name.lower(): LIST_SEPARATOR.join(names)
            for action, names in self.keys.items()
            if tuple(names) != DEFAULTS[action]
        }

    def bound(self, key: str) -> tuple[Action, ...]:
        """Return every action that a key is assigned to."""
        return tuple(action for action, names in self.keys.items() if key in names)

    def action(self, key: str, *, typed: bool) -> Action | None:
        """Return what a key does now; None when it does nothing in this state of the entry."""
        here = When.TYPED if typed else When.EMPTY
        for action in self.bound(key):
            if ACTS[action] in (When.ALWAYS, here):
                return action
        return None

    def with_key(self, action: Action, place: int, key: str) -> KeyMap:
        """Return the map with the key at one place of an action changed; "" takes it away."""
        names = list(self.keys[action])
        names[place : place + 1] = [key]
        kept = dict.fromkeys(name for name in names if name)
        return KeyMap({**self.keys, action: tuple(kept)})

    def clash(self, action: Action, key: str) -> Action | None:
        """Return another action that already answers to a key in the same state, if any."""
        for other in self.bound(key):
            both = {ACTS[action], ACTS[other]}
            if other is not action and (When.ALWAYS in both or len(both) == 1):
                return other
        return None


def key_name(event: QKeyEvent) -> str:
    """Return a key press's portable name; "" for a bare modifier or an unknown key."""
    key = event.key()
    if key in (0, Qt.Key.Key_unknown) or key in _BARE:
        return ""
    modifiers = event.modifiers() & ~Qt.KeyboardModifier.GroupSwitchModifier
    if Qt.Key.Key_Exclam <= key <= Qt.Key.Key_AsciiTilde and not _is_letter_or_digit(key):
        modifiers &= ~Qt.KeyboardModifier.ShiftModifier  # the sign itself tells
    combination = QKeyCombination(modifiers, Qt.Key(key))
    return QKeySequence(combination).toString(QKeySequence.SequenceFormat.PortableText)


def plain_key(key: str) -> str:
    """Return a key's name as the legend shows it: "pad +", "Enter", "F8"."""
    if key == "Num+Enter":
        return "pad Enter"
    if key.startswith("Num+"):
        return f"pad {key[4:]}"
    return PLAIN.get(key, key)


def types_text(event: QKeyEvent) -> bool:
    """Whether a key press would put a sign into the entry."""
    held = event.modifiers() & (
        Qt.KeyboardModifier.ControlModifier
        | Qt.KeyboardModifier.AltModifier
        | Qt.KeyboardModifier.MetaModifier
    )
    return bool(event.text()) and event.text().isprintable() and not held


class LockOut:
    """Keeps a bouncing key or pedal from acting twice.

    The same action within 400 ms is ignored unless another key came between. The clock counts
    seconds and is handed in, so that a test can move it.
    """

    def __init__(self, seconds: Callable[[], float], length_s: float = LOCK_OUT_S) -> None:
        self._seconds = seconds
        self._length_s = length_s
        self._last = ""
        self._at = 0.0

    def bounces(self, what: str) -> bool:
        """Whether this press is a bounce of the one before; if not, it is remembered."""
        now = self._seconds()
        if what == self._last and now - self._at < self._length_s:
            return True
        self._last, self._at = what, now
        return False

    def other_key(self) -> None:
        """Note that another key came between."""
        self._last = ""


_BARE = frozenset(
    {
        Qt.Key.Key_Shift,
        Qt.Key.Key_Control,
        Qt.Key.Key_Alt,
        Qt.Key.Key_AltGr,
        Qt.Key.Key_Meta,
        Qt.Key.Key_CapsLock,
        Qt.Key.Key_NumLock,
        Qt.Key.Key_ScrollLock,
    }
)


def _is_letter_or_digit(key: int) -> bool:
    return chr(key).isalnum()
