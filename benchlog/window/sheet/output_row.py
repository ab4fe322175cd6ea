"""One output of a revision: whether it goes out, its choices, and what should be known of it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from benchlog.tasks.going_out import RowNote
from benchlog.window.theme import restyle, sized


class OutputRow(QWidget):
    """A check box with its choices beside it and a note below."""

    def __init__(self, kind: str, name: str, choices: Sequence[QWidget]) -> None:
        super().__init__()
        self.kind = kind
        self.box = QCheckBox(name)
        self.box.setAccessibleName(f"{name} goes out")
        self.box.setChecked(True)
        self.note = QLabel(wordWrap=True)
        sized(self.box, 15, bold=True)
        sized(self.note, 14)
        above = QHBoxLayout()
        above.addWidget(self.box)
        above.addStretch(1)
        for part in choices:
            sized(part, 13)
            above.addWidget(part)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(1)
        column.addLayout(above)
        column.addWidget(self.note)
        self.show_note(RowNote(""))

    def show_note(self, note: RowNote) -> None:
        """Show what should be known; a missing thing stands out while the output is wanted."""
        owed = note.missing and self.box.isChecked()
        self.note.setText(note.words)
        self.note.setVisible(bool(note.words))
        self.note.setProperty("tone", "warn" if owed else "dim")
        restyle(self.note)
        self.box.setAccessibleDescription(note.words)
