"""The Bench as a place: with no line-up in hand it says so, with one it is the bench of it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from benchlog.tasks.ports import Scale
from benchlog.window.bench.bench import Bench
from benchlog.window.desk import Desk
from benchlog.window.microscope.pictures_keeper import PicturesKeeper
from benchlog.window.shelf.rehearsal_feed import RehearsalFeed
from benchlog.window.theme import sized


class BenchPlace(QStackedWidget):
    """Makes a new bench whenever another line-up is taken in hand; a scale stays attached.

    The pictures of the media have a page of their own beside the bench; what is measured there
    goes on whatever is in sight.
    """

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.bench: Bench | None = None
        self.pictures = PicturesKeeper(desk)
        self.pictures.changed.connect(self._picture_measured)
        self.addWidget(self._nothing_in_hand())
        desk.lineup_changed.connect(self._take_lineup)
        desk.reading_wanted.connect(self._go_to)
        self._take_lineup()

    def enter(self) -> None:
        """Stand ready: show what is so now, with the focus on the entry."""
        page = self.pictures.page
        if page is not None and self.currentWidget() is page:
            page.enter()
        elif self.bench is not None:
            self.bench.show_now()
            self.bench.take_focus()
        else:
            self.to_shelf.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Let the scale and the measuring of pictures go; the window closes."""
        self.pictures.close()
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
        if self.pictures.line is not None:
            self.pictures.line.rescaled()
        if self.pictures.page is not None:
            self.pictures.page.rescaled()

    def show_pictures(self) -> None:
        """Show the pictures of the media of the line-up in hand."""
        if self.bench is None:
            return
        self.bench.show_now()  # what is half typed is kept
        page = self.pictures.page
        if page is None:
            page = self.pictures.open(self.bench.sounds)
            page.left.connect(self.show_bench)
            self.addWidget(page)
            page.rescaled()
        self.setCurrentWidget(page)
        if self.pictures.line is not None:
            self.pictures.line.say("")
        page.enter()

    def show_bench(self) -> None:
        """Show the bench again."""
        if self.bench is not None:
            self.setCurrentWidget(self.bench)
            self.enter()

    def _picture_measured(self) -> None:
        if self.bench is not None and self.bench.isVisible():
            self.bench.show_now()

    def _go_to(self, attribute: str, specimen_id: str) -> None:
        """Stand where an attribute of a specimen is asked."""
        self._desk.go_to.emit("bench")
        if self.bench is not None:
            self.bench.go_to(attribute, specimen_id)

    def _take_lineup(self) -> None:
        old = self.bench
        self.bench = None
        page = self.pictures.forget_page()
        if page is not None:
            self.removeWidget(page)
            page.deleteLater()
        if old is not None:
            old.scale.detach()
            self.removeWidget(old)
            old.deleteLater()
        if self._desk.teardown is not None:
            self.bench = Bench(self._desk)
            line = self.pictures.new_line()
            line.wanted.connect(self.show_pictures)
            self.bench.parts.side.insertWidget(1, line)
            self.bench.fields_wanted.connect(self.show_pictures)
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
        go = self.to_shelf = QPushButton("To the Shelf")
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
