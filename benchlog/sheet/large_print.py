"""The large-print page as a PDF of its own."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO

from reportlab.pdfgen.canvas import Canvas

from benchlog.sheet.large_page import LargePage
from benchlog.sheet.layout import SheetDocument
from benchlog.sheet.typography import PAPERS, Page, use_fonts
from benchlog.tasks.record import Record

LARGE_PRINT = "large-print.pdf"


class LargeDocument(SheetDocument):
    """A document of one page, without the small lines that stand at the foot of the sheet's."""

    def _first_page(self, canvas: Canvas, _document: object) -> None:
        canvas.showOutline()


def write_large_print(record: Record, path: Path, paper: str, address: str = "") -> None:
    """Write the page; the same record gives the same bytes.

    Raises PublishRefused while it is not said who paid, and OSError when the file cannot be
    written.
    """
    use_fonts()
    with path.open("wb") as out:
        _build(out, record, PAPERS[paper], address, lambda _page: None)


def _build(
    out: BinaryIO, record: Record, page: Page, address: str, at_page: Callable[[int], None]
) -> None:
    LargeDocument(out, record, page, at_page).build([LargePage(record, page, address)])
