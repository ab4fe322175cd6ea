"""Whether past awards lean, opened over the Shelf: worked out from all that is on it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.judge.bias import BiasCheck
from benchlog.tasks.bias_check import check_bias
from benchlog.window.desk import Desk
from benchlog.window.shelf.bias_table import BiasTable
from benchlog.window.theme import px, sized
from benchlog.window.work import Work, begin

TITLE = "Do the awards lean?"
WORKING = "Going through the line-ups on the shelf…"
FAILED = "The check could not be worked out."


class BiasDialog(QDialog):
    """Shows the bias check of the shelf; Escape closes it, under way or not."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(TITLE)
        self._desk = desk
        self._open = True
        self.head = QLabel(WORKING, wordWrap=True)
        self.head.setAccessibleName("What was looked at")
        self.table = BiasTable()
        self.limits = QLabel(wordWrap=True)
        self.limits.setAccessibleName("What this does not show")
        self.progress = QProgressBar()
        self.progress.setAccessibleName("How far it has come")
        self.leave = QPushButton("&Close")
        self.leave.setAccessibleName("Close")
        self.leave.clicked.connect(self.reject)
        self._lay_out()
        room = parent.window().size()
        self.resize(round(room.width() * 0.9), round(room.height() * 0.9))
        shelf = desk.workshop.shelf

        def job(work: Work) -> BiasCheck:
            return check_bias(shelf, work)

        self._work = begin(job, self._checked, self._failed, self._progressed)

    def done(self, result: int) -> None:
        """Close; a check under way stops at its next line-up."""
        self._work.stop_asked = True
        self._open = False
        super().done(result)

    def _checked(self, check: BiasCheck) -> None:
        if not self._open:
            return
        self.progress.hide()
        count = check.lineups
        self.head.setText(
            f"Awards of {count} line-up{'' if count == 1 else 's'} in which somebody won; "
            "rehearsals are left out, and what the reviewer overruled counts as published."
        )
        self.limits.setText(check.limits)
        self.table.show_check(check)
        self.table.show()
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _failed(self, fault: BaseException) -> None:
        if self._open:
            self.progress.hide()
            self.head.setText(FAILED)
        self._desk.faults.handle(fault)

    def _progressed(self, done: int, total: int, _what: str) -> None:
        if self._open:
            self.progress.setRange(0, total)
            self.progress.setValue(done)

    def _lay_out(self) -> None:
        sized(self.head, 17)
        sized(self.limits, 15)
        sized(self.leave, 15)
        self.leave.setDefault(True)
        self.progress.setRange(0, 0)
        self.table.hide()
        foot = QHBoxLayout()
        foot.addWidget(self.limits, 1)
        foot.addWidget(self.leave, 0, Qt.AlignmentFlag.AlignBottom)
        column = QVBoxLayout(self)
        column.setContentsMargins(px(20), px(16), px(20), px(16))
        column.setSpacing(px(12))
        column.addWidget(self.head)
        column.addWidget(self.progress)
        column.addWidget(self.table, 1)
        column.addLayout(foot)
        QWidget.setTabOrder(self.table, self.leave)
