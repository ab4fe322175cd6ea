"""Correcting a reading: what it says now, what it should say, and why."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import AskAgain, EntryRefused, WorldError
from benchlog.tasks.answer import choices_of
from benchlog.tasks.reading_view import ReadingRow
from benchlog.trade.attribute import Attribute
from benchlog.window.bench.reasons import is_a_value
from benchlog.window.lineup.field import Field
from benchlog.window.theme import px, sized

IN_WORDS = "Say in words why it changes."
Correct = Callable[[str, str, bool], None]
"""Corrects by text and reason; the last says that an unusual value is meant."""


class CorrectDialog(QDialog):
    """Asks for a correction and closes once it is on the shelf; what is typed stays till then."""

    def __init__(
        self, row: ReadingRow, attribute: Attribute, correct: Correct, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Correct a reading")
        self._correct = correct
        self._asked_for = ""
        self.now = QLabel(f"{row.specimen.nickname} · {row.label}: {row.text}", wordWrap=True)
        sized(self.now, 19, bold=True)
        self.text = QLineEdit()
        self.reason = QLineEdit()
        self.text_field = Field("It should say", self.text, _hint(attribute))
        self.reason_field = Field("Why it changes", self.reason, "printed with the correction")
        self.told = QLabel(wordWrap=True)
        self.told.setProperty("tone", "warn")
        sized(self.told, 15)
        self.told.hide()
        self.do = QPushButton("Correct it")
        self.do.setAccessibleName("Put the correction on the shelf")
        self.leave = QPushButton("Leave it as it is")
        self.leave.setAccessibleName("Leave the reading as it is")
        self._lay_out()
        self.text.textEdited.connect(lambda _text: self._typed())
        self.do.clicked.connect(self._try)
        self.leave.clicked.connect(self.reject)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        for button in (self.leave, self.do):
            sized(button, 16)
            buttons.addWidget(button)
        self.do.setDefault(True)
        kept = QLabel("The reading as it was stays on the shelf, struck through.", wordWrap=True)
        kept.setProperty("tone", "dim")
        sized(kept, 14)
        column = QVBoxLayout(self)
        for part in (self.now, self.text_field, self.reason_field, kept, self.told):
            column.addWidget(part)
        column.addLayout(buttons)
        QWidget.setTabOrder(self.reason, self.do)
        QWidget.setTabOrder(self.do, self.leave)
        self.setMinimumWidth(px(560))
        self.text.setFocus()

    def _typed(self) -> None:
        self._asked_for = ""
        self.told.hide()
        self.do.setText("Correct it")

    def _try(self) -> None:
        text, said = self.text.text(), self.reason.text().strip()
        if is_a_value(said):
            self._tell(EntryRefused(f"'{said}' is a value, not a reason.", IN_WORDS))
            return
        sure = bool(self._asked_for) and text == self._asked_for
        try:
            self._correct(text, self.reason.text(), sure)
        except AskAgain as question:
            self._asked_for = text
            self.do.setText("Yes, it is so")
            self._tell(question)
        except WorldError as refusal:
            self._tell(refusal)
        else:
            self.accept()

    def _tell(self, fault: WorldError) -> None:
        self.told.setText(f"{fault.what} {fault.do}".strip())
        self.told.show()
        self._grow()
        if not self.reason.text().strip():
            self.reason.setFocus()
        elif fault.do == IN_WORDS:
            self.reason.setFocus()
            self.reason.selectAll()
        elif not isinstance(fault, AskAgain):
            self.text.setFocus()

    def _grow(self) -> None:
        """Make room for all that is told; a wrapped text asks for none by itself."""
        self.layout().activate()
        wanted = self.layout().totalHeightForWidth(self.width())
        self.resize(self.width(), max(self.height(), wanted))


def _hint(attribute: Attribute) -> str:
    choices = choices_of(attribute)
    if choices:
        return " · ".join(f"{n} {choice.label}" for n, choice in enumerate(choices, 1))
    return "a value, or a state such as: not measured, could not tell"
