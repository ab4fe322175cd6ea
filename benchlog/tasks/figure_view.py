"""The derived figures of a record as they are shown, and the sum behind any of its numbers."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.derive.figure import Figure, FigureKind
from benchlog.derive.sum_shown import Budget, Share, budget, budget_of, budget_of_finding
from benchlog.measure.finding import Finding
from benchlog.measure.reading import Reading
from benchlog.measure.repeats import values_of
from benchlog.measure.state import State
from benchlog.measure.units import convert
from benchlog.settings import INCH, METRIC
from benchlog.tasks.budget_view import (
    BudgetRow,
    amount,
    budget_rows,
    coverage_words,
    instrument_words,
    source_words,
    term_label,
    term_text,
)
from benchlog.tasks.look import shown
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import is_open, label_of, value_text
from benchlog.trade.attribute import Attribute, Kind
from benchlog.trade.component import Component


@dataclass(frozen=True)
class FigureRow:
    """One figure of a component: for every specimen in bench order its text and warnings."""

    kind: FigureKind
    texts: tuple[str, ...]
    warnings: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class SumInput:
    """One input of a sum: its value in words, and each reading behind it with its instrument.

    `taken_with` says of each of `readings` with what it was taken. `note` is the sentence of an
    assumption or of a stated condition; of a reading, what the scatter of its repeats rests on
    and what its ± leaves out.
    """

    key: str
    label: str
    text: str
    readings: tuple[str, ...] = ()
    taken_with: tuple[str, ...] = ()
    note: str = ""

    @property
    def by_instrument(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Each instrument with the readings taken with it, in the order of its first one."""
        grouped: dict[str, tuple[str, ...]] = {}
        for reading, tool in zip(self.readings, self.taken_with, strict=True):
            grouped[tool] = (*grouped.get(tool, ()), reading)
        return tuple(grouped.items())


@dataclass(frozen=True)
class Sum:
    """One number's sum, laid open in words.

    `inputs` are what went in, `rows` the uncertainty budget with its foot in `coverage`, and
    `shares` the same in one sentence an input. `readings` are all that it rests on. `assumed`
    was taken without a reading; `beside` must stand wherever the number does.
    """

    title: str
    result: str
    formula: str
    inputs: tuple[SumInput, ...]
    rows: tuple[BudgetRow, ...]
    coverage: str
    shares: tuple[str, ...]
    readings: tuple[str, ...]
    assumed: tuple[str, ...]
    warnings: tuple[str, ...]
    beside: str
    source: str
    note: str


def figure_rows(
    record: Record, component: Component, units: str = METRIC, *, every: bool = False
) -> tuple[FigureRow, ...]:
    """Return the figures of one component that some input was read for, or every one of them."""
    kinds = {f.kind.key: f.kind for f in record.figures.values() if f.kind.component == component}
    return tuple(
        FigureRow(kind, _texts(record, kind, units), _warnings(record, kind))
        for kind in kinds.values()
        if every or _has_input(record, kind)
    )


def sum_of(record: Record, key: str, specimen_id: str, units: str = METRIC) -> Sum:
    """Return the sum of one figure or attribute of one specimen, in the units wanted.

    A word or a refusal has a sum too, without a budget. Raises KeyError for what is neither.
    """
    figure = record.figures.get((key, specimen_id))
    if figure is not None:
        return _of_figure(record, figure, units)
    return _of_finding(record, record.findings[key, specimen_id], units)


def _of_figure(record: Record, figure: Figure, units: str) -> Sum:
    kind, used = figure.kind, set(figure.readings)
    unit = (kind.inch_unit or kind.unit) if units == INCH else kind.unit
    whole = budget_of(figure)
    return Sum(
        title=f"{_nickname(record, figure.specimen_id)} · {kind.label}",
        result=value_text(record, kind.key, figure.specimen_id, units),
        formula=kind.formula,
        inputs=(*_inputs(record, figure, units), *_assumptions(record, figure, whole, units)),
        rows=_in_currency(record, figure.specimen_id, budget_rows(record, whole, unit, units))
        if whole
        else (),
        coverage=_coverage(record, figure, whole, unit),
        shares=tuple(_share_text(record, figure, s, unit) for s in budget(figure)),
        readings=tuple(_named_reading(record, r) for r in record.readings if r.id in used),
        assumed=figure.assumed,
        warnings=figure.warnings,
        beside=kind.beside,
        source=kind.source,
        note=kind.note,
    )


def _of_finding(record: Record, finding: Finding, units: str) -> Sum:
    attribute = record.sequence.attribute(finding.attribute)
    whole = budget_of_finding(finding)
    unit = attribute.unit or (whole.unit if whole else "")
    unit = (attribute.inch_unit or unit) if units == INCH else unit
    rows = budget_rows(record, whole, unit, units) if whole else ()
    mixed = "The repeats were taken under different foot pressures: compared with no other."
    return Sum(
        title=f"{_nickname(record, finding.specimen_id)} · {attribute.label}",
        result=value_text(record, finding.attribute, finding.specimen_id, units),
        formula=_how_read(finding, whole, copied=attribute.copied),
        inputs=(_input(record, finding, units),) if finding.readings else (),
        rows=rows,
        coverage=_coverage_of_finding(attribute, whole, unit),
        shares=tuple(
            f"{row.label}: {row.share_text} of the variance, {row.contribution}" for row in rows
        ),
        readings=tuple(_named_reading(record, reading) for reading in finding.readings),
        assumed=(),
        warnings=(mixed,) if finding.mixed_pressure else (),
        beside="",
        source=attribute.source,
        note=f"{attribute.method[:1].upper()}{attribute.method[1:]}. {attribute.warning}".strip(),
    )


