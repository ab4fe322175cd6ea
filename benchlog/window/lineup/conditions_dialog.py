"""The stated conditions of a line-up: what some figures are worked out for, typed and kept."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.errors import PlanRefused
from benchlog.tasks.stated import FIELDS, as_typed, grades, understood
from benchlog.trade.conditions import Conditions, usual_conditions
from benchlog.window.enter_clicks import let_enter_click
from benchlog.window.lineup.field import Field, focus_into, line
from benchlog.window.theme import px, sized

INTRODUCTION = (
    "Stated, not measured. Figures that need a flow, an oil or a pressure are worked out for "
    "these values and say so wherever they are printed."
)


class ConditionsDialog(QDialog):
    """Shows the conditions; `stated` carries what was typed when it is kept, None for the usual."""

    stated = Signal(object)

    def __init__(self, conditions: Conditions, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Stated conditions")
        self.fields = {f.key: Field(f.label, line(f.symbol), f.help) for f in FIELDS}
        self.grade = QComboBox()
        self.grade.addItems(grades())
        self.grade.setAccessibleName("Oil grade at 100 °C, SAE J300")
        self.fields["oil_grade"] = Field(
            "Oil grade, SAE J300", self.grade, "counts where a viscosity is empty"
        )
        self.usual = QPushButton("&Usual conditions")
        self.usual.setAccessibleName("Put the usual conditions in")
        self.usual.setAutoDefault(False)
        self.usual.clicked.connect(lambda: self.show_conditions(usual_conditions()))
        self._lay_out()
        let_enter_click(self)
        self.show_conditions(conditions)

    def show_conditions(self, conditions: Conditions) -> None:
        """Put conditions into the fields."""
        for key, text in as_typed(conditions).items():
            editor = self.fields[key].editor
            if isinstance(editor, QLineEdit):
                editor.setText(text)
        self.grade.setCurrentText(conditions.oil_grade)
        self._show_fault("", "")

    def accept(self) -> None:
        """Keep what was typed, or say beside the field why it cannot stand."""
        texts = {
            key: field.editor.text()
            for key, field in self.fields.items()
            if isinstance(field.editor, QLineEdit)
        }
        try:
            conditions = understood(texts, self.grade.currentText())
        except PlanRefused as refusal:
            self._show_fault(refusal.field, str(refusal))
            focus_into(self.fields[refusal.field])
            return
        self.stated.emit(conditions)
        super().accept()

    def _show_fault(self, key: str, words: str) -> None:
        for name, field in self.fields.items():
            field.show_fault(words if name == key else "")
        self.layout().activate()
        self.resize(self.width(), self.layout().totalHeightForWidth(self.width()))

    def _lay_out(self) -> None:
        introduction = QLabel(INTRODUCTION, wordWrap=True)
        introduction.setProperty("tone", "dim")
        sized(introduction, 14)
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(18))
        grid.setVerticalSpacing(px(8))
        for place, field in enumerate(self.fields.values()):
            grid.addWidget(field, place // 2, place % 2, Qt.AlignmentFlag.AlignTop)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.addButton(self.usual, QDialogButtonBox.ButtonRole.ResetRole)
        for button in buttons.buttons():
            if not button.accessibleName():
                button.setAccessibleName(button.text().replace("&", ""))
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(introduction)
        column.addLayout(grid)
        column.addWidget(buttons)
        self.setMinimumWidth(px(820))
