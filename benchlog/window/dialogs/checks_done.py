"""What was put right, and taking that back."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.checks_view import DoneLine
from benchlog.window.bench.reasons import is_a_value
from benchlog.window.lineup.field import Field
from benchlog.window.theme import px, sized


class DonePanel(QWidget):
    """Lists the corrections that hold; `wanted` carries the id of one to take back, and why."""

    wanted = Signal(str, str)

    def __init__(self) -> None:
        super().__init__()
        self._asked_for = ""
        self.buttons: list[QPushButton] = []
        self.rows = QVBoxLayout()
        self.rows.setSpacing(px(4))
        self.reason = QLineEdit()
        self.field = Field("Why it is taken back", self.reason, "kept with the correction")
        self.do = _button("&Take it back")
        self.leave = _button("L&eave it")
        self.asking = QWidget()
        line = QHBoxLayout(self.asking)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(self.field, 1)
        for button in (self.do, self.leave):
            line.addWidget(button, 0, Qt.AlignmentFlag.AlignBottom)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(self.rows)
        column.addWidget(self.asking)
        self.do.clicked.connect(self._wish)
        self.leave.clicked.connect(self._left)
        self.reason.returnPressed.connect(self._wish)
        self.reason.textEdited.connect(lambda _text: self.field.show_fault(""))

    def show_done(self, done: Sequence[DoneLine]) -> None:
        """List what was done to an instrument's readings and still holds."""
        while self.rows.count():
            gone = self.rows.takeAt(0).widget()
            gone.hide()
            gone.deleteLater()
        self.buttons = []
        for line in done:
            self.rows.addWidget(self._row(line))
        self.setVisible(bool(done))
        self._close()

    def refused(self, words: str) -> None:
        """Say why nothing was taken back."""
        self.field.show_fault(words)
        self.reason.setFocus()

    def _row(self, line: DoneLine) -> QWidget:
        row = QWidget()
        words = QLabel(line.words, wordWrap=True)
        words.setTextFormat(Qt.TextFormat.PlainText)
        sized(words, 15)
        back = _button("Take it &back…")
        back.setAccessibleName(f"Take back: {line.words}")
        back.clicked.connect(lambda: self._ask(line.correction_id))
        self.buttons.append(back)
        across = QHBoxLayout(row)
        across.setContentsMargins(0, 0, 0, 0)
        across.addWidget(words, 1)
        across.addWidget(back)
        return row

    def _ask(self, correction_id: str) -> None:
        self._asked_for = correction_id
        self.reason.clear()
        self.field.show_fault("")
        self.asking.show()
        self.reason.setFocus()

    def _left(self) -> None:
        self._close()
        if self.buttons:
            self.buttons[-1].setFocus()

    def _close(self) -> None:
        self._asked_for = ""
        self.asking.hide()

    def _wish(self) -> None:
        said = self.reason.text().strip()
        if is_a_value(said):
            self.refused(f"'{said}' is a value, not a reason. Say in words why.")
        elif self._asked_for:
            self.wanted.emit(self._asked_for, said)


def _button(label: str) -> QPushButton:
    button = QPushButton(label)
    button.setAccessibleName(label.replace("&", ""))
    button.setAutoDefault(False)
    sized(button, 16)
    return button
