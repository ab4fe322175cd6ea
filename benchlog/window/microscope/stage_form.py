"""The scale from a picture of a stage micrometer: its lines drawn, and the division asked."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from benchlog.tasks.picture_ports import StageScale
from benchlog.tasks.set_ups import stage_notes
from benchlog.window.lineup.field import Field
from benchlog.window.microscope.decoded import Decoded
from benchlog.window.microscope.marks_paint import stage_path
from benchlog.window.microscope.picture_view import PictureView
from benchlog.window.theme import px, restyle, sized

NO_PICTURE = (
    "A picture of the stage micrometer at the same objective, zoom and size as the pictures of "
    "the media: choose it, drop it here, or paste it."
)


class StageForm(QWidget):
    """`picture_wanted` asks for a picture's file; `changed` follows what is typed."""

    picture_wanted = Signal()
    changed = Signal()

    def __init__(self, cap: str) -> None:
        super().__init__()
        self.found: StageScale | None = None
        self.view = PictureView()
        self.view.setAccessibleName("Picture of the stage micrometer")
        self.choose = QPushButton(f"&Picture…  ({cap})")
        self.choose.setAccessibleName("Choose the picture of the stage micrometer")
        self.told = QLabel(wordWrap=True)
        self.told.setAccessibleName("What was found on the picture")
        sized(self.told, 15)
        self.division, self.within = QLineEdit(), QLineEdit()
        self.division_field = Field("Two neighbouring marked lines lie apart by, µm", self.division)
        self.within_field = Field("standard uncertainty of that, µm", self.within, "0 if unknown")
        sized(self.choose, 15)
        self._lay_out()
        self.choose.clicked.connect(self.picture_wanted)
        for field in (self.division, self.within):
            field.textEdited.connect(lambda _text: self.changed.emit())
        self.clear()

    def clear(self) -> None:
        """Begin without a picture."""
        self.found = None
        self.view.say(NO_PICTURE)
        self.tell("")
        self.division.clear()
        self.within.clear()
        self._let_answer(on=False)

    def looking(self) -> None:
        """Say that lines are looked for; what was found before no longer counts."""
        self.found = None
        self.tell("Looking for the lines…")
        self._let_answer(on=False)

    def show_picture(self, picture: Decoded) -> None:
        """Show the picture while its lines are looked for."""
        self.view.show_picture(picture, 0.0, "stage micrometer, lines not found yet")

    def show_found(self, found: StageScale) -> None:
        """Draw the lines that were found, and ask what they are."""
        self.found = found
        self.view.show_lines(stage_path(found.lines))
        self.tell(" ".join(stage_notes(found)))
        self._let_answer(on=True)

    def refused(self, words: str) -> None:
        """Say why the picture gives no scale."""
        self.found = None
        self.view.show_lines(None)
        self.tell(words, warn=True)
        self._let_answer(on=False)

    def tell(self, words: str, *, warn: bool = False) -> None:
        """Say what was found, or what is wrong."""
        self.told.setText(words)
        self.told.setProperty("tone", "warn" if warn else "")
        restyle(self.told)

    def _let_answer(self, *, on: bool) -> None:
        for part in (self.division_field, self.within_field):
            part.setEnabled(on)

    def _lay_out(self) -> None:
        above = QHBoxLayout()
        above.addWidget(self.choose)
        above.addWidget(self.told, 1)
        asks = QGridLayout()
        asks.setHorizontalSpacing(px(12))
        asks.addWidget(self.division_field, 0, 0)
        asks.addWidget(self.within_field, 0, 1)
        asks.setColumnStretch(0, 3)
        asks.setColumnStretch(1, 2)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(px(5))
        column.addLayout(above)
        column.addWidget(self.view, 1)
        column.addLayout(asks)
