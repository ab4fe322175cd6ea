"""The document: its page templates, its outline, and what a reader program is told about it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any, BinaryIO

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate

from benchlog.sheet.flow import add_to_outline
from benchlog.sheet.furniture import draw_footer, draw_header, draw_total
from benchlog.sheet.numbered import PlacesMet
from benchlog.sheet.tagged_canvas import TaggedCanvas
from benchlog.sheet.text import one_line
from benchlog.sheet.typography import FACE, SMALL, Page
from benchlog.sheet.words import moment_of
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_words

# JPEG bytes go into the file as they are; the text form would swell them by a quarter.
rl_config.useA85 = 0


class SheetDocument(BaseDocTemplate):  # type: ignore[misc]  # ReportLab carries no types
    """A document of one record on one paper; without a clock, so that its bytes repeat."""

    def __init__(
        self, out: BinaryIO, record: Record, page: Page, at_page: Callable[[int], None]
    ) -> None:
        super().__init__(
            out,
            pagesize=(page.width, page.height),
            title=_title(record),
            author=one_line(record.lineup.reviewer) or "reviewer not named",
            subject=one_line(record.lineup.question) or "Oil filters compared part by part",
            keywords=f"oil filter, teardown, {revision_words(record)}, {record.digest}",
            creator="benchlog",
            producer="benchlog",
            lang="en-GB",
            invariant=1,
            initialFontName=FACE,
            initialFontSize=SMALL,
            initialLeading=11,
        )
        self._record = record
        self._page = page
        self.places = PlacesMet(page)
        self._at_page = at_page
        front = Frame(page.side, page.bottom, page.content, page.height - page.bottom - 40.0,
                      id="front", **_NO_PADDING)  # fmt: skip
        text = Frame(page.side, page.bottom, page.content, page.height - page.bottom - page.top,
                     id="text", **_NO_PADDING)  # fmt: skip
        self.addPageTemplates(
            [
                PageTemplate("front", [front], onPage=self._first_page),
                PageTemplate("text", [text], onPage=self._later_page),
            ]
        )

    def build(self, flowables: list[Flowable]) -> None:
        """Draw everything, on pages that say what they hold."""
        super().build(flowables, canvasmaker=partial(TaggedCanvas, made_at=moment_of(self._record)))

    def _first_page(self, canvas: Canvas, _document: object) -> None:
        canvas.showOutline()
        add_to_outline(canvas, "The answer at a glance", 0, self._page.height)
        draw_footer(canvas, self._record, self._page)

    def _later_page(self, canvas: Canvas, _document: object) -> None:
        self._at_page(canvas.getPageNumber())
        draw_header(canvas, self._record, self._page)
        draw_footer(canvas, self._record, self._page)

    def _endBuild(self) -> Any:  # noqa: N802 - ReportLab's own name
        draw_total(self.canv, self.page)
        return super()._endBuild()


_NO_PADDING = {"leftPadding": 0, "rightPadding": 0, "topPadding": 0, "bottomPadding": 0}


def _title(record: Record) -> str:
    name = one_line(record.lineup.name) or "Line-up without a name"
    return f"{name}, {revision_words(record)}"
