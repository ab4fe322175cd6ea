"""Paragraphs and faces that measure nothing twice: a table asks for the same width again and again.

Breaking text into lines is most of what a sheet takes, and a cell is measured for its row's height,
for where the page ends, and to be drawn. All three ask with the same width.
"""

from __future__ import annotations

from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import Paragraph


class Text(Paragraph):  # type: ignore[misc]  # ReportLab carries no types
    """A paragraph that keeps its lines until another width is offered."""

    _broken_for: float | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Return the size in points, as ReportLab has it."""
        # A split that failed takes the lines away, and its halves begin without a width.
        if self._broken_for == width and hasattr(self, "blPara"):
            return self.width, self.height
        size: tuple[float, float] = super().wrap(width, height)
        self._broken_for = width
        return size


class Face(TTFont):  # type: ignore[misc]  # ReportLab carries no types
    """A face that remembers how wide a word is."""

    MOST_WORDS = 20_000
    """Widths are forgotten beyond this many: a long day of previews must not fill the memory."""

    def __init__(self, name: str, filename: str) -> None:
        super().__init__(name, filename)
        self._widths: dict[str, float] = {}

    def stringWidth(self, text: str, size: float, encoding: str = "utf8") -> float:  # noqa: N802 - ReportLab's own name
        """Return the width in points."""
        if not isinstance(text, str):
            return float(super().stringWidth(text, size, encoding))
        known = self._widths.get(text)
        if known is None:
            if len(self._widths) >= self.MOST_WORDS:
                self._widths.clear()
            known = self._widths[text] = sum(
                map(self.face.charWidths.get, map(ord, text), [self.face.defaultWidth] * len(text))
            )
        return 0.001 * size * known
