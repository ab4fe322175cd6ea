"""What stands on every page: the specimens' tags above, disclosure and page number below."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from benchlog.sheet.marks import draw_tag
from benchlog.sheet.tags import artifact
from benchlog.sheet.text import draw_fitted, draw_lines, lines_in, width_of
from benchlog.sheet.typography import BOLD, FACE, HAIRLINE, MUTED, SMALL, Page
from benchlog.sheet.words import date_of, disclosure, short_digest
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_words

TOTAL = "pages_in_all"
"""Name of the form that holds the number of pages, drawn once that is known."""

PAGE_NUMBER_ROOM = 86.0


def draw_header(canvas: Canvas, record: Record, page: Page) -> None:
    """Draw each specimen's tag and nickname across the top, in bench order."""
    specimens = record.lineup.specimens
    if not specimens:
        return
    y = page.height - 36
    step = min(page.content / len(specimens), 150.0)
    with artifact(canvas, "Header"):
        for index, specimen in enumerate(specimens):
            x = page.side + index * step
            draw_tag(canvas, specimen, x + 5, y + 3.2, 4)
            draw_fitted(canvas, specimen.nickname, x + 14, y, step - 22, colour=MUTED)
        _line(canvas, page, y - 8)


def draw_footer(canvas: Canvas, record: Record, page: Page) -> None:
    """Draw who paid, the sheet's identity and "page x of y"."""
    with artifact(canvas, "Footer"):
        _footer(canvas, record, page)


def _footer(canvas: Canvas, record: Record, page: Page) -> None:
    y = 34.0
    _line(canvas, page, y + 13)
    paid = disclosure(record)
    if record.lineup.rehearsal:
        paid = "REHEARSAL, invented data. " + paid
    draw_lines(canvas, lines_in(paid, BOLD, SMALL, page.content, 1), page.side, y, font=BOLD)
    y -= 12
    facts = f"{date_of(record)}  ·  {revision_words(record)}  ·  digest {short_digest(record)}"
    room = page.content - PAGE_NUMBER_ROOM - width_of(facts) - 14
    name = lines_in(record.lineup.name, FACE, SMALL, room, 1)
    text = "  ·  ".join([*name, facts])
    draw_lines(canvas, [text], page.side, y, colour=MUTED)
    number = f"page {canvas.getPageNumber()} of "
    right = page.width - page.side - width_of("00")
    canvas.drawRightString(right, y, number)
    canvas.saveState()
    canvas.translate(right, y)
    canvas.doForm(TOTAL)
    canvas.restoreState()


def draw_total(canvas: Canvas, total: int) -> None:
    """Fill the form behind "page x of" with the number of pages."""
    canvas.beginForm(TOTAL, lowerx=0, lowery=-4, upperx=width_of("0000"), uppery=12)
    canvas.setFont(FACE, SMALL)
    canvas.setFillColor(MUTED)
    canvas.drawString(0, 0, str(total))
    canvas.endForm()


def _line(canvas: Canvas, page: Page, y: float) -> None:
    canvas.setStrokeColor(HAIRLINE)
    canvas.setLineWidth(0.6)
    canvas.line(page.side, y, page.width - page.side, y)
