"""What only the reviewer can give the video's description: links, a question, its limit."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QLabel, QVBoxLayout, QWidget

from benchlog.errors import PlanRefused
from benchlog.tasks.publish_wishes import PublishWishes, with_words
from benchlog.window.lineup.field import Field, focus_into, line
from benchlog.window.theme import px, sized

INTRODUCTION = (
    "Who paid, the specimens, the chapters, the method and corrections come from the record. "
    "What does not fit is left out whole, the least needed part first; who paid always stays."
)
FIELDS = {
    "sheet": ("Where the sheet can be had", "https://…"),
    "data": ("Where the data can be had", "https://…"),
    "method": ("Where the method is described", "https://…"),
    "ask": ("A question to viewers", ""),
    "limit": ("Most characters", "5000"),
}


class DescriptionDialog(QDialog):
    """Shows links, question and limit; `set` carries the wishes with what was typed."""

    set = Signal(object)

    def __init__(self, wishes: PublishWishes, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Links and question")
        self._wishes = wishes
        self.fields = {key: Field(name, line(hint)) for key, (name, hint) in FIELDS.items()}
        typed = {
            "sheet": wishes.links.sheet, "data": wishes.links.data, "method": wishes.links.method,
            "ask": wishes.ask, "limit": str(wishes.limit),
        }  # fmt: skip
        for key, field in self.fields.items():
            field.editor.setText(typed[key])
        introduction = QLabel(INTRODUCTION, wordWrap=True)
        introduction.setProperty("tone", "dim")
        sized(introduction, 14)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        for button in buttons.buttons():
            button.setAccessibleName(button.text().replace("&", ""))
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(introduction)
        for field in self.fields.values():
            column.addWidget(field)
        column.addWidget(buttons)
        self.setMinimumWidth(px(620))
        focus_into(self.fields["sheet"])

    def accept(self) -> None:
        """Keep what was typed, or say beside the field why it cannot stand."""
        typed = {key: field.editor.text() for key, field in self.fields.items()}
        for field in self.fields.values():
            field.show_fault("")
        try:
            wishes = with_words(self._wishes, typed)
        except PlanRefused as refusal:
            field = self.fields[refusal.field]
            field.show_fault(f"{refusal.what} {refusal.do}")
            focus_into(field)
            return
        self.set.emit(wishes)
        super().accept()
