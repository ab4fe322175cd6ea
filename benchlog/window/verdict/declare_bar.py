"""Whether the purpose that is looked at is declared, and the keys to declare it or take it back."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from benchlog.tasks.declared_view import DECLARE, DeclareState
from benchlog.window.theme import sized

WHY = "Why, if you like; viewers will read it"


class DeclareBar(QWidget):
    """`declare` and `take_back` follow with the reason typed, which may be none."""

    declare = Signal(str)
    take_back = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.said = QLabel(wordWrap=True)
        self.why = QLineEdit()
        self.why.setPlaceholderText(WHY)
        self.why.setAccessibleName("Why you declare it, or take it back")
        self.do = QPushButton(DECLARE)
        self.do.setAccessibleName(DECLARE)
        self.back = QPushButton("Take it back")
        self.back.setAccessibleName("Take back the declared purpose")
        for part in (self.said, self.why, self.do, self.back):
            sized(part, 15)
        self.do.clicked.connect(lambda: self.declare.emit(self.why.text()))
        self.back.clicked.connect(lambda: self.take_back.emit(self.why.text()))
        row = QHBoxLayout()
        row.addWidget(self.why, 1)
        row.addWidget(self.do)
        row.addWidget(self.back)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.said)
        column.addLayout(row)

    def show_state(self, state: DeclareState) -> None:
        """Show what is declared and what may be done about it."""
        self.said.setText(state.said)
        self.said.setVisible(bool(state.said))
        focus = self.do.hasFocus() or self.back.hasFocus()
        for name in (self.do.setText, self.do.setAccessibleName):
            name(state.declare or DECLARE)
        self.do.setVisible(bool(state.declare))
        self.back.setVisible(state.may_take_back)
        self.why.setVisible(bool(state.declare) or state.may_take_back)
        if focus:  # the button that was pressed may be gone
            (self.do if state.declare else self.back).setFocus()

    def emptied(self) -> None:
        """Forget the reason, which is on the shelf now."""
        self.why.clear()
