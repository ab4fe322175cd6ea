"""The base of everything on the sheet that is drawn by hand."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from benchlog.sheet.tags import figure


class Drawn(Flowable):  # type: ignore[misc]  # ReportLab carries no types
    """A flowable of a known size; `draw` draws it with its lower left corner at the origin.

    What `told` says in words makes it a figure to a reader program. Without words its lines are
    decoration, and its text stands for itself.
    """

    def __init__(self, width: float, height: float) -> None:
        super().__init__()
        self.width = width
        self.height = height

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """Return the size, whatever room is offered."""
        return self.width, self.height

    def told(self) -> str:
        """Return what it shows, in words; "" where its own text says it."""
        return ""

    def _drawOn(self, canvas: Canvas) -> None:  # noqa: N802 - ReportLab's own name
        told = self.told()
        if not told:
            super()._drawOn(canvas)
            return
        with figure(canvas, told, (0, 0, self.width, self.height)):
            super()._drawOn(canvas)
