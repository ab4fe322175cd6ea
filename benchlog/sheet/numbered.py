"""Values that tell where on the pages they were drawn."""

from __future__ import annotations

from collections.abc import Iterable

from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfgen.canvas import Canvas

from benchlog.sheet.paragraph import Text
from benchlog.sheet.typography import Page
from benchlog.tasks.sheet_places import NumberPlace

Number = tuple[str, str]
"""A figure's or attribute's key, and a specimen's id."""


class PlacesMet:
    """Gathers the places of values while pages are drawn."""

    def __init__(self, page: Page) -> None:
        self._height = page.height
        self._met: list[NumberPlace] = []

    def meet(self, canvas: Canvas, number: Number, box: tuple[float, float, float, float]) -> None:
        """Keep a box (left, bottom, width, height, in the canvas' own axes) on the page at hand."""
        left, bottom, width, height = box
        x, y = canvas.absolutePosition(left, bottom)
        page = canvas.getPageNumber() - 1
        place = NumberPlace(page, x, self._height - y - height, width, height, *number)
        self._met.append(place)

    def known(self, numbers: Iterable[Number]) -> tuple[NumberPlace, ...]:
        """Return the places of those values that there is something behind."""
        there = set(numbers)
        return tuple(one for one in self._met if one.number in there)


def met(canvas: Canvas, number: Number, box: tuple[float, float, float, float]) -> None:
    """Tell the document, if it gathers places, where a value is drawn."""
    places = getattr(getattr(canvas, "_doctemplate", None), "places", None)
    if isinstance(places, PlacesMet):
        places.meet(canvas, number, box)


class NumberText(Text):
    """A paragraph that is the value of something, and that tells where it stands."""

    number: Number | None = None

    def draw(self) -> None:
        """Draw the paragraph, and tell its place."""
        if self.number is not None:
            met(self.canv, self.number, (0, 0, self.width, self.height))
        super().draw()

    def split(self, width: float, height: float) -> list[Text]:
        """Return the parts before and after a page's end; both are of the same value."""
        parts: list[Text] = super().split(width, height)
        for part in parts:
            if isinstance(part, NumberText):
                part.number = self.number
        return parts


def number_text(markup: str, style: ParagraphStyle, number: Number) -> NumberText:
    """Return markup as the value of something."""
    text = NumberText(markup, style)
    text.number = number
    return text
