"""The checks so far, what they put in doubt, and the ways to put that right."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from benchlog.tasks.checks_view import CheckLine, ToolView
from benchlog.window import icons
from benchlog.window.dialogs.checks_done import DonePanel
from benchlog.window.dialogs.checks_right import Named, RightPanel
from benchlog.window.theme import colours, px, sized


class BracketPanel(QWidget):
    """Shows one instrument's bracket; `put_right` and `taken_back` pass on what is wished.

    `put_right` carries check id, remedy and reason, `taken_back` correction id and reason.
    """

    put_right = Signal(str, object, str)
    taken_back = Signal(str, str)

    def __init__(self) -> None:
        super().__init__()
        self.head = QLabel("Checks so far")
        sized(self.head, 16, bold=True)
        self.lines = QVBoxLayout()
        self.lines.setSpacing(px(2))
        self.right = RightPanel()
        self.done = DonePanel()
        column = QVBoxLayout(self)
        column.setContentsMargins(px(12), px(4), px(12), px(4))
        column.setSpacing(px(6))
        column.addWidget(self.head)
        column.addLayout(self.lines)
        column.addWidget(self.right)
        column.addWidget(self.done)
        column.addStretch()
        self.right.wanted.connect(self.put_right)
        self.done.wanted.connect(self.taken_back)

    def show_tool(self, view: ToolView, named: Named) -> None:
        """Show an instrument's checks, and what is to be put right or was."""
        self._show_lines(view.lines)
        self.right.show_offer(view.offer, view.instrument, named)
        self.done.show_done(view.done)

    def _show_lines(self, lines: Iterable[CheckLine]) -> None:
        while self.lines.count():
            gone = self.lines.takeAt(0).widget()
            gone.hide()
            gone.deleteLater()
        told = list(lines)
        for line in told:
            self.lines.addWidget(_CheckRow(line))
        if not told:
            none = QLabel("None yet. A zero before the first reading, and one after the last.")
            none.setWordWrap(True)
            none.setProperty("tone", "dim")
            sized(none, 15)
            self.lines.addWidget(none)


class _CheckRow(QLabel):
    """One check in a line; a failed one with its sign, in words and in colour."""

    def __init__(self, line: CheckLine) -> None:
        super().__init__()
        name, ink = ("tick", colours().good) if line.passed else ("caution", colours().on_warn)
        self.setWordWrap(True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("tone", "" if line.passed else "warn")
        sized(self, 15)
        self.setContentsMargins(px(22), 0, 0, 0)
        self.setText(line.words)
        self._mark = QLabel(self)
        self._mark.setPixmap(icons.icon(name, ink).pixmap(px(16), px(16)))
        self._mark.move(0, px(2))
