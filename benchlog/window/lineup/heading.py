"""The heading of a plan: name, question, reviewer, and the kind of filter."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from benchlog.tasks.draft import KINDS
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Lineup
from benchlog.window.lineup.field import Field, line, show_text
from benchlog.window.lineup.tag_choice import Choices


class Heading(QWidget):
    """Shows a plan's heading; `edited` carries a field's name and what is in it now."""

    edited = Signal(str, object)

    def __init__(self) -> None:
        super().__init__()
        self.kind = Choices("Kind of filter")
        for key in KINDS:
            self.kind.addItem(load_sequence(key).label, key)
        self.fields = {
            "name": Field("Name of the line-up", line("for example: three for one mount")),
            "question": Field("Question", line("which of these, and for what?")),
            "reviewer": Field("Reviewer", line("your name, as viewers know it")),
            "sequence": Field("Kind of filter", self.kind),
        }
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(10)
        for field, wide in zip(self.fields.values(), (4, 6, 3, 2), strict=True):
            row.addWidget(field, wide)
        for name in ("name", "question", "reviewer"):
            self._connect(name)
        self.kind.chosen.connect(lambda key: self.edited.emit("sequence", key))

    def show_lineup(self, lineup: Lineup, *, begun: bool) -> None:
        """Show the heading of a line-up; once it is begun the kind stays as it is."""
        for name in ("name", "question", "reviewer"):
            editor = self.fields[name].editor
            if isinstance(editor, QLineEdit):
                show_text(editor, getattr(lineup, name))
        self.kind.show_choice(lineup.sequence)
        self.kind.setEnabled(not begun)
        self.fields["sequence"].show_note("fixed" if begun else "")
        self.kind.setToolTip("Fixed since the first reading came in." if begun else "")

    def show_fault(self, name: str, words: str) -> None:
        """Show a fault beside one field, and none beside the others."""
        for key, field in self.fields.items():
            field.show_fault(words if key == name else "")

    def _connect(self, name: str) -> None:
        editor = self.fields[name].editor
        if isinstance(editor, QLineEdit):
            editor.textEdited.connect(lambda text: self.edited.emit(name, text))
