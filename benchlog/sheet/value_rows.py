"""The rows of values: one for each attribute and figure, the same for table and panels."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from benchlog.derive.figure import FigureKind
from benchlog.judge.rules import AttributeRule
from benchlog.measure.state import State
from benchlog.sheet.dot_plot import Dot
from benchlog.sheet.numbers import spread
from benchlog.sheet.words import (
    Printed,
    figure_words,
    finding_words,
    is_claim,
    spread_of_finding,
    was_noted,
)
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Attribute, Judged, Kind
from benchlog.trade.component import Component

CONTACT_PRESSURE = "contact_pressure"


@dataclass(frozen=True)
class Row:
    """One attribute or figure over all specimens, in bench order.

    `formula` tells how a figure is worked out; `note` what keeps the values from being compared.
    """

    label: str
    unit: str
    cells: tuple[Printed, ...]
    dots: tuple[Dot, ...]
    judged: Judged
    rule: AttributeRule | None
    formula: str = ""
    note: str = ""


def rows_of(record: Record, component: Component) -> list[Row]:
    """Return the rows of one component: what was asked or found, then what was worked out."""
    found = {key for key, _ in record.findings} | set(record.lineup.attributes)
    noted = {key for (key, _), finding in record.findings.items() if was_noted(finding)}
    attributes = [
        a for a in record.sequence.attributes
        if a.component is component
        and not is_claim(a)
        and not a.specimen_field
        and (a.key in noted if a.kind is Kind.TEXT else a.key in found)
    ]  # fmt: skip
    kinds = {f.kind.key: f.kind for f in record.figures.values() if f.kind.component is component}
    rows = [_attribute_row(record, attribute) for attribute in attributes]
    return rows + [_figure_row(record, kind) for kind in kinds.values()]


def _rule(record: Record, subject: str) -> AttributeRule | None:
    return next((e for e in record.rules.entries if e.subject == subject), None)


def _feet(comparable_when: tuple[str, ...], pressures: Iterable[float | None]) -> str:
    """Return what to say when feet of different pressure stood on the specimens, else ""."""
    feet = sorted({p for p in pressures if p is not None})
    if len(feet) < 2 or CONTACT_PRESSURE not in comparable_when:
        return ""
    return f"foot {' and '.join(f'{p:g}' for p in feet)} kPa: not compared"


def _attribute_row(record: Record, attribute: Attribute) -> Row:
    found = [record.findings.get((attribute.key, s.id)) for s in record.lineup.specimens]
    cells = tuple(finding_words(finding, attribute) for finding in found)
    dots = tuple(
        Dot(
            specimen, spread_of_finding(finding, attribute), cell.main,
            finding is not None and finding.state is State.ESTIMATE,
        )
        for specimen, finding, cell in zip(record.lineup.specimens, found, cells, strict=True)
    )  # fmt: skip
    note = _feet(attribute.comparable_when, (f.contact_pressure_kpa for f in found if f))
    return Row(
        attribute.label, attribute.unit, cells, dots, attribute.judged,
        _rule(record, attribute.key), note=note,
    )  # fmt: skip


def _figure_row(record: Record, kind: FigureKind) -> Row:
    found = [record.figures.get((kind.key, s.id)) for s in record.lineup.specimens]
    currencies = [s.currency for s in record.lineup.specimens]
    cells = tuple(map(figure_words, found, currencies))
    dots = []
    for specimen, figure, cell in zip(record.lineup.specimens, found, cells, strict=True):
        quantity = figure.quantity if figure else None
        shown = None if quantity is None else spread(quantity, kind.unit)
        dots.append(Dot(specimen, shown, cell.main, bool(figure and figure.estimate)))
    formula = f"Worked out: {kind.formula}" + (f" [{kind.source}]" if kind.source else "")
    if kind.note:
        formula += f". {kind.note}"
    note = _feet(kind.comparable_when, (f.contact_pressure_kpa for f in found if f))
    return Row(
        kind.label, kind.unit, cells, tuple(dots), kind.judged, _rule(record, kind.key),
        formula, note,
    )  # fmt: skip


def meaningful_in_unit(row: Row) -> float | None:
    """Return the meaningful difference in the row's unit; None where the rules name none.

    A share is one of the smallest value there is, as the rules have it.
    """
    values = [abs(dot.shown.value) for dot in row.dots if dot.shown]
    if row.rule is None or row.rule.meaningful <= 0 or not values or row.note:
        return None
    if row.rule.meaningful_is_share:
        return row.rule.meaningful * min(values)
    return row.rule.meaningful if row.rule.unit in ("", row.unit) else None
