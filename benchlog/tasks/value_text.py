"""What is known of an attribute or figure of one specimen, as words, in the units wanted."""

from __future__ import annotations

from benchlog.derive.figure import Figure
from benchlog.derive.inputs import INPUT_WORDS
from benchlog.measure.finding import Finding
from benchlog.measure.finding_text import finding_text
from benchlog.measure.rounding import bounds_text, with_uncertainty
from benchlog.measure.state import State
from benchlog.measure.units import canonical, convert
from benchlog.settings import BOTH, INCH, METRIC
from benchlog.tasks.record import Record

NO_ANSWER = "no answer yet"
"""Stands where nobody answered; "not measured" is an answer, and stands where it was given."""

SIDE_BY_SIDE = " · "
"""Stands between a value in metric units and the same in inch units."""


def figure_text(figure: Figure, unit: str = "") -> str:
    """Return a derived figure in digits with its ±, its interval, its word, or why it has none.

    In its kind's own unit unless another is named. Prices stand in it as "money"; `value_text`
    knows the currency.
    """
    if figure.quantity is None:
        return figure.word if figure.word is not None else figure.refusal
    own, unit = figure.kind.unit, unit or figure.kind.unit
    if figure.low is not None and figure.high is not None:
        return bounds_text(convert(figure.low, own, unit), convert(figure.high, own, unit), unit)
    about = "about " if figure.estimate else ""
    return about + with_uncertainty(figure.quantity, unit)


def value_text(record: Record, subject: str, specimen_id: str, units: str = METRIC) -> str:
    """Return what is known of a subject (attribute or figure) of one specimen, in words.

    `units` is "metric", "inch", or "both" for one beside the other.
    """
    figure = record.figures.get((subject, specimen_id))
    if figure is not None:
        currency = next(s.currency for s in record.lineup.specimens if s.id == specimen_id)
        words = _figure_words(record, figure, specimen_id, units)
        return words.replace("money", currency or "money")
    finding = record.findings.get((subject, specimen_id))
    return (
        NO_ANSWER if finding is None or is_open(finding) else _finding_words(record, finding, units)
    )


def label_of(record: Record, subject: str) -> str:
    """Return what a subject is called; its key when neither attribute nor figure."""
    labels = {figure.kind.key: figure.kind.label for figure in record.figures.values()}
    labels.update((a.key, a.label) for a in record.sequence.attributes)
    return labels.get(subject, subject.replace("_", " "))


def is_open(finding: Finding) -> bool:
    """Whether nobody answered yet; an answer of any state, "not measured" too, is one."""
    return finding.state is State.NOT_MEASURED and not finding.readings


def shown_units(metric: str, inch: str, units: str) -> tuple[str, ...]:
    """Return the units to show a value in: one, or both where they differ and both are wanted."""
    inch = inch or metric
    if units == BOTH and canonical(metric) != canonical(inch):
        return metric, inch
    return (inch,) if units == INCH else (metric,)


def _figure_words(record: Record, figure: Figure, specimen_id: str, units: str) -> str:
    if figure.word is None and figure.quantity is None:
        return _refusal(record, figure, specimen_id)
    if figure.quantity is None:
        return figure_text(figure)
    wanted = shown_units(figure.kind.unit, figure.kind.inch_unit, units)
    return SIDE_BY_SIDE.join(figure_text(figure, unit) for unit in wanted)


def _refusal(record: Record, figure: Figure, specimen_id: str) -> str:
    """Return why there is no figure; an input that nobody answered is no deliberate state."""
    words = figure.refusal
    for key, name in INPUT_WORDS.items():
        finding = record.findings.get((key, specimen_id))
        if finding is None or is_open(finding):
            words = words.replace(f"No {name}: {State.NOT_MEASURED}.", f"No {name}: {NO_ANSWER}.")
    return words


def _finding_words(record: Record, finding: Finding, units: str) -> str:
    attribute = record.sequence.attribute(finding.attribute)
    if finding.quantity is None:
        labels = {choice.key: choice.label for choice in attribute.choices}
        words = finding_text(finding, attribute.unit)
        return labels.get(words, words) if finding.word is not None else words
    metric = attribute.unit or str(finding.quantity.units)
    wanted = shown_units(metric, attribute.inch_unit, units)
    return SIDE_BY_SIDE.join(finding_text(finding, unit) for unit in wanted)
