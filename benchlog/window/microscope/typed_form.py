"""A scale that is known already, typed with its uncertainty."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from benchlog.window.lineup.field import Field
from benchlog.window.theme import px, sized

WHENCE = (
    "Type the scale only where it was found at this objective, zoom and picture size. A picture "
    "of a stage micrometer is better: it also shows a slide that lay tilted and a lens that bends."
)


class TypedForm(QWidget):
    """Micrometres a pixel, how well that is known, and the size of the pictures it holds for."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.scale, self.uncertainty = QLineEdit(), QLineEdit()
        self.width_px, self.height_px = QLineEdit(), QLineEdit()
        self.fields = {
            "scale": Field("One pixel is, µm", self.scale, "such as 0.46"),
            "uncertainty": Field("standard uncertainty of that", self.uncertainty, "µm or %"),
            "width": Field("Pictures are wide, px", self.width_px, "empty for any"),
            "height": Field("and high, px", self.height_px, "empty for any"),
        }
        whence = QLabel(WHENCE, wordWrap=True)
        whence.setProperty("tone", "dim")
        sized(whence, 15)
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(12))
        for number, field in enumerate(self.fields.values()):
            grid.addWidget(field, number // 2, number % 2)
            field.editor.textEdited.connect(lambda _text: self.changed.emit())
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(px(8))
        column.addWidget(whence)
        column.addLayout(grid)
        column.addStretch(1)

    def clear(self) -> None:
        """Empty the fields."""
        for field in self.fields.values():
            field.editor.clear()
