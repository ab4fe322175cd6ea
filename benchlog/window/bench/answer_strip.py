"""The strip right under the entry: what was accepted, what was refused, what is asked again."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QPushButton, QSizePolicy

from benchlog.errors import AskAgain, WorldError
from benchlog.window import icons
from benchlog.window.bench.reasons import is_a_value
from benchlog.window.theme import colours, px, restyle, sized

TO_THE_REASON = (Qt.Key.Key_Tab, Qt.Key.Key_Down)
"""What leads from the entry to the reason; typing there corrects the value instead."""


class AnswerStrip(QFrame):
    """Says one thing at a time, always at the same place, never in a box that wants closing.

    While a reason is wanted, Tab or Down in `entry` leads to it; `left` says that Esc or Up was
    pressed there, to go back to the value.
    """

    reason_given = Signal(str)
    left = Signal()

    def __init__(self, entry: QLineEdit) -> None:
        super().__init__(objectName="strip")
        self._entry = entry
        self._icon = QLabel()
        self._icon_name = ""
        self.words = QLabel(wordWrap=True, objectName="stripWords")
        sized(self.words, 18)
        self.reason = QLineEdit(placeholderText="the reason")
        self.reason.setAccessibleName("Reason for keeping the unusual value")
        sized(self.reason, 18)
        self.keep = QPushButton("Keep it with this reason")
        self.keep.setAccessibleName(self.keep.text())
        sized(self.keep, 16)
        self.reason.returnPressed.connect(self._give_reason)
        self.reason.installEventFilter(self)
        self.keep.clicked.connect(self._give_reason)
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 2, 10, 2)
        row.addWidget(self._icon)
        row.addWidget(self.words, 3)
        row.addWidget(self.reason, 2)
        row.addWidget(self.keep)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._say("", "", "")

    @property
    def tone(self) -> str:
        """How the strip speaks now: "good", "warn", "plain" or "" while it is silent."""
        return self._tone

    def sizeHint(self) -> QSize:
        wanted = self.words.heightForWidth(max(px(200), self.words.width()))
        return QSize(px(400), max(px(44), wanted + px(8)))

    minimumSizeHint = sizeHint  # noqa: N815 - Qt's name

    def accepted(self, message: str) -> None:
        """Say what was accepted, with a tick."""
        self._say("tick", message, "good")

    def plain(self, message: str) -> None:
        """Say what happened."""
        self._say("", message, "plain" if message else "")

    def refused(self, fault: WorldError) -> None:
        """Say what was refused and what to do; nothing was stored."""
        self._say("stop", f"{fault.what} {fault.do}".strip(), "warn")

    def held(self, message: str) -> None:
        """Say that something waits for the entry to be clear."""
        self._say("weight", message, "warn")

    def asks_again(self, question: AskAgain) -> None:
        """Ask whether an unusual value is to be kept, or why; the entry keeps the focus."""
        ways = "Correct it, or press Enter once more."
        if question.reason_wanted:
            ways = "Type the right value, or press Tab and say why this one is right."
        self._say("question", f"{question.what} {ways}".strip(), "warn")
        if question.reason_wanted:
            self.reason.clear()
            self.reason.show()
            self.keep.show()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Lead from the entry to the reason and back, while a reason is wanted."""
        if not isinstance(event, QKeyEvent) or event.type() != QEvent.Type.KeyPress:
            return False
        if self.reason.isHidden():
            return False
        if watched is self._entry and event.key() in TO_THE_REASON:
            self.reason.setFocus()
            return True
        if watched is self.reason and event.key() in (Qt.Key.Key_Escape, Qt.Key.Key_Up):
            self.left.emit()
            return True
        return False

    def rescaled(self) -> None:
        """Draw the icon again for another size or theme."""
        self._show_icon()
        self.updateGeometry()

    def _say(self, icon_name: str, words: str, tone: str) -> None:
        self._tone = tone
        self.reason.hide()
        self.keep.hide()
        self.words.setText(words)
        self.words.setProperty("tone", {"good": "good", "warn": "warn"}.get(tone, ""))
        self.setProperty("strip", tone)
        for part in (self, self.words):
            restyle(part)
        self._icon_name = icon_name
        self._show_icon()
        self.updateGeometry()

    def _show_icon(self) -> None:
        self._icon.setVisible(bool(self._icon_name))
        if self._icon_name:
            shown = colours()
            ink = shown.good if self._tone == "good" else shown.on_warn
            self._icon.setPixmap(icons.icon(self._icon_name, ink).pixmap(px(24), px(24)))

    def _give_reason(self) -> None:
        said = self.reason.text().strip()
        if is_a_value(said):
            self.words.setText(
                f"'{said}' is a value, not a reason; nothing was stored. "
                "Esc goes back to the value, or say in words why it is right."
            )
            self.updateGeometry()
        elif said:
            self.reason_given.emit(said)
