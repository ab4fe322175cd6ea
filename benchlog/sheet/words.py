"""The words of the sheet: what a finding, a figure, a specimen or an outcome prints as."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from benchlog.derive.figure import Figure
from benchlog.judge.verdict import AwardKind
from benchlog.measure.finding import Finding
from benchlog.measure.repeats import counted
from benchlog.measure.rounding import estimate_text, interval_text
from benchlog.measure.state import State
from benchlog.measure.units import Quantity, convert
from benchlog.sheet.numbers import Spread, number_with_unit, spread
from benchlog.sheet.text import shortened
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Attribute, Kind, Support
from benchlog.trade.component import Component
from benchlog.trade.specimen import Paid, Specimen

LONGEST_NICKNAME = 40
"""Characters of a nickname inside a sentence; its column's head holds more."""

SUPPORT = {
    Support.STANDARD: "a test standard or specification treats it",
    Support.ENGINEERING: "an engineering argument; the size of its effect was not shown here",
    Support.OPINION: "opinion or custom only",
}

OUTCOME = {
    AwardKind.WINNER: "ahead of all others beyond uncertainty and meaningful difference",
    AwardKind.JOINT_WINNERS: "nobody clearly beats these; they are not apart from one another",
    AwardKind.TIE: "too close to call",
    AwardKind.DIFFERENT: "they differ, and neither way is better",
    AwardKind.NOT_JUDGED: "left out of the judging, or too little to go by",
    AwardKind.CANNOT_SEPARATE: "the readings scatter as much as the specimens differ",
}


@dataclass(frozen=True)
class Printed:
    """One cell's words: `main`, what stands beneath it, and whether `main` is a state's word."""

    main: str
    beneath: tuple[str, ...] = ()
    is_state: bool = False


def date_of(record: Record) -> str:
    """Return the day of the latest reading, or the line-up's own when nothing was read."""
    times = [reading.at for reading in record.readings]
    return max(times, default=record.lineup.created_at).strftime("%Y-%m-%d")


def short_digest(record: Record) -> str:
    """Return the first twelve characters of the digest."""
    return record.digest[:12]


def cut_of_same(record: Record, specimen: Specimen) -> int:
    """Return how many filters of this maker and part number stand in the line-up."""
    same = (specimen.maker, specimen.part_number)
    if not any(same):
        return 1
    return sum((s.maker, s.part_number) == same for s in record.lineup.specimens)


def disclosure(record: Record) -> str:
    """Return one line that says who paid for how many specimens."""
    counts = Counter(specimen.paid for specimen in record.lineup.specimens)
    if len(counts) == 1:
        paid, count = next(iter(counts.items()))
        return f"Who paid: {'all ' if count > 1 else ''}{paid.value}"
    return "Who paid: " + ", ".join(f"{counts[p]} {p.value}" for p in Paid if counts[p])


def who_paid(specimen: Specimen) -> str:
    """Return who paid for one specimen, with the giver's or seller's name where it is known."""
    return f"{specimen.paid.value}: {specimen.giver}" if specimen.giver else specimen.paid.value


def price_of(specimen: Specimen) -> str:
    """Return the price as it was given, or that none was."""
    if specimen.price is None:
        return "no price given"
    return f"{specimen.price} {specimen.currency}".strip()


def names(record: Record, ids: tuple[str, ...]) -> str:
    """Return nicknames in bench order, each short enough for a list."""
    inside = [s.nickname for s in record.lineup.specimens if s.id in ids]
    return ", ".join(shortened(nickname, LONGEST_NICKNAME) for nickname in inside)


def subject_label(record: Record, subject: str) -> str:
    """Return the label of an attribute or figure; its key when the record knows neither."""
    for attribute in record.sequence.attributes:
        if attribute.key == subject:
            return attribute.label
    for figure in record.figures.values():
        if figure.kind.key == subject:
            return figure.kind.label
    return subject.replace("_", " ")


def components_shown(record: Record) -> list[Component]:
    """Return the components that have an outcome, in the order in which parts are shown."""
    awarded = {award.component for award in record.verdict.awards}
    return [component for component in Component if component in awarded]


def choice_label(attribute: Attribute, word: str) -> str:
    """Return what a choice's key shows; the word itself for text, yes and no."""
    for choice in attribute.choices:
        if choice.key == word:
            return choice.label
    return word


def foot(pressure_kpa: float | None) -> tuple[str, ...]:
    """Return the line that states a foot's pressure, where it matters."""
    return () if pressure_kpa is None else (f"foot {pressure_kpa:g}\u00a0kPa",)


