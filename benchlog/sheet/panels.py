"""The grid of small panels that follows the table of values."""

from __future__ import annotations

from reportlab.platypus import CondPageBreak, Flowable, Table

from benchlog.sheet.dot_plot import DotPlot, Panel
from benchlog.sheet.flow import section
from benchlog.sheet.typography import FACE, SMALL, Page
from benchlog.sheet.value_rows import Row, meaningful_in_unit

PANELS_ACROSS = 3
PANEL_GAP = 16.0
ROOM_FOR_PANELS = 260.0

LEAD = (
    "One panel for each attribute, specimens in bench order. The bar is the same ± as in the "
    "table; a hollow mark is an estimate. The grey band is as wide as the smallest difference "
    "that the rules call meaningful: what lies in it together is too close to call."
)


def _panel(row: Row) -> Panel:
    band = meaningful_in_unit(row)
    return Panel(row.label, row.unit, row.dots, row.judged, band, row.note)


def panels(page: Page, rows: list[Row]) -> list[Flowable]:
    """Return a grid of panels for the rows with at least two numbers; nothing without any."""
    width = (page.content - (PANELS_ACROSS - 1) * PANEL_GAP) / PANELS_ACROSS
    plots: list[Flowable] = [
        DotPlot(_panel(row), width)
        for row in rows
        if sum(dot.shown is not None for dot in row.dots) > 1
    ]
    lines = [plots[i : i + PANELS_ACROSS] for i in range(0, len(plots), PANELS_ACROSS)]
    if not lines:
        return []
    grid = [[*line, *([""] * (PANELS_ACROSS - len(line)))] for line in lines]
    style = [
        ("FONT", (0, 0), (-1, -1), FACE, SMALL),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 4),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 10),
    ]
    widths = [width + PANEL_GAP, width + PANEL_GAP, width]
    drawn = Table(grid, colWidths=widths, style=style, hAlign="LEFT")
    return [CondPageBreak(ROOM_FOR_PANELS), *section("The same numbers, drawn", LEAD), drawn]
