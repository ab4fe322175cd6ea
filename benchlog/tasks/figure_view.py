"""The derived figures of a record as they are shown, and the sum behind each."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.derive.figure import Figure, FigureKind
from benchlog.derive.sum_shown import Share, budget
from benchlog.measure.reading import Reading
from benchlog.measure.rounding import as_is
from benchlog.measure.units import unit_symbol
from benchlog.tasks.look import shown
from benchlog.tasks.record import Record
from benchlog.tasks.verdict_view import label_of, value_text
from benchlog.trade.component import Component


@dataclass(frozen=True)
class FigureRow:
    """One figure of a component, its text for every specimen in bench order."""

    kind: FigureKind
    texts: tuple[str, ...]


@dataclass(frozen=True)
class Sum:
    """One figure's sum, laid open in words.

    `inputs` pair a label with what went in; `shares` say what each source of uncertainty adds;
    `readings` are those it rests on, as told.
    """

    title: str
    result: str
    formula: str
    inputs: tuple[tuple[str, str], ...]
    shares: tuple[str, ...]
    readings: tuple[str, ...]
    source: str
    note: str


def figure_rows(record: Record, component: Component) -> tuple[FigureRow, ...]:
    """Return the figures of one component that any specimen was asked the inputs of."""
    kinds = {f.kind.key: f.kind for f in record.figures.values() if f.kind.component == component}
    rows = (FigureRow(kind, _texts(record, kind)) for kind in kinds.values())
    return tuple(row for row in rows if _has_input(record, row.kind))


def sum_of(record: Record, key: str, specimen_id: str) -> Sum:
    """Return the sum of one figure of one specimen; raises KeyError for an unknown one."""
    figure = record.figures[key, specimen_id]
    specimen = next(s for s in record.lineup.specimens if s.id == specimen_id)
    findings = {a: f for (a, s), f in record.findings.items() if s == specimen_id}
    used = set(figure.readings)
    return Sum(
        title=f"{specimen.nickname} · {figure.kind.label}",
        result=value_text(record, key, specimen_id),
        formula=figure.kind.formula,
        inputs=tuple(
            (label_of(record, key), value_text(record, key, specimen_id))
            for key in figure.kind.inputs
            if (key, specimen_id) in record.findings or (key, specimen_id) in record.figures
        ),
        shares=tuple(_share_text(record, figure, s) for s in budget(figure, findings)),
        readings=tuple(_reading_text(record, r) for r in record.readings if r.id in used),
        source=figure.kind.source,
        note=figure.kind.note,
    )


def _texts(record: Record, kind: FigureKind) -> tuple[str, ...]:
    return tuple(value_text(record, kind.key, s.id) for s in record.lineup.specimens)


def _has_input(record: Record, kind: FigureKind) -> bool:
    return any(record.figures[kind.key, s.id].readings for s in record.lineup.specimens)


def _share_text(record: Record, figure: Figure, share: Share) -> str:
    names = " and ".join(label_of(record, key) for key in share.source.split(" + "))
    width = f"{as_is(float(f'{share.contribution:.2g}'))} {unit_symbol(figure.kind.unit)}".rstrip()
    return f"{names}: {100 * share.share:.0f} % of the variance, {width}"


def _reading_text(record: Record, reading: Reading) -> str:
    attribute = record.sequence.attribute(reading.attribute)
    return f"{attribute.label} {reading.ordinal}: {shown(reading, attribute)}"
