"""What came of a check, large: passed or failed, refused, or asked once more."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel

from benchlog.errors import AskAgain, WorldError
from benchlog.window import icons
from benchlog.window.theme import colours, px, restyle, sized


class CheckStrip(QFrame):
    """Says one thing at a time, at the same place, with a shape beside the colour."""

    def __init__(self) -> None:
        super().__init__()
        self._icon = QLabel()
        self.words = QLabel(wordWrap=True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setAccessibleName("What came of it")
        row = QHBoxLayout(self)
        row.setContentsMargins(px(8), px(4), px(8), px(4))
        row.addWidget(self._icon)
        row.addWidget(self.words, 1)
        self.plain("")

    def plain(self, words: str) -> None:
        """Say what happens."""
        self._say("", words, "", 16)

    def passed(self, words: str) -> None:
        """Say that a check passed."""
        self._say("tick", words, "good", 22)

    def failed(self, words: str) -> None:
        """Say that a check failed."""
        self._say("caution", words, "warn", 22)

    def refused(self, fault: WorldError) -> None:
        """Say what was refused; nothing was stored."""
        self._say("stop", f"{fault.what} {fault.do}".strip(), "warn", 16)

    def asks_again(self, question: AskAgain) -> None:
        """Ask whether it does show that."""
        self._say(
            "question", f"{question.what} Type it anew, or press Enter once more.", "warn", 16
        )

    def _say(self, icon_name: str, words: str, tone: str, letters: int) -> None:
        self.words.setProperty("tone", tone)
        self.setProperty("strip", tone)
        for part in (self, self.words):
            restyle(part)
        sized(self.words, letters, bold=letters > 16)
        self.words.setText(words)
        self._icon.setVisible(bool(icon_name))
        if icon_name:
            ink = colours().good if tone == "good" else colours().on_warn
            self._icon.setPixmap(icons.icon(icon_name, ink).pixmap(px(26), px(26)))
