"""The strip right under the entry: what was accepted, what was refused, what is asked again."""

from __future__ import annotations

from PySide6.QtCore import QSize, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QPushButton, QSizePolicy

from benchlog.errors import AskAgain, WorldError
from benchlog.window import icons
from benchlog.window.theme import colours, px, restyle, sized


class AnswerStrip(QFrame):
    """Says one thing at a time, always at the same place, never in a box that wants closing."""

    reason_given = Signal(str)

    def __init__(self) -> None:
        super().__init__(objectName="strip")
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
        """Ask whether an unusual value is to be kept, or why."""
        ways = question.do if question.reason_wanted else "Correct it, or press Enter once more."
        words = f"{question.what} {ways}".strip()
        self._say("question", words, "warn")
        if question.reason_wanted:
            self.reason.clear()
            self.reason.show()
            self.keep.show()
            self.reason.setFocus()

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
        if self.reason.text().strip():
            self.reason_given.emit(self.reason.text().strip())
