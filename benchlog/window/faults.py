"""One handler for every failure: the world's faults are shown, ours are logged and admitted."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.errors import WorldError
from benchlog.settings import log_file
from benchlog.window.theme import sized

log = logging.getLogger(__name__)


@dataclass(frozen=True)
class Told:
    """What the reviewer is told of a failure; `ours` when this program is to blame."""

    what: str
    do: str
    ours: bool


def in_plain_words(fault: BaseException) -> Told:
    """Return what to tell of a failure; never a traceback."""
    if isinstance(fault, WorldError):
        return Told(fault.what, fault.do, ours=False)
    if isinstance(fault, OSError) and fault.strerror:
        where = f" ({fault.filename})" if fault.filename else ""
        return Told(f"{fault.strerror}{where}.", "Put it right, then try again.", ours=False)
    return Told(
        "This program made a mistake. What was accepted before is safe on the shelf.",
        f"Go on, or close and open it again. What happened is written in {log_file()}.",
        ours=True,
    )


class Faults(QObject):
    """Hears every failure, logs it, and passes on what to tell."""

    told = Signal(object)

    def handle(self, fault: BaseException) -> None:
        """Log a failure and tell it."""
        told = in_plain_words(fault)
        if told.ours:
            log.error("fault of this program", exc_info=fault)
        else:
            log.warning("%s: %s", type(fault).__name__, fault)
        self.told.emit(told)

    @contextmanager
    def guarded(self) -> Iterator[None]:
        """Run a block; whatever it raises is handled here and goes no further."""
        try:
            yield
        except Exception as fault:
            self.handle(fault)


class FaultPage(QWidget):
    """A page that says what is wrong with the shelf, what to do, and offers the ways on."""

    def __init__(self, again: Callable[[], None], elsewhere: Callable[[], None]) -> None:
        super().__init__()
        self.what = QLabel(wordWrap=True)
        self.do = QLabel(wordWrap=True)
        sized(self.what, 28, bold=True)
        sized(self.do, 20)
        for label in (self.what, self.do):
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        safe = QLabel("Nothing on the shelf was changed.")
        safe.setProperty("tone", "dim")
        self.again = QPushButton("Try again")
        self.elsewhere = QPushButton("Choose another folder…")
        self.again.clicked.connect(again)
        self.elsewhere.clicked.connect(elsewhere)
        buttons = QHBoxLayout()
        for button in (self.again, self.elsewhere):
            sized(button, 18)
            button.setAccessibleName(button.text())
            buttons.addWidget(button)
        buttons.addStretch()
        page = QVBoxLayout(self)
        page.setContentsMargins(80, 40, 80, 40)
        page.setSpacing(16)
        page.addStretch()
        for part in (self.what, self.do, safe):
            page.addWidget(part)
        page.addLayout(buttons)
        page.addStretch()

    def show_fault(self, told: Told) -> None:
        """Show a failure and put the focus on the way on."""
        self.what.setText(told.what)
        self.do.setText(told.do)
        self.again.setFocus()
