"""What is measured in the background: how far it is, a way to stop it, and what wants a retake."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QProgressBar, QPushButton, QVBoxLayout

from benchlog.window.microscope.measuring import Measuring
from benchlog.window.theme import px, restyle, sized

PARTS = 100


class MeasuringLine(QFrame):
    """Shown while pictures are measured, or while something has to be said of one.

    `wanted` leads to the pictures; it follows a press on the button beside what was said.
    """

    wanted = Signal()

    def __init__(self, measuring: Measuring) -> None:
        super().__init__()
        self._measuring = measuring
        self._said = ""
        self.setProperty("card", "true")
        self.words = QLabel(wordWrap=True)
        sized(self.words, 13)
        self.bar = QProgressBar()
        self.bar.setRange(0, PARTS)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("How far measuring is")
        self.stop = QPushButton("Stop")
        self.stop.setAccessibleName("Stop measuring pictures")
        self.look = QPushButton("Look")
        self.look.setAccessibleName("Look at the pictures of the media")
        for button in (self.stop, self.look):
            sized(button, 13)
            button.setAutoDefault(True)
        row = QHBoxLayout()
        row.setSpacing(px(4))
        row.addWidget(self.bar, 1)
        row.addStretch(0)
        for button in (self.look, self.stop):
            row.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(px(8), px(4), px(8), px(4))
        column.setSpacing(px(3))
        column.addWidget(self.words)
        column.addLayout(row)
        self.stop.clicked.connect(measuring.cancel)
        self.look.clicked.connect(self.wanted)
        measuring.changed.connect(self.show_now)
        self.show_now()

    def say(self, words: str) -> None:
        """Say what has to be known of a picture until something else is said; "" says nothing."""
        self._said = words
        self.show_now()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.bar.setFixedHeight(px(8))

    def show_now(self) -> None:
        """Show what is so now."""
        task = self._measuring.now
        words = [self._said] if self._said else []
        if task is not None:
            more = f", {self._measuring.waiting} more wait" if self._measuring.waiting else ""
            words.append(f"Measuring {task.title}{more}: {self._measuring.step or 'begins'}.")
            self.bar.setValue(round(PARTS * self._measuring.share))
        self.words.setText("\n".join(words))
        tone = "warn" if self._said else ""
        if self.property("strip") != tone:
            self.setProperty("strip", tone)
            for part in (self, self.words):
                restyle(part)
        for part in (self.bar, self.stop):
            part.setVisible(task is not None)
        self.look.setVisible(bool(self._said))
        self.setVisible(bool(words))
