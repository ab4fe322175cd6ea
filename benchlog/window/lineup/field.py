"""One field of a form: its name above it, what is wrong with it below."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from benchlog.window.theme import sized


class Field(QWidget):
    """Holds one input; `note` stands dim beside the name, a fault stands out beneath."""

    def __init__(self, name: str, editor: QWidget, note: str = "") -> None:
        super().__init__()
        self.editor = editor
        self.caption = QLabel(name)
        self.caption.setProperty("tone", "dim")
        self.caption.setBuddy(editor)
        self.note = QLabel(note)
        self.note.setProperty("tone", "dim")
        self.fault = QLabel(wordWrap=True)
        self.fault.setProperty("tone", "warn")
        self.fault.hide()
        for label in (self.caption, self.note, self.fault):
            sized(label, 13)
        sized(editor, 16)
        if not editor.accessibleName():
            editor.setAccessibleName(name)
        self._name = editor.accessibleName()
        above = QHBoxLayout()
        above.addWidget(self.caption)
        above.addStretch(1)
        above.addWidget(self.note)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(1)
        column.addLayout(above)
        column.addWidget(editor)
        column.addWidget(self.fault)

    def show_note(self, words: str, *, owed: bool = False) -> None:
        """Show a word beside the name; `owed` makes it stand out."""
        self.note.setText(words)
        self.note.setProperty("tone", "warn" if owed else "dim")
        self.note.style().polish(self.note)
        self.editor.setAccessibleDescription(words)

    def show_fault(self, words: str) -> None:
        """Show what is wrong; "" for nothing."""
        self.fault.setText(words)
        self.fault.setVisible(bool(words))
        self.editor.setAccessibleDescription(words or self.note.text())


def line(placeholder: str = "") -> QLineEdit:
    """Return a line to type in."""
    editor = QLineEdit()
    editor.setPlaceholderText(placeholder)
    return editor


def show_text(editor: QLineEdit, text: str) -> None:
    """Put a text into a line unless it is there already, so that the cursor stays."""
    if editor.text() != text:
        editor.setText(text)
        editor.setCursorPosition(0)


def focus_into(field: Field) -> None:
    """Put the focus into a field."""
    field.editor.setFocus(Qt.FocusReason.OtherFocusReason)
