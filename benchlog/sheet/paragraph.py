"""Paragraphs that say what they are, and measure nothing twice; faces that do not either.

Breaking text into lines is most of what a sheet takes, and a cell is measured for its row's height,
for where the page ends, and to be drawn. All three ask with the same width. A reader program meets
each as a paragraph, one with a label in the gutter as an item of a list.
"""

from __future__ import annotations

from typing import Any, ClassVar

from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.platypus import Paragraph

from benchlog.sheet.tags import Kept, list_item, paragraph


class Text(Paragraph):  # type: ignore[misc]  # ReportLab carries no types
    """A paragraph that keeps its lines until another width is offered.

    `kind` is what it is to a reader program: "P", or "H2" and the like for a heading.
    """

    MOST_READ = 5_000
    """Read markups are forgotten beyond this many, as widths are."""

    kind = "P"
    _broken_for: float | None = None
    _kept: Kept | None = None
    _read: ClassVar[dict[tuple[str, str, str | None], tuple[Any, list[Any], Any]]] = {}

    def __init__(
        self,
        text: str | None,
        style: ParagraphStyle,
        bulletText: str | None = None,  # noqa: N803 - ReportLab's own name
        frags: list[Any] | None = None,
    ) -> None:
        # The next preview has nearly the same words, and reading markup is slow.
        place = (text or "", style.name, bulletText)
        known = self._read.get(place) if frags is None else None
        if known is not None:
            super().__init__(text, known[0], bulletText=known[2], frags=list(known[1]))
            return
        super().__init__(text, style, bulletText=bulletText, frags=frags)
        if frags is None:
            if len(self._read) >= self.MOST_READ:
                self._read.clear()
            self._read[place] = self.style, list(self.frags), self.bulletText

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Return the size in points, as ReportLab has it."""
        # A split that failed takes the lines away, and its halves begin without a width.
        if self._broken_for == width and hasattr(self, "blPara"):
            return self.width, self.height
        size: tuple[float, float] = super().wrap(width, height)
        self._broken_for = width
        return size

    def split(self, width: float, height: float) -> list[Paragraph]:
        """Return the parts before and after a page's end; to a reader program they are one."""
        parts: list[Paragraph] = super().split(width, height)
        for part in parts:
            if isinstance(part, Text):
                part._kept = self.kept
        return parts

    @property
    def kept(self) -> Kept:
        """What remembers the paragraph where a page's end parts it."""
        if self._kept is None:
            self._kept = Kept()
        return self._kept

    def draw(self) -> None:
        """Draw the paragraph as what it is."""
        if self.style.leftIndent > 0:
            with list_item(self.canv, self.kept, labelled=bool(self.bulletText)):
                super().draw()
        else:
            with paragraph(self.canv, self.kind, self.kept):
                super().draw()


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
