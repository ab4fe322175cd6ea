"""From what was typed to what will be stored, for every kind of attribute."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchlog.errors import EntryRefused
from benchlog.measure.entry import estimate_interval, parse_entry
from benchlog.measure.ranges import check_range
from benchlog.measure.reading import Reading, Said
from benchlog.measure.state import WITHOUT_VALUE, State
from benchlog.measure.units import convert, to_si, unit_symbol
from benchlog.trade.attribute import Attribute, Choice, Kind

BELOW_ZERO = ("temperature",)
"""Dimensions in which a value below zero makes sense."""

YES_NO = (Choice("yes", "yes"), Choice("no", "no"))


@dataclass(frozen=True)
class Answer:
    """What a reading will hold: a state, and a number as said or a word."""

    state: State
    text: str
    said: Said | None = None
    word: str | None = None


def usual_unit(attribute: Attribute, *, inch: bool) -> str:
    """Return the unit that a bare number is taken in."""
    return attribute.inch_unit if inch and attribute.inch_unit else attribute.unit


def choices_of(attribute: Attribute) -> tuple[Choice, ...]:
    """Return the answers to choose from; none for numbers and free text."""
    return YES_NO if attribute.kind is Kind.PRESENCE else attribute.choices


def understand(attribute: Attribute, text: str, *, inch: bool) -> Answer:
    """Return what `text` means for `attribute`; raises EntryRefused with what was expected."""
    trimmed = text.strip()
    if not trimmed:
        raise EntryRefused(
            "Nothing was typed.", "Type a value, or say why there is none (not marked, …)."
        )
    for state in WITHOUT_VALUE:
        if trimmed.casefold() == state.value:
            return Answer(state, trimmed)
    if attribute.is_number:
        return _number(attribute, trimmed, inch=inch)
    choices = choices_of(attribute)
    if choices:
        return Answer(State.MEASURED, trimmed, word=_chosen(attribute, choices, trimmed).key)
    return Answer(State.MEASURED, trimmed, word=trimmed)


def _number(attribute: Attribute, text: str, *, inch: bool) -> Answer:
    dimension = attribute.dimension or "count"
    said = parse_entry(text, usual_unit(attribute, inch=inch), dimension)
    if dimension not in BELOW_ZERO and min(said.value, said.low or said.value) < 0:
        raise EntryRefused(
            f"{attribute.label} cannot be below zero.", "Type it again, without the minus."
        )
    if attribute.kind is Kind.COUNT and not said.approximate and said.value % 1:
        raise EntryRefused(
            f"{attribute.label} is a count, and '{text}' is no whole number.",
            f"Type a whole number, or ~{said.value:f} as an estimate.",
        )
    return Answer(State.ESTIMATE if said.approximate else State.MEASURED, text, said=said)


def _chosen(attribute: Attribute, choices: tuple[Choice, ...], text: str) -> Choice:
    wanted = text.casefold()
    if wanted.isdigit() and 1 <= int(wanted) <= len(choices):
        return choices[int(wanted) - 1]
    for choice in choices:
        if wanted in (choice.key.casefold(), choice.label.casefold()):
            return choice
    begun = [c for c in choices if c.label.casefold().startswith(wanted)]
    if len(begun) == 1:
        return begun[0]
    listed = ", ".join(f"{n} {c.label}" for n, c in enumerate(choices, 1))
    raise EntryRefused(
        f"'{text}' is not one of the answers for {attribute.label}.",
        f"Type a number or the first letters: {listed}.",
    )


def in_unit(said: Said, unit: str) -> float:
    """Return the number said, in another unit of its dimension."""
    return convert(float(said.value), said.unit, unit)


def range_text(attribute: Attribute, *, inch: bool) -> str:
    """Return the usual range as one reads it: "usually 55 to 120 mm"."""
    if attribute.soft is None:
        return ""
    unit = usual_unit(attribute, inch=inch)
    low, high = (
        convert(end, attribute.unit, unit) if unit else end
        for end in (attribute.soft.low, attribute.soft.high)
    )
    return f"usually {low:.4g} to {high:.4g} {unit_symbol(unit)}".rstrip()


def with_si(reading: Reading) -> Reading:
    """Return the reading with its SI values worked out from what was said."""
    said = reading.said
    if said is None:
        return reading
    si_value, si_unit = to_si(said.value, said.unit)
    ends = (said.low, said.high)
    if reading.state is State.ESTIMATE:
        ends = estimate_interval(said)
    low, high = (None if end is None else to_si(end, said.unit)[0] for end in ends)
    return replace(reading, si_value=si_value, si_low=low, si_high=high, si_unit=si_unit)


def check_answer(attribute: Attribute, answer: Answer, *, sure: bool, reason: str) -> None:
    """Raise AskAgain for a number outside the attribute's ranges, unless sure or with a reason.

    The usual range is satisfied by `sure`; the possible one wants a typed `reason`.
    """
    if answer.said is None:
        return
    check_range(
        in_unit(answer.said, attribute.unit),
        attribute.unit,
        soft=(attribute.soft.low, attribute.soft.high) if attribute.soft else None,
        hard=(attribute.hard.low, attribute.hard.high) if attribute.hard else None,
        label=attribute.label,
        said=answer.said,
        sure=sure,
        reason=reason,
    )
