"""The Bench as a place: with no line-up in hand it says so, with one it is the bench of it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from benchlog.tasks.ports import Scale
from benchlog.window.bench.bench import Bench
from benchlog.window.desk import Desk
from benchlog.window.shelf.rehearsal_feed import RehearsalFeed
from benchlog.window.theme import sized


class BenchPlace(QStackedWidget):
    """Makes a new bench whenever another line-up is taken in hand; a scale stays attached."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.bench: Bench | None = None
        self.addWidget(self._nothing_in_hand())
        desk.lineup_changed.connect(self._take_lineup)
        self._take_lineup()

    def enter(self) -> None:
        """Stand ready: show what is so now, with the focus on the entry."""
        if self.bench is not None:
            self.bench.show_now()
            self.bench.take_focus()

    def leave(self) -> None:
        """Let the scale go; the window closes."""
        if self.bench is not None:
            self.bench.scale.detach()

    def attach_scale(self, scale: Scale) -> None:
        """Listen to a scale, in place of the one attached before; raises ScaleFault."""
        if self.bench is not None:
            self.bench.scale.attach(scale)

    def rescaled(self) -> None:
        """Follow the window's size."""
        if self.bench is not None:
            self.bench.rescaled()

    def _take_lineup(self) -> None:
        old = self.bench
        self.bench = None
        if old is not None:
            old.scale.detach()
            self.removeWidget(old)
            old.deleteLater()
        if self._desk.teardown is not None:
            self.bench = Bench(self._desk)
            self.addWidget(self.bench)
            self.setCurrentWidget(self.bench)
            if self._desk.teardown.lineup.rehearsal:
                feed = RehearsalFeed(self.bench)
                self.attach_scale(feed)
                feed.attend()

    def _nothing_in_hand(self) -> QWidget:
        page = QWidget()
        words = QLabel("No line-up is in hand.\nTake one from the Shelf, or plan a new one.")
        sized(words, 26, bold=True)
        go = QPushButton("To the Shelf")
        go.setAccessibleName("Go to the Shelf")
        sized(go, 20)
        go.clicked.connect(lambda: self._desk.go_to.emit("shelf"))
        column = QVBoxLayout(page)
        column.setContentsMargins(60, 40, 60, 40)
        column.addStretch()
        column.addWidget(words)
        column.addWidget(go, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch()
        return page
