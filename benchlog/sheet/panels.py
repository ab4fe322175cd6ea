"""The grid of small panels that follows the table of values."""

from __future__ import annotations

from collections.abc import Iterable

from reportlab.platypus import CondPageBreak, Flowable, Table

from benchlog.sheet.dot_plot import DotPlot, head_of
from benchlog.sheet.dots import Panel
from benchlog.sheet.flow import bare, section
from benchlog.sheet.typography import Page
from benchlog.sheet.value_rows import Row, meaningful_in_unit

PANELS_ACROSS = 3
PANEL_GAP = 16.0
ROOM_FOR_PANELS = 200.0

LEAD = (
    "One panel for each value that is compared, in bench order. The bar is the ± of the table, if "
    "measured again here; a hollow mark is an estimate, an open bar an interval without a best "
    "value. What lies together in the grey band is too close to call."
)


def _panel(row: Row) -> Panel:
    band = meaningful_in_unit(row)
    return Panel(row.label, row.unit, row.dots, row.judged, band, row.note, row.key)


def _plots(shown: list[Panel], width: float) -> list[Flowable]:
    """Return one line of panels, with as much room above them as the longest head takes."""
    most = max(sum(map(len, head_of(panel, width))) for panel in shown)
    return [DotPlot(panel, width, most) for panel in shown]


def panels(page: Page, rows: Iterable[Row]) -> list[Flowable]:
    """Return a grid of panels for the rows whose values are compared; nothing without any."""
    width = (page.content - (PANELS_ACROSS - 1) * PANEL_GAP) / PANELS_ACROSS
    shown = [_panel(row) for row in rows if row.is_compared]
    lines = [
        _plots(shown[i : i + PANELS_ACROSS], width) for i in range(0, len(shown), PANELS_ACROSS)
    ]
    if not lines:
        return []
    grid = [[*line, *([""] * (PANELS_ACROSS - len(line)))] for line in lines]
    widths = [width + PANEL_GAP, width + PANEL_GAP, width]
    drawn = Table(grid, colWidths=widths, style=bare(above=1, below=4), hAlign="LEFT")
    return [CondPageBreak(ROOM_FOR_PANELS), *section("The same numbers, drawn", LEAD), drawn]
