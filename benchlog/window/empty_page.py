"""A page that says what is missing, and leads to the place where it comes from."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.window.theme import sized


class EmptyPage(QWidget):
    """Shows a sentence and one way on; `wanted` carries the place's key."""

    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._place = ""
        self.words = QLabel(wordWrap=True)
        self.words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        sized(self.words, 22)
        self.go = QPushButton()
        sized(self.go, 18)
        self.go.clicked.connect(lambda: self.wanted.emit(self._place))
        column = QVBoxLayout(self)
        column.setContentsMargins(60, 20, 60, 20)
        column.addStretch(2)
        column.addWidget(self.words)
        column.addSpacing(12)
        column.addWidget(self.go, 0, Qt.AlignmentFlag.AlignHCenter)
        column.addStretch(3)

    def say(self, words: str, place: str = "", name: str = "") -> None:
        """Show a sentence, and a button to a place where there is one to go to."""
        self.words.setText(words)
        self._place = place
        self.go.setVisible(bool(place))
        self.go.setText(f"To the {name}")
        self.go.setAccessibleName(f"Go to the {name}")
