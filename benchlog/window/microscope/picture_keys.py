"""What the keys do at the pictures: those of the bench where they mean the same, and a few more."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from enum import StrEnum

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractButton, QAbstractSpinBox, QComboBox, QLineEdit, QWidget

from benchlog.window.keys import Action, KeyMap, LockOut, key_name


class Wish(StrEnum):
    """What a key can do at the pictures, in the words of the legend."""

    BACK = "to the bench"
    CHOOSE = "picture…"
    PASTE = "paste"
    FOLDER = "watch folder…"
    RETAKE = "retake"
    MORE = "one more field"
    TAKE_BACK = "take back"
    MEASURE = "measure"
    BEFORE = "field before"
    AFTER = "field after"
    FLIP = "flip drawing"
    CLOSER = "closer"
    FURTHER = "further"
    WHOLE = "whole"
    SET_UP = "set-up…"
    OTHER = "pictures ⇄ media"
    SUM = "sum…"
    STOP = "stop measuring"


OF_A_FIELD = (Wish.RETAKE, Wish.MORE, Wish.BEFORE, Wish.AFTER)
OF_A_PICTURE = (Wish.TAKE_BACK, Wish.MEASURE)
OF_THE_VIEW = (Wish.FLIP, Wish.CLOSER, Wish.FURTHER, Wish.WHOLE)
"""What means the field that is looked at, its picture, or the view of it."""

FROM_BENCH: Mapping[Wish, Action] = {
    Wish.CHOOSE: Action.PHOTO,
    Wish.FOLDER: Action.WEIGH,
    Wish.TAKE_BACK: Action.SCRATCH,
    Wish.BEFORE: Action.BACK,
    Wish.AFTER: Action.NEXT,
    Wish.SET_UP: Action.TOOL,
    Wish.OTHER: Action.ROUND,
    Wish.SUM: Action.SUM,
}
"""These answer to the keys that the reviewer gave to their likes at the bench."""

OWN: Mapping[Wish, tuple[str, ...]] = {
    Wish.BACK: ("Esc",),
    Wish.PASTE: ("Ctrl+V",),
    Wish.RETAKE: ("R",),
    Wish.MORE: ("M",),
    Wish.MEASURE: ("F5",),
    Wish.FLIP: ("F4", "O"),
    Wish.CLOSER: ("+", "Ctrl++"),
    Wish.FURTHER: ("-", "Ctrl+-"),
    Wish.WHOLE: ("0", "Ctrl+0"),
    Wish.STOP: ("Ctrl+.",),
}


def wish_keys(keys: KeyMap) -> dict[Wish, tuple[str, ...]]:
    """Return the keys of every wish; a sign of the number pad is left to zooming."""
    taken: set[str] = {name for names in OWN.values() for name in names}
    found: dict[Wish, tuple[str, ...]] = {}
    for wish in Wish:
        names = OWN.get(wish) or tuple(
            name
            for name in keys.keys[FROM_BENCH[wish]]
            if name not in taken and not name.startswith("Num+")
        )
        found[wish] = names
    return found


def useless_wishes(
    *, media: bool, field: bool, picture: bool, in_view: bool, measuring: bool
) -> frozenset[Wish]:
    """Return what has no use just now.

    `media` says that the media are in sight, and not the pictures; `field` that a field is
    chosen, `picture` that it has a picture, `in_view` that one can be seen, and `measuring` that
    one is measured.
    """
    able = {
        Wish.STOP: measuring,
        Wish.SUM: media,
        **dict.fromkeys(OF_A_FIELD, field and not media),
        **dict.fromkeys(OF_A_PICTURE, picture and not media),
        **dict.fromkeys(OF_THE_VIEW, in_view and not media),
    }
    return frozenset(wish for wish, so in able.items() if not so)


class PictureKeys(QObject):
    """An event filter for everything on the page that takes keys; `wished` carries a Wish."""

    wished = Signal(object)

    def __init__(self, seconds: Callable[[], float], parent: QObject) -> None:
        super().__init__(parent)
        self.keys = wish_keys(KeyMap())
        self._lock_out = LockOut(seconds)

    def watch(self, widget: QWidget) -> None:
        """Watch one more widget."""
        widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind not in (QEvent.Type.KeyPress, QEvent.Type.ShortcutOverride):
            return False
        wish = self._meant(watched, event)
        if wish is None:
            self._lock_out.other_key()
            return False
        if kind == QEvent.Type.ShortcutOverride:
            event.accept()
            return False
        zooms = wish in (Wish.CLOSER, Wish.FURTHER, Wish.BEFORE, Wish.AFTER)
        if zooms or not (event.isAutoRepeat() or self._lock_out.bounces(wish.value)):
            self.wished.emit(wish)
        return True

    def _meant(self, watched: QObject, event: QKeyEvent) -> Wish | None:
        name = key_name(event)
        plain = name.removeprefix("Num+")
        if isinstance(watched, QLineEdit | QComboBox | QAbstractSpinBox) and (
            len(plain) == 1 or name in ("Ctrl+V", "PgUp", "PgDown")
        ):
            return None
        if isinstance(watched, QAbstractButton) and event.key() == Qt.Key.Key_Space:
            return None
        return next((w for w, names in self.keys.items() if name in names or plain in names), None)
