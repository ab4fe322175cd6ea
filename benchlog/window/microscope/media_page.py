"""The media side by side."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from benchlog.window.microscope.media_dots import MediaDots
from benchlog.window.microscope.width_strips import WidthStrips


class MediaPage(QWidget):
    """Openings and fibre diameters of all media, drawn on one axis each."""

    def __init__(self) -> None:
        super().__init__()
        self.dots = MediaDots("Openings of the media, D50")
        self.strips = WidthStrips("Fibre diameters")
        column = QVBoxLayout(self)
        column.addWidget(self.dots)
        column.addWidget(self.strips)

    @property
    def first(self) -> QWidget:
        """What has the keys first."""
        return self.dots

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.updateGeometry()

    def key_takers(self) -> list[QWidget]:
        """Return what can have the focus."""
        return []
