"""The keys that act now, shown as caps; each can be clicked as well."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton

from benchlog.window.flow_box import FlowBox
from benchlog.window.keys import ACTS, Action, KeyMap, When, plain_key
from benchlog.window.theme import colours, font_of, px, sized

LINES = 2
SHORT = {"PgDown": "PgDn", "PgUp": "PgUp"}


class Legend(FlowBox):
    """One button an action, named with its keys; what cannot act now is greyed out.

    Each cap shows the number pad's key and the other keyboard's; where that would take more than
    `LINES` lines, the first key alone, and the tooltip has the rest.
    """

    chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__(spacing=2)
        self._keys = KeyMap()
        self._absent: frozenset[Action] = frozenset()
        self.buttons = {action: self._made(action) for action in Action}
        for button in self.buttons.values():
            self.add(button)
        self.show_keys(KeyMap())
        self.show_only(frozenset({Action.FIELDS}))

    def show_keys(self, keys: KeyMap) -> None:
        """Show the keys as they are assigned."""
        self._keys = keys
        for action, button in self.buttons.items():
            names = [plain_key(name) for name in keys.keys[action]]
            every = " or ".join(names) or "no key"
            button.setToolTip(f"{action}: {every}")
            button.setAccessibleName(f"{action}, key {every}")
        self._show_caps()

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._show_caps()
        super().resizeEvent(event)

    def rescaled(self) -> None:
        """Fit the caps to the letters' size."""
        self._show_caps()

    def _show_caps(self) -> None:
        """Show as many keys as there is room for."""
        for most in (2, 1):
            for action, button in self.buttons.items():
                button.show_cap(cap_words(self._keys.keys[action], most))
            if self.lines(self.width()) <= LINES:
                break
        self.updateGeometry()

    def show_only(self, absent: frozenset[Action]) -> None:
        """Leave out what belongs to other stations."""
        if absent != self._absent:
            self._absent = absent
            for action, button in self.buttons.items():
                button.setVisible(action not in absent)
            self._show_caps()
            self.arrange()

    def show_state(self, *, typed: bool, useless: frozenset[Action] = frozenset()) -> None:
        """Grey out what cannot act: by what is typed, and what has no use just now."""
        here = When.TYPED if typed else When.EMPTY
        for action, button in self.buttons.items():
            button.setEnabled(ACTS[action] in (When.ALWAYS, here) and action not in useless)

    def _made(self, action: Action) -> LegendButton:
        button = LegendButton(action.value)
        button.clicked.connect(lambda: self.chosen.emit(action))
        return button


def cap_words(keys: tuple[str, ...], most: int) -> str:
    """Return what a cap shows of an action's keys: "pad / or F3"; "Enter" stands for both."""
    if most > 1 and set(keys[:2]) == {"Num+Enter", "Return"}:
        return "Enter"
    return " or ".join(SHORT.get(key, plain_key(key)) for key in keys[:most]) or "no key"


class LegendButton(QAbstractButton):
    """A key cap and, beside it, what the key does."""

    def __init__(self, does: str) -> None:
        super().__init__()
        self.setText(does)
        self._cap = ""
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        sized(self, 14)

    @property
    def cap(self) -> str:
        """What the cap shows."""
        return self._cap

    def show_cap(self, cap: str) -> None:
        """Show the key's name on the cap."""
        self._cap = cap
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        letters = self.fontMetrics()
        wide = self._cap_width() + letters.horizontalAdvance(self.text()) + px(12)
        return QSize(wide, letters.height() + px(10))

    minimumSizeHint = sizeHint  # noqa: N815 - Qt's name

    def _cap_width(self) -> int:
        self.ensurePolished()
        return self.fontMetrics().horizontalAdvance(self._cap) + px(9)

    def paintEvent(self, _event: QPaintEvent) -> None:
        shown = colours()
        able = self.isEnabled()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        cap = QRectF(px(2), px(2), self._cap_width(), self.height() - px(5))
        lively = self.isDown() or self.hasFocus() or (able and self.underMouse())
        painter.setPen(QPen(QColor(shown.accent if lively else shown.line), 2 if lively else 1))
        painter.setBrush(QColor(shown.raised if able else shown.window))
        painter.drawRoundedRect(cap, px(5), px(5))
        painter.setFont(font_of(14))
        painter.setPen(QColor(shown.text if able else shown.faint))
        painter.drawText(cap, Qt.AlignmentFlag.AlignCenter, self._cap)
        words = QRectF(cap.right() + px(5), px(2), self.width(), cap.height())
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, self.text())