def _coverage_of_finding(attribute: Attribute, whole: Budget | None, unit: str) -> str:
    if whole is None:
        return ""
    if attribute.copied and not whole.u:
        return "Copied, not measured: what is marked or claimed has no uncertainty of ours."
    return coverage_words(whole, unit)


def _how_read(finding: Finding, whole: Budget | None, *, copied: bool) -> str:
    """Return how a finding comes from its readings, in words and signs."""
    if not finding.readings:
        return "nothing was read"
    if whole is None:
        return "as answered last"
    many = len(values_of(finding))
    if copied and not whole.u:
        return "x, as copied"
    if many < 2:
        return "x, as read once"
    if not whole.u:
        return f"n, the same in {many} counts"
    if any(source.name.endswith("/counts") for source in whole.sources):
        return f"n, from {many} counts that do not agree"
    return f"x̄ = Σ xᵢ ÷ {many}: the mean of {many} readings"


def _coverage(record: Record, figure: Figure, whole: Budget | None, unit: str) -> str:
    if whole is None:
        return ""
    if figure.low is not None and not whole.u:
        return "Worked from what is stated, which is taken as exact."
    if figure.low is not None:
        return (
            "An estimate between bounds, so that no ± is printed. "
            f"u = {amount(whole.u * _step(whole.unit, unit), unit)} if the assumed intervals "
            "are taken as rectangular."
        ).replace("money", _currency(record, figure.specimen_id))
    return coverage_words(whole, unit).replace("money", _currency(record, figure.specimen_id))


def _inputs(record: Record, figure: Figure, units: str) -> tuple[SumInput, ...]:
    """Return the attributes that went in; for a refusal, those that were asked."""
    used, found = set(figure.readings), []
    for key in figure.kind.inputs:
        finding = record.findings.get((key, figure.specimen_id))
        if finding is None:
            continue
        if figure.refusal or any(reading.id in used for reading in finding.readings):
            found.append(_input(record, finding, units))
    return tuple(found)


def _input(record: Record, finding: Finding, units: str) -> SumInput:
    attribute = record.sequence.attribute(finding.attribute)
    tools = {i.id: instrument_words(i) for i in record.instruments}
    return SumInput(
        key=finding.attribute,
        label=attribute.label,
        text=value_text(record, finding.attribute, finding.specimen_id, units),
        readings=tuple(f"{r.ordinal}: {shown(r, attribute)}" for r in finding.readings),
        taken_with=tuple(
            tools.get(r.instrument_id or "", r.source.value) for r in finding.readings
        ),
        note="" if is_open(finding) else _rests_on(finding, attribute),
    )


def _rests_on(finding: Finding, attribute: Attribute) -> str:
    """Return what the scatter of a reading rests on, and what its ± leaves out."""
    said = [finding.scatter] if finding.scatter else []
    measured = finding.state is State.MEASURED and finding.low is None and not attribute.copied
    if measured and attribute.kind is Kind.QUANTITY and finding.quantity is not None:
        if len(values_of(finding)) < 2 and not finding.scatter:
            said.append("Read once: how repeats would scatter is not in its ±.")
        if finding.taken_with == ("",):
            said.append("No instrument is named: its permissible error is not in its ±.")
    return " ".join(said)


def _assumptions(
    record: Record, figure: Figure, whole: Budget | None, units: str
) -> tuple[SumInput, ...]:
    currency = _currency(record, figure.specimen_id)
    return tuple(
        SumInput(
            key=term.key,
            label=term_label(record, term),
            text=term_text(record, term, units).replace("money", currency),
            note=term.assumed,
        )
        for term in (whole.terms if whole else ())
        if term.assumed
    )


def _texts(record: Record, kind: FigureKind, units: str) -> tuple[str, ...]:
    return tuple(value_text(record, kind.key, s.id, units) for s in record.lineup.specimens)


def _warnings(record: Record, kind: FigureKind) -> tuple[tuple[str, ...], ...]:
    return tuple(record.figures[kind.key, s.id].warnings for s in record.lineup.specimens)


def _has_input(record: Record, kind: FigureKind) -> bool:
    return any(record.figures[kind.key, s.id].readings for s in record.lineup.specimens)


def _share_text(record: Record, figure: Figure, share: Share, unit: str) -> str:
    names = " and ".join(_source_label(record, figure, key) for key in share.source.split(" + "))
    width = amount(share.contribution * _step(figure.kind.unit, unit), unit)
    words = f"{names}: {100 * share.share:.0f} % of the variance, {width}"
    return words.replace("money", _currency(record, figure.specimen_id))


def _source_label(record: Record, figure: Figure, key: str) -> str:
    if any(term.key == key for term in figure.terms):
        label = label_of(record, key)
        return label[:1].upper() + label[1:]
    whole = budget_of(figure)
    found = (s for s in (whole.sources if whole else ()) if s.name == key)
    return next((source_words(record, source) for source in found), key)


def _named_reading(record: Record, reading: Reading) -> str:
    attribute = record.sequence.attribute(reading.attribute)
    return f"{attribute.label} {reading.ordinal}: {shown(reading, attribute)}"


def _in_currency(
    record: Record, specimen_id: str, rows: tuple[BudgetRow, ...]
) -> tuple[BudgetRow, ...]:
    currency = _currency(record, specimen_id)
    return tuple(row.speaking(currency) for row in rows)


def _nickname(record: Record, specimen_id: str) -> str:
    return next(s.nickname for s in record.lineup.specimens if s.id == specimen_id)


def _currency(record: Record, specimen_id: str) -> str:
    found = next(s.currency for s in record.lineup.specimens if s.id == specimen_id)
    return found or "money"


def _step(from_unit: str, to_unit: str) -> float:
    return convert(1.0, from_unit, to_unit) - convert(0.0, from_unit, to_unit)
