"""A canvas that remembers where its lines of text stand, for tests."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO

from reportlab.pdfgen.canvas import Canvas

from benchlog.sheet.typography import FACE


@dataclass(frozen=True)
class Box:
    text: str
    left: float
    bottom: float
    right: float
    top: float

    def meets(self, other: Box) -> bool:
        return (
            self.left < other.right - 0.5
            and other.left < self.right - 0.5
            and self.bottom < other.top - 0.5
            and other.bottom < self.top - 0.5
        )


class Noting(Canvas):
    """A canvas that notes the box of every line drawn on it, in the page's own coordinates."""

    def __init__(self) -> None:
        super().__init__(BytesIO(), initialFontName=FACE)
        self.boxes: list[Box] = []

    def drawString(self, x, y, text, *args, **kwargs):  # noqa: N802
        width = self.stringWidth(text, self._fontname, self._fontsize)
        # Capitals and figures stand about 0.73 of the size above the line, tails 0.2 below.
        size = self._fontsize
        self.boxes.append(Box(text, x, y - 0.2 * size, x + width, y + 0.73 * size))
        super().drawString(x, y, text, *args, **kwargs)
