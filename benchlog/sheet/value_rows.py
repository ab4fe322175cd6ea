"""The rows of values: one for each attribute and figure, the same for tables and panels."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from benchlog.derive.figure import Figure, FigureKind
from benchlog.errors import OurFault
from benchlog.judge.rules import AttributeRule
from benchlog.measure.state import State
from benchlog.measure.units import convert
from benchlog.settings import INCH, METRIC
from benchlog.sheet.dots import Dot
from benchlog.sheet.value_words import (
    Printed,
    claim_words,
    figure_words,
    finding_words,
    short_reason,
    spread_of_figure,
    spread_of_finding,
    was_noted,
)
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import value_text
from benchlog.trade.attribute import Attribute, Judged, Kind
from benchlog.trade.component import Component

CONTACT_PRESSURE = "contact_pressure"

CLAIMED = ("claim", "capacity_stands")
"""How the keys of claims begin, and of figures that do no more than turn a claim over."""

COMPARED = (Judged.MORE, Judged.LESS, Judged.BAND, Judged.AMPLE, Judged.DIFFERENT)


@dataclass(frozen=True)
class Row:
    """One attribute or figure over all specimens, in bench order.

    `note` tells what keeps the values from being compared, `beside` what must stand beside them.
    `wanting` marks a figure that nobody has the readings for: it is only named. `stated` marks
    one that rests on stated conditions alone, and so says nothing of a specimen.
    """

    key: str
    label: str
    component: Component
    station: str
    unit: str
    cells: tuple[Printed, ...]
    dots: tuple[Dot, ...]
    judged: Judged
    rule: AttributeRule | None
    note: str = ""
    beside: str = ""
    wanting: bool = False
    stated: bool = False

    @property
    def is_claim(self) -> bool:
        """Whether it holds a maker's claim, which is printed and never tested here."""
        return self.key.startswith(CLAIMED) or self.key == "box_claims"

    @property
    def is_compared(self) -> bool:
        """Whether numbers of several specimens stand to be compared, and are not all the same."""
        numbers = [dot.shown for dot in self.dots if dot.shown is not None]
        exact = all(shown.low == shown.high for shown in numbers)
        alike = len({shown.value for shown in numbers}) == 1
        ruled = self.rule is not None and self.judged in COMPARED
        return ruled and not self.note and len(numbers) > 1 and not (exact and alike)


def all_rows(record: Record, units: str = METRIC) -> list[Row]:
    """Return every row of a record, in the order of components: found first, then worked out."""
    return [row for component in Component for row in rows_of(record, component, units)]


def rows_of(record: Record, component: Component, units: str = METRIC) -> list[Row]:
    """Return the rows of one component: what was asked or found, then what was worked out."""
    found = {key for key, _ in record.findings} | set(record.lineup.attributes)
    noted = {key for (key, _), finding in record.findings.items() if was_noted(finding)}
    attributes = [
        a for a in record.sequence.attributes
        if a.component is component
        and not a.specimen_field
        and (a.key in noted if a.kind is Kind.TEXT else a.key in found)
    ]  # fmt: skip
    kinds = {f.kind.key: f.kind for f in record.figures.values() if f.kind.component is component}
    rows = [attribute_row(record, attribute, units) for attribute in attributes]
    return rows + [_figure_row(record, kind, units) for kind in kinds.values()]


def attribute_row(record: Record, attribute: Attribute, units: str = METRIC) -> Row:
    """Return the row of one attribute, asked or not."""
    unit = _shown_in(attribute.unit, attribute.inch_unit, units)
    found = [record.findings.get((attribute.key, s.id)) for s in record.lineup.specimens]
    doubted = [
        finding is not None and any(r.id in record.in_doubt for r in finding.readings)
        for finding in found
    ]
    words = claim_words if attribute.key.startswith(CLAIMED) else finding_words
    cells = tuple(
        words(finding, attribute, units, doubted=doubt)
        for finding, doubt in zip(found, doubted, strict=True)
    )
    dots = tuple(
        Dot(
            specimen, spread_of_finding(finding, unit), short_reason(cell),
            estimate=finding is not None and finding.state is State.ESTIMATE,
            bounded=finding is not None and finding.low is not None
            and finding.state is State.MEASURED,
        )
        for specimen, finding, cell in zip(record.lineup.specimens, found, cells, strict=True)
    )  # fmt: skip
    note = _feet(attribute.comparable_when, (f.contact_pressure_kpa for f in found if f))
    return Row(
        attribute.key, attribute.label, attribute.component, attribute.station, unit, cells, dots,
        attribute.judged, _rule(record, attribute.key), note,
    )  # fmt: skip


def _figure_row(record: Record, kind: FigureKind, units: str) -> Row:
    unit = _shown_in(kind.unit, kind.inch_unit, units)
    specimens = record.lineup.specimens
    found = [record.figures.get((kind.key, s.id)) for s in specimens]
    cells = tuple(
        figure_words(
            figure, s.currency, units,
            refusal=value_text(record, kind.key, s.id, units) if figure and figure.refusal else "",
            doubted=figure is not None and not record.in_doubt.isdisjoint(figure.readings),
        )
        for s, figure in zip(specimens, found, strict=True)
    )  # fmt: skip
    dots = tuple(
        Dot(
            s, spread_of_figure(figure, unit), short_reason(cell),
            estimate=bool(figure and figure.estimate),
            bounded=figure is not None and figure.low is not None,
        )
        for s, figure, cell in zip(specimens, found, cells, strict=True)
    )  # fmt: skip
    there = [figure for figure in found if figure is not None]
    note = _feet(kind.comparable_when, (f.contact_pressure_kpa for f in there))
    return Row(
        kind.key, kind.label, kind.component, "", unit, cells, dots, kind.judged,
        _rule(record, kind.key), note,
        beside=kind.beside if any(not f.refusal for f in there) else "",
        wanting=all(map(_is_wanting, there)),
        stated=bool(there) and not any(f.refusal or f.readings for f in there),
    )  # fmt: skip


def _is_wanting(figure: Figure) -> bool:
    """Whether a figure was refused because readings are not there."""
    return bool(figure.refusal) and (not figure.readings or figure.refusal.startswith("No "))


def _shown_in(metric: str, inch: str, units: str) -> str:
    return (inch or metric) if units == INCH else metric


def _rule(record: Record, subject: str) -> AttributeRule | None:
    return next((e for e in record.rules.entries if e.subject == subject), None)


def _feet(comparable_when: tuple[str, ...], pressures: Iterable[float | None]) -> str:
    """Return what to say when feet of different pressure stood on the specimens, else "".

    Which feet they were stands beside each value.
    """
    feet = sorted({p for p in pressures if p is not None})
    if len(feet) < 2 or CONTACT_PRESSURE not in comparable_when:
        return ""
    return "unlike feet: not compared"


def meaningful_in_unit(row: Row) -> float | None:
    """Return the meaningful difference in the row's unit; None where the rules name none.

    A share is one of the smallest value there is, as the rules have it.
    """
    values = [abs(dot.shown.value) for dot in row.dots if dot.shown]
    rule = row.rule
    if rule is None or rule.meaningful <= 0 or not values or row.note:
        return None
    if rule.meaningful_is_share:
        return rule.meaningful * min(values)
    if rule.unit in ("", row.unit):
        return rule.meaningful
    try:
        return convert(rule.meaningful, rule.unit, row.unit) - convert(0.0, rule.unit, row.unit)
    except OurFault:
        return None
