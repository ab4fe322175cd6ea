"""Measured values and figures as one table, component by component."""

from __future__ import annotations

from reportlab.platypus import Flowable

from benchlog.sheet.flow import (
    Cell,
    Heading,
    columns,
    gap,
    longest_in,
    section,
    specimen_head,
    table,
)
from benchlog.sheet.panels import panels
from benchlog.sheet.text import para, shortened
from benchlog.sheet.typography import WHITE, Page
from benchlog.sheet.value_rows import Row, rows_of
from benchlog.sheet.words import Printed
from benchlog.tasks.record import Record
from benchlog.trade.component import Component

LABELS = 108.0

LEAD = (
    "± holds about 95 % of what would be read if the same part were measured again here. It does "
    "not speak for other filters of the same part number. A value that is not there stands as "
    "the word that says why; ~ marks an estimate, with its interval."
)


def _printed(cell: Printed, width: float) -> list[Flowable]:
    style = "cell_state" if cell.is_state else "cell"
    main = cell.main
    if len(main) > longest_in(width):
        main = shortened(main, longest_in(width) - 20) + " (in full below)"
    parts = [para(main, style)]
    if cell.beneath:
        parts.append(para("\n".join(cell.beneath), "cell_muted"))
    return list(parts)


class _Lines:
    """The table's lines as they grow, with the style that some of them want."""

    def __init__(self, record: Record, widths: list[float]) -> None:
        specimens = record.lineup.specimens
        heads = [specimen_head(s, w) for s, w in zip(specimens, widths[1:], strict=True)]
        self.cells: list[list[Cell]] = [["", *heads]]
        self.style: list[tuple[object, ...]] = []
        self._column = widths[-1]
        self._empty: list[Cell] = [""] * len(specimens)

    def component(self, component: Component) -> None:
        """Add a component's heading across the table, never parted from the line below it."""
        at = len(self.cells)
        self.cells.append([Heading(component.value.capitalize(), 1), *self._empty])
        self.style += [
            ("SPAN", (0, at), (-1, at)),
            ("NOSPLIT", (0, at), (-1, at + 1)),
            ("TOPPADDING", (0, at), (-1, at), 12),
            ("BOTTOMPADDING", (0, at), (-1, at), 1),
        ]

    def row(self, row: Row) -> None:
        """Add a row, and beneath it across the table how its figures are worked out."""
        at = len(self.cells)
        cells = [_printed(cell, self._column) for cell in row.cells]
        self.cells.append([para(row.label, "label"), *cells])
        if not row.formula:
            return
        self.cells.append([para(row.formula, "cell_muted"), *self._empty])
        self.style += [
            ("SPAN", (0, at + 1), (-1, at + 1)),
            ("NOSPLIT", (0, at), (-1, at + 1)),
            ("TOPPADDING", (0, at + 1), (-1, at + 1), 0),
            ("LINEBELOW", (0, at), (-1, at), 0.5, WHITE),
        ]


def _long_texts(record: Record, rows: list[Row], width: float) -> list[Flowable]:
    """Return in full the words that were too long for a cell."""
    texts: list[Flowable] = []
    for row in rows:
        for specimen, cell in zip(record.lineup.specimens, row.cells, strict=True):
            if len(cell.main) > longest_in(width):
                texts.append(para(f"{row.label}, {specimen.nickname}: {cell.main}", "note"))
    return [gap(8), *texts] if texts else []


def values_pages(record: Record, page: Page) -> list[Flowable]:
    """Return the section of values: one table by component, then a panel for every number."""
    widths = columns(page.content, LABELS, len(record.lineup.specimens))
    lines = _Lines(record, widths)
    everything: list[Row] = []
    for component in Component:
        rows = rows_of(record, component)
        if rows:
            lines.component(component)
        for row in rows:
            lines.row(row)
        everything += rows
    if not everything:
        return [*section("What was measured", LEAD), para("Nothing was recorded.")]
    return [
        *section("What was measured", LEAD),
        table(lines.cells, widths, more=lines.style),
        *_long_texts(record, everything, widths[-1]),
        *panels(page, everything),
    ]
