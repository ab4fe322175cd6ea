"""The base of everything on the sheet that is drawn by hand."""

from __future__ import annotations

from reportlab.platypus import Flowable


class Drawn(Flowable):  # type: ignore[misc]  # ReportLab carries no types
    """A flowable of a known size; `draw` draws it with its lower left corner at the origin."""

    def __init__(self, width: float, height: float) -> None:
        super().__init__()
        self.width = width
        self.height = height

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """Return the size, whatever room is offered."""
        return self.width, self.height
