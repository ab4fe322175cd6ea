"""What one finding or figure prints as in a cell: its number with its doubt, or its word."""

from __future__ import annotations

import re
from dataclasses import dataclass

from benchlog.derive.figure import Figure
from benchlog.measure.finding import Finding
from benchlog.measure.repeats import counted
from benchlog.measure.rounding import bounds_text, estimate_text, interval_text
from benchlog.measure.state import State
from benchlog.measure.units import convert
from benchlog.settings import METRIC
from benchlog.sheet.numbers import Spread, number_with_unit, spread
from benchlog.sheet.said_text import said
from benchlog.tasks.value_text import NO_ANSWER, is_open, shown_units
from benchlog.trade.attribute import Attribute, Kind

ONE_REASON = re.compile(r"No [^:.]+: ([^.:]+)\.")
"""A refusal that names one input and why there is none."""


@dataclass(frozen=True)
class Printed:
    """One cell's words: `main`, what stands beneath it, and whether `main` is a state's word.

    `also` is the same number in another unit, where both are wanted. `warnings` are sentences for
    a footnote; `doubted` marks a value that rests on a reading which a failed check speaks against.
    """

    main: str
    beneath: tuple[str, ...] = ()
    is_state: bool = False
    warnings: tuple[str, ...] = ()
    doubted: bool = False
    also: str = ""


def choice_label(attribute: Attribute, word: str) -> str:
    """Return what a choice's key shows; the word itself for text, yes and no."""
    for choice in attribute.choices:
        if choice.key == word:
            return choice.label
    return word


def foot(pressure_kpa: float | None) -> tuple[str, ...]:
    """Return the line that states a foot's pressure, where it matters."""
    return () if pressure_kpa is None else (f"foot {pressure_kpa:g}\u00a0kPa",)


def spread_of_finding(finding: Finding | None, unit: str) -> Spread | None:
    """Return the number behind a finding in `unit`; None when there is none.

    The interval is the one that was said for estimates and marked ranges, else the expanded one.
    """
    if finding is None or not finding.state.has_value or finding.quantity is None:
        return None
    shown = spread(finding.quantity, unit)
    if finding.low is None or finding.high is None:
        return shown
    own = str(finding.quantity.units)
    low, high = (convert(end, own, shown.unit) for end in (finding.low, finding.high))
    return Spread(shown.value, low, high, shown.unit)


def spread_of_figure(figure: Figure | None, unit: str) -> Spread | None:
    """Return the number behind a figure in `unit`, with its bounds where it has some."""
    if figure is None or figure.quantity is None:
        return None
    shown = spread(figure.quantity, unit)
    if figure.low is None or figure.high is None:
        return shown
    own = figure.kind.unit
    low, high = (convert(end, own, shown.unit) for end in (figure.low, figure.high))
    return Spread(shown.value, low, high, shown.unit)


def was_noted(finding: Finding | None) -> bool:
    """Whether anything at all was recorded for a finding, a reason for no value included."""
    return finding is not None and (finding.word is not None or bool(finding.readings))


def finding_words(
    finding: Finding | None, attribute: Attribute, units: str = METRIC, *, doubted: bool = False
) -> Printed:
    """Return what a finding prints as; a slot without answer says so, a text nothing noted."""
    if attribute.kind is Kind.TEXT and not was_noted(finding):
        return Printed("nothing noted", is_state=True)
    if finding is None or is_open(finding):
        return Printed(NO_ANSWER, is_state=True)
    if not finding.state.has_value:
        return Printed(finding.state.value, is_state=True)
    if finding.quantity is None:
        word = choice_label(attribute, finding.word or "")
        mark = "~" if finding.state is State.ESTIMATE else ""
        return Printed(mark + word) if word else Printed(NO_ANSWER, is_state=True)
    metric = attribute.unit or str(finding.quantity.units)
    main, *others = (
        number_of_finding(finding, unit) for unit in shown_units(metric, attribute.inch_unit, units)
    )
    estimate = ("estimate",) if finding.state is State.ESTIMATE else ()
    feet = ("feet of several pressures",) if finding.mixed_pressure else ()
    beneath = (*estimate, *_repeats(finding), *foot(finding.contact_pressure_kpa), *feet)
    return Printed(main, beneath, doubted=doubted, also="".join(others))


def claim_words(
    finding: Finding | None, attribute: Attribute, units: str = METRIC, *, doubted: bool = False
) -> Printed:
    """Return a maker's claim as it was said: a number on a box has no uncertainty of ours."""
    if finding is None or finding.quantity is None or not finding.readings:
        return finding_words(finding, attribute, units, doubted=doubted)
    texts = dict.fromkeys(said(r) for r in counted(finding.readings))
    return Printed(" / ".join(texts), doubted=doubted)


def number_of_finding(finding: Finding, unit: str) -> str:
    """Return a finding's number: with its ±, or ends for a range, or ~ for an estimate."""
    shown = spread_of_finding(finding, unit)
    if shown is None or finding.quantity is None:
        return finding.state.value
    if finding.low is None or finding.high is None:
        mark = "~" if finding.state is State.ESTIMATE else ""
        return mark + number_with_unit(finding.quantity, shown.unit)
    if finding.state is State.ESTIMATE:
        said = estimate_text(shown.value, shown.low, shown.high, shown.unit)
        return said.replace("about ", "~", 1)
    return interval_text(shown.low, shown.high, shown.unit)


def _repeats(finding: Finding) -> tuple[str, ...]:
    count = len(counted(finding.readings))
    return (f"n\u00a0=\u00a0{count}",) if count else ()


def figure_words(
    figure: Figure | None,
    currency: str = "",
    units: str = METRIC,
    *,
    refusal: str = "",
    doubted: bool = False,
) -> Printed:
    """Return what a derived figure prints as: its number, its word, or why there is neither.

    An estimate between bounds prints as its interval, never with a ±. `currency` stands in the
    place of the unit of money, where the figure has one; `refusal` in that of the figure's own.
    """
    if figure is None:
        return Printed("not worked out", is_state=True)
    if figure.quantity is None:
        if figure.word is None:
            return Printed(refusal or figure.refusal, is_state=True)
        return Printed(figure.word, warnings=figure.warnings, doubted=doubted)
    main, *others = (
        _number_of_figure(figure, unit).replace("money", currency or "money")
        for unit in shown_units(figure.kind.unit, figure.kind.inch_unit, units)
    )
    estimate = ("rests on an estimate",) if figure.estimate else ()
    beneath = (*estimate, *foot(figure.contact_pressure_kpa))
    return Printed(main, beneath, False, figure.warnings, doubted, "".join(others))


def _number_of_figure(figure: Figure, unit: str) -> str:
    shown = spread_of_figure(figure, unit)
    if shown is None or figure.quantity is None:
        return figure.refusal
    if figure.low is not None and figure.high is not None:
        return bounds_text(shown.low, shown.high, shown.unit)
    mark = "~" if figure.estimate else ""
    return mark + number_with_unit(figure.quantity, shown.unit)


def short_reason(printed: Printed) -> str:
    """Return a state in few words: the one input's state for a refusal that names one."""
    if not printed.is_state:
        return printed.main
    one = ONE_REASON.fullmatch(printed.main)
    if one:
        return one[1]
    return "not worked out" if printed.main.endswith(".") else printed.main
