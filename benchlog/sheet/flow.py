"""Flowing parts that every section of the sheet is made of: headings, tables, keys."""

from __future__ import annotations

from collections.abc import Sequence as Ordered
from typing import TypeAlias

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import CondPageBreak, Flowable, Spacer, Table

from benchlog.sheet.drawn import Drawn
from benchlog.sheet.marks import Tag
from benchlog.sheet.paragraph import Text
from benchlog.sheet.table_tags import TableTags
from benchlog.sheet.tags import begin_section
from benchlog.sheet.text import lines_in, markup, one_line, para, shortened
from benchlog.sheet.typography import (
    ACCENT,
    BAND,
    BODY,
    BOLD,
    FACE,
    HAIRLINE,
    SMALL,
    STYLES,
    Page,
)
from benchlog.trade.specimen import Specimen

SPARE = 6.0
"""Points kept free at the right of every cell."""


class Heading(Text):
    """A heading that also stands in the outline; `level` 0 is a section.

    The page's title is the first heading, so a section's is the second.
    """

    def __init__(self, text: str, level: int, outline: str = "") -> None:
        super().__init__(markup(text), STYLES["section" if level == 0 else "part"])
        self.kind = "H2" if level == 0 else "H3"
        self._outline = one_line(outline or text)
        self._level = level

    def draw(self) -> None:
        """Draw the heading, and put its place into the outline."""
        if self._level == 0:
            begin_section(self.canv)
        add_to_outline(self.canv, self._outline, self._level, self.height + 14)
        super().draw()


def add_to_outline(canvas: Canvas, text: str, level: int, above: float) -> None:
    """Put `above` points over the origin into the outline; a place in it is never reused."""
    x, y = canvas.absolutePosition(0, above)
    key = f"place-{canvas.getPageNumber()}-{x:.1f}-{y:.1f}-{level}"
    canvas.bookmarkPage(key, fit="XYZ", left=0, top=y, zoom=0)
    canvas.addOutlineEntry(text, key, level, closed=level > 0)


class Bar(Drawn):
    """The short accent bar above a section's heading."""

    def __init__(self) -> None:
        super().__init__(30, 9)
        self.spaceBefore = 15

    def draw(self) -> None:
        """Draw the bar."""
        self.canv.setFillColor(ACCENT)
        self.canv.rect(0, 6, 30, 3, fill=1, stroke=0)


def section(title: str, lead: str = "") -> list[Flowable]:
    """Return the opening of a section: bar, heading and what it shows."""
    opening: list[Flowable] = [Bar(), Heading(title, 0)]
    if lead:
        opening.append(para(lead, "lead"))
    return opening


def part(title: str, room: float = 110) -> list[Flowable]:
    """Return the heading of a part, which begins on a new page when `room` points are not left."""
    return [CondPageBreak(room), gap(6), Heading(title, 1)]


Cell: TypeAlias = str | Flowable | list[Flowable]


def table(
    rows: Ordered[Ordered[Cell]],
    widths: Ordered[float],
    *,
    head: bool = True,
    row_heads: bool = True,
    small: bool = False,
    more: Ordered[tuple[object, ...]] = (),
) -> Table:
    """Return a table ruled by hairlines, its head repeated on every page it runs to.

    The first cell of each row heads the row, unless `row_heads` is False. `small` sets plain cells
    in the least size, for long tables that are looked up and not read.
    """
    plain = "cell_small" if small else "cell"
    style: list[tuple[object, ...]] = [
        ("FONT", (0, 0), (-1, -1), FACE, SMALL),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), SPARE),
        ("TOPPADDING", (0, 0), (-1, -1), 1.0 if small else 1.3),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.7 if small else 2.2),
        ("LINEBELOW", (0, 0), (-1, -1), 0.5, HAIRLINE),
        *more,
    ]
    if head:
        style.append(("LINEBELOW", (0, 0), (-1, 0), 1.0, ACCENT))
    cells = [
        [
            _cell(cell, "head" if head and i == 0 else plain, width)
            for cell, width in zip(row, widths, strict=True)
        ]
        for i, row in enumerate(rows)
    ]
    heads = 1 if head else 0
    tags = TableTags(heads, row_heads=row_heads)
    return Table(
        cells, colWidths=list(widths), repeatRows=heads, style=style, hAlign="LEFT", renderCB=tags
    )


def longest_in(width: float) -> int:
    """Return how many characters a cell of that width holds without towering over its row."""
    return max(60, int(width * 1.7))


def bare(above: float = 0, below: float = 0) -> list[tuple[object, ...]]:
    """Return the style of a grid that shows no lines, with points above and below every cell."""
    return [
        ("FONT", (0, 0), (-1, -1), FACE, SMALL),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), above),
        ("BOTTOMPADDING", (0, 0), (-1, -1), below),
    ]


def _cell(cell: Cell, style: str, width: float) -> Flowable | list[Flowable]:
    return para(shortened(cell, longest_in(width)), style) if isinstance(cell, str) else cell


def specimen_head(specimen: Specimen, width: float, most: int = 2) -> Table:
    """Return a specimen's tag and nickname, in at most `most` lines, for a column's head."""
    room = max(20.0, width - SPARE - 15)
    lines = lines_in(specimen.nickname or "no nickname", BOLD, BODY, room, most)
    name = para("\n".join(lines), "label")
    return Table([[Tag(specimen, 4.2), name]], colWidths=[14, room + 1], style=bare(),
                 hAlign="LEFT")  # fmt: skip


def columns(content: float, first: float, count: int) -> list[float]:
    """Return widths for a label column and `count` equal ones that the eye can still follow."""
    each = min((content - first) / max(1, count), 260.0 if count < 3 else 132.0)
    return [first, *([each] * count)]


def shares(page: Page, *parts: float) -> list[float]:
    """Return the page's width shared out in these proportions."""
    return [page.content * part / sum(parts) for part in parts]


def gap(points: float = 8) -> Spacer:
    """Return empty space."""
    return Spacer(1, points)


def boxed(parts: list[Flowable], width: float) -> Table:
    """Return parts in a light box."""
    return Table(
        [[part] for part in parts],
        colWidths=[width],
        hAlign="LEFT",
        style=[
            ("FONT", (0, 0), (-1, -1), FACE, SMALL),
            ("BACKGROUND", (0, 0), (-1, -1), BAND),
            ("LEFTPADDING", (0, 0), (-1, -1), 12),
            ("RIGHTPADDING", (0, 0), (-1, -1), 12),
            ("TOPPADDING", (0, 0), (-1, -1), 4),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
        ],
    )