def spread_of_finding(finding: Finding | None, attribute: Attribute) -> Spread | None:
    """Return the number behind a finding in the attribute's unit; None when there is none.

    The interval is the one that was said for estimates and marked ranges, else the expanded one.
    """
    if finding is None or not finding.state.has_value or finding.quantity is None:
        return None
    shown = spread(finding.quantity, attribute.unit)
    if finding.low is None or finding.high is None:
        return shown
    own = str(finding.quantity.units)
    low, high = (convert(end, own, shown.unit) for end in (finding.low, finding.high))
    return Spread(shown.value, low, high, shown.unit)


def number_of_finding(finding: Finding, quantity: Quantity, shown: Spread) -> str:
    """Return a finding's number: with its ±, or ends for a range, or ~ for an estimate."""
    if finding.low is None or finding.high is None:
        mark = "~" if finding.state is State.ESTIMATE else ""
        return mark + number_with_unit(quantity, shown.unit)
    if finding.state is State.ESTIMATE:
        said = estimate_text(shown.value, shown.low, shown.high, shown.unit)
        return said.replace("about ", "~", 1)
    return interval_text(shown.low, shown.high, shown.unit)


def inches(quantity: Quantity, unit: str, inch_unit: str) -> tuple[str, ...]:
    """Return the same number in inch measure, where the trade reads it so."""
    if not inch_unit or inch_unit == unit:
        return ()
    shown = spread(quantity, inch_unit)
    return (number_with_unit(quantity, inch_unit),) if shown.unit == inch_unit else ()


def _repeats(finding: Finding) -> tuple[str, ...]:
    count = len(counted(finding.readings))
    return (f"n = {count}",) if count else ()


def was_noted(finding: Finding | None) -> bool:
    """Whether anything at all was recorded for a finding, a reason for no value included."""
    return finding is not None and (finding.word is not None or bool(finding.readings))


def finding_words(finding: Finding | None, attribute: Attribute) -> Printed:
    """Return what a finding prints as; a missing one was not measured, a missing text not noted."""
    if attribute.kind is Kind.TEXT and not was_noted(finding):
        return Printed("nothing noted", is_state=True)
    if finding is None:
        return Printed(State.NOT_MEASURED.value, is_state=True)
    if not finding.state.has_value:
        return Printed(finding.state.value, is_state=True)
    shown = spread_of_finding(finding, attribute)
    if shown is None or finding.quantity is None:
        word = choice_label(attribute, finding.word or "")
        mark = "~" if finding.state is State.ESTIMATE else ""
        return Printed(mark + word) if word else Printed(State.NOT_MEASURED.value, is_state=True)
    beneath = _repeats(finding) + foot(finding.contact_pressure_kpa)
    main = number_of_finding(finding, finding.quantity, shown)
    if finding.state is State.ESTIMATE:
        return Printed(main, ("estimate", *beneath))
    if finding.low is not None:
        return Printed(main, beneath)
    other = inches(finding.quantity, attribute.unit, attribute.inch_unit)
    return Printed(main, other + beneath)


def figure_words(figure: Figure | None, currency: str = "") -> Printed:
    """Return what a derived figure prints as: its number, or the reason why there is none.

    An estimate between bounds prints as its interval, never with a ±. `currency` stands in the
    place of the unit of money, where the figure has one.
    """
    if figure is None or figure.quantity is None:
        return Printed(figure.refusal if figure else "not worked out", is_state=True)
    shown = spread(figure.quantity, figure.kind.unit)
    mark = "~" if figure.estimate else ""
    note = ("rests on an estimate",) if figure.estimate else ()
    if figure.low is not None and figure.high is not None:
        main, *other = _bounds(figure, figure.low, figure.high)
    else:
        main = mark + number_with_unit(figure.quantity, shown.unit)
        other = list(inches(figure.quantity, figure.kind.unit, figure.kind.inch_unit))
    lines = [main, *other, *note, *foot(figure.contact_pressure_kpa)]
    first, *beneath = [line.replace("money", currency or "money") for line in lines]
    return Printed(first, tuple(beneath))


def _bounds(figure: Figure, low: float, high: float) -> list[str]:
    """Return the interval of an estimate between bounds, in inch measure too where it has one."""
    own = figure.kind.unit
    units = dict.fromkeys(unit for unit in (own, figure.kind.inch_unit) if unit)
    return [interval_text(convert(low, own, u), convert(high, own, u), u) for u in units]


def is_claim(attribute: Attribute) -> bool:
    """Whether the attribute holds a maker's claim, which is printed and never tested here."""
    return attribute.kind is Kind.CLAIM
