"""Measured values and figures, component by component, each followed by its small panels."""

from __future__ import annotations

from dataclasses import dataclass

from reportlab.platypus import CondPageBreak, Flowable, Table

from benchlog.derive.figure import FigureKind
from benchlog.judge.rules import AttributeRule
from benchlog.measure.state import State
from benchlog.sheet.dot_plot import Dot, DotPlot, Panel
from benchlog.sheet.flow import (
    LONGEST_IN_CELL,
    Cell,
    Heading,
    columns,
    gap,
    section,
    specimen_head,
    table,
)
from benchlog.sheet.numbers import spread
from benchlog.sheet.text import para, shortened
from benchlog.sheet.typography import FACE, SMALL, WHITE, Page
from benchlog.sheet.words import (
    Printed,
    figure_words,
    finding_words,
    is_claim,
    spread_of_finding,
)
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Attribute, Judged
from benchlog.trade.component import Component

LABELS = 118.0
PANELS_ACROSS = 3
PANEL_GAP = 16.0

LEAD = (
    "± holds about 95 % of what would be read if the same part were measured again here. It does "
    "not speak for other filters of the same part number. A value that is not there stands as "
    "the word that says why; ~ marks an estimate, with its interval."
)

PANEL_LEAD = (
    "One panel for each attribute, specimens in bench order. The bar is the same ± as in the "
    "table; a hollow mark is an estimate. The grey band is as wide as the smallest difference "
    "that the rules call meaningful: what lies in it together is too close to call."
)


@dataclass(frozen=True)
class _Row:
    """One line of the table and, where there are numbers, one panel."""

    label: str
    unit: str
    cells: tuple[Printed, ...]
    dots: tuple[Dot, ...]
    judged: Judged
    rule: AttributeRule | None
    formula: str = ""


def _attributes(record: Record, component: Component) -> list[Attribute]:
    found = {key for key, _ in record.findings}
    return [
        a for a in record.sequence.attributes
        if a.component is component
        and not is_claim(a)
        and not a.specimen_field
        and (a.key in record.lineup.attributes or a.key in found)
    ]  # fmt: skip


def _kinds(record: Record, component: Component) -> list[FigureKind]:
    kinds = {f.kind.key: f.kind for f in record.figures.values() if f.kind.component is component}
    return list(kinds.values())


def _rule(record: Record, subject: str) -> AttributeRule | None:
    return next((e for e in record.rules.entries if e.subject == subject), None)


def _attribute_row(record: Record, attribute: Attribute) -> _Row:
    cells, dots = [], []
    for specimen in record.lineup.specimens:
        finding = record.findings.get((attribute.key, specimen.id))
        printed = finding_words(finding, attribute)
        cells.append(printed)
        shown = spread_of_finding(finding, attribute)
        estimate = finding is not None and finding.state is State.ESTIMATE
        dots.append(Dot(specimen, shown, printed.main, estimate))
    return _Row(
        attribute.label, attribute.unit, tuple(cells), tuple(dots),
        attribute.judged, _rule(record, attribute.key),
    )  # fmt: skip


def _figure_row(record: Record, kind: FigureKind) -> _Row:
    cells, dots = [], []
    for specimen in record.lineup.specimens:
        figure = record.figures.get((kind.key, specimen.id))
        printed = figure_words(figure)
        cells.append(printed)
        quantity = figure.quantity if figure else None
        shown = None if quantity is None else spread(quantity, kind.unit)
        dots.append(Dot(specimen, shown, printed.main, bool(figure and figure.estimate)))
    formula = f"Worked out: {kind.formula}" + (f" [{kind.source}]" if kind.source else "")
    if kind.note:
        formula += f". {kind.note}"
    return _Row(
        kind.label, kind.unit, tuple(cells), tuple(dots), kind.judged,
        _rule(record, kind.key), formula,
    )  # fmt: skip


def _printed(cell: Printed) -> list[Flowable]:
    style = "cell_state" if cell.is_state else "cell"
    main = cell.main
    if len(main) > LONGEST_IN_CELL:
        main = shortened(main, LONGEST_IN_CELL - 20) + " (in full below)"
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

    def row(self, row: _Row) -> None:
        """Add a row, and beneath it across the table how its figures are worked out."""
        at = len(self.cells)
        self.cells.append([para(row.label, "label"), *map(_printed, row.cells)])
        if not row.formula:
            return
        self.cells.append([para(row.formula, "cell_muted"), *self._empty])
        self.style += [
            ("SPAN", (0, at + 1), (-1, at + 1)),
            ("NOSPLIT", (0, at), (-1, at + 1)),
            ("TOPPADDING", (0, at + 1), (-1, at + 1), 0),
            ("LINEBELOW", (0, at), (-1, at), 0.5, WHITE),
        ]


def _long_texts(record: Record, rows: list[_Row]) -> list[Flowable]:
    """Return in full the words that were too long for a cell."""
    texts: list[Flowable] = []
    for row in rows:
        for specimen, cell in zip(record.lineup.specimens, row.cells, strict=True):
            if len(cell.main) > LONGEST_IN_CELL:
                texts.append(para(f"{row.label}, {specimen.nickname}: {cell.main}", "note"))
    return texts


def _meaningful(row: _Row) -> float | None:
    """Return the band's width in the row's unit; None where the rules name no difference."""
    values = [dot.shown.value for dot in row.dots if dot.shown]
    if row.rule is None or row.rule.meaningful <= 0 or not values:
        return None
    if row.rule.meaningful_is_share:
        return row.rule.meaningful * min(abs(v) for v in values)
    return row.rule.meaningful if row.rule.unit in ("", row.unit) else None


def _panels(page: Page, rows: list[_Row]) -> list[Flowable]:
    width = (page.content - (PANELS_ACROSS - 1) * PANEL_GAP) / PANELS_ACROSS
    plots: list[Flowable] = [
        DotPlot(Panel(row.label, row.unit, row.dots, row.judged, _meaningful(row)), width)
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
    panels = Table(grid, colWidths=widths, style=style, hAlign="LEFT")
    return [gap(24), CondPageBreak(260), *section("The same numbers, drawn", PANEL_LEAD), panels]


def values_pages(record: Record, page: Page) -> list[Flowable]:
    """Return the section of values: one table by component, then a panel for every number."""
    widths = columns(page.content, LABELS, len(record.lineup.specimens))
    lines = _Lines(record, widths)
    everything: list[_Row] = []
    for component in Component:
        rows = [_attribute_row(record, a) for a in _attributes(record, component)]
        rows += [_figure_row(record, kind) for kind in _kinds(record, component)]
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
        *_long_texts(record, everything),
        *_panels(page, everything),
    ]
