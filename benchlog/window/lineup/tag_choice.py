"""Choosing a specimen's tag: shapes and colours as painted marks."""

from __future__ import annotations

from PySide6.QtCore import QSize, Signal
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QComboBox

from benchlog.tasks.plan import TAG_COLOURS, TAG_NAMES
from benchlog.trade.specimen import Shape, Specimen
from benchlog.window.bench.tag_marker import tag_icon
from benchlog.window.theme import px


class Choices(QComboBox):
    """A choice that tells only what a person chose, and lets the wheel scroll the page."""

    chosen = Signal(object)

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self._answers: list[object] = []  # Qt would hand a word with a type of its own back bare
        self.activated.connect(lambda row: self.chosen.emit(self._answers[row]))

    def addItem(self, words: str, answer: object) -> None:
        """Add an answer and the words that it is shown as."""
        self._answers.append(answer)
        super().addItem(words, answer)

    def show_choice(self, answer: object) -> None:
        """Show which one is chosen."""
        self.setCurrentIndex(self._answers.index(answer) if answer in self._answers else 0)

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class ShapeChoice(Choices):
    """The six tag shapes, drawn in the specimen's colour."""

    def __init__(self) -> None:
        super().__init__("Tag shape")
        for shape in Shape:
            self.addItem(shape.value, shape)

    def show_specimen(self, specimen: Specimen) -> None:
        """Show the shape of a specimen."""
        self.setIconSize(QSize(px(20), px(20)))
        for row, shape in enumerate(Shape):
            self.setItemIcon(row, _mark(shape, specimen.colour))
        self.show_choice(specimen.shape)


class ColourChoice(Choices):
    """The program's own tag colours, drawn in the specimen's shape."""

    def __init__(self) -> None:
        super().__init__("Tag colour")
        for name, colour in zip(TAG_NAMES, TAG_COLOURS, strict=True):
            self.addItem(name.lower(), colour)

    def show_specimen(self, specimen: Specimen) -> None:
        """Show the colour of a specimen; one that is not of the palette joins it."""
        self.setIconSize(QSize(px(20), px(20)))
        if self.findData(specimen.colour) < 0:
            self.addItem(specimen.colour, specimen.colour)
        for row in range(self.count()):
            self.setItemIcon(row, _mark(specimen.shape, self.itemData(row)))
        self.show_choice(specimen.colour)


def _mark(shape: Shape, colour: str) -> object:
    return tag_icon(Specimen("", "", shape, colour), px(20) * 2)
