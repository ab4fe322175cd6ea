"""Every attribute of both sequences: numbers against published factors and ranges, choices by each.

A new attribute is checked without being listed; one with a unit that has no factor here, without
limits, or of a kind that nobody thought of, fails.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from benchlog.errors import AskAgain, EntryRefused
from benchlog.judge.rules_file import load_rules
from benchlog.measure.state import State
from benchlog.measure.units import DIMENSIONS, canonical
from benchlog.tasks.answer import Answer, check_answer, choices_of, understand, with_si
from benchlog.trade.attribute import Attribute, Judged, Kind
from benchlog.trade.sequence_file import load_sequence
from tests.derive.as_said import SEQUENCES
from tests.derive.found import reading

ATTRIBUTES = {a.key: a for name in SEQUENCES for a in load_sequence(name).attributes}

FACTORS = {
    # What one is in SI. NIST SP 811, appendix B.8 (from memory; exact unless rounded there).
    "millimeter": 1e-3,
    "micrometer": 1e-6,
    "kilometer": 1e3,
    "inch": 2.54e-2,
    "thou": 2.54e-5,
    "mile": 1.609344e3,
    "gram": 1e-3,
    "newton": 1.0,
    "force_pound": 4.448222,
    "pascal": 1.0,
    "kilopascal": 1e3,
    "pound_force_per_square_inch": 6.894757e3,
    "millimeter_H2O": 9.80665,
    "inch_H2O": 2.490889e2,
    "millimeter ** 2": 1e-6,
    "inch ** 2": 6.4516e-4,
    "milliliter / hour": 1e-6 / 3600,
    "liter / meter ** 2 / second": 1e-3,
    # A twelfth of a year of 365.25 days (the Julian year of astronomers).
    "month": 365.25 * 86400 / 12,
    # Numbers by themselves.
    "count": 1.0,
    "turn": 1.0,
    "dimensionless": 1.0,
    "percent": 1e-2,
    "money": 1.0,
}

REASONS = {
    Kind.TEXT: "free words have no right value; they are kept as they were said",
    Kind.CLAIM: "a claim is the maker's own words; it is kept as it was said",
}
"""Kinds of attribute without a check value, each with the reason."""

NUMBERS = [a for a in ATTRIBUTES.values() if a.is_number]
CHOSEN = [a for a in ATTRIBUTES.values() if choices_of(a)]
WORDS = [a for a in ATTRIBUTES.values() if a.kind in REASONS]


def keys(attributes: list[Attribute]) -> list[object]:
    return [pytest.param(attribute, id=attribute.key) for attribute in attributes]


def units_of(attribute: Attribute) -> dict[str, bool]:
    """Each unit that a bare number may be in, and whether that is for a reviewer in inches."""
    return {attribute.inch_unit: True, attribute.unit: False}


def ends_of(attribute: Attribute) -> Iterator[tuple[float, float]]:
    """The ends of the hard range, each with one beyond it, in the attribute's unit."""
    assert attribute.hard is not None
    low, high = attribute.hard.low, attribute.hard.high
    beyond = 1.0 if attribute.kind is Kind.COUNT else 0.02
    yield low, low - beyond if beyond == 1.0 else low * (1 - beyond)
    yield high, high + beyond if beyond == 1.0 else high * (1 + beyond)


def typed(attribute: Attribute, value: float, *, inch: bool) -> Answer:
    """What typing a bare number of the attribute's unit comes to, turned by hand into inches."""
    unit = attribute.inch_unit if inch else attribute.unit
    number = value * FACTORS[attribute.unit] / FACTORS[unit]
    return understand(attribute, f"{number:.9f}".rstrip("0").rstrip("."), inch=inch)


def si_of(attribute: Attribute, answer: Answer) -> tuple[float, str]:
    taken = replace(reading(attribute.key, "a"), said=answer.said, state=answer.state)
    kept = with_si(taken)
    assert kept.si_value is not None
    return kept.si_value, kept.si_unit


def test_every_attribute_is_checked_or_has_a_reason() -> None:
    checked = [a.key for a in (*NUMBERS, *CHOSEN, *WORDS)]
    assert sorted(checked) == sorted(ATTRIBUTES)
    assert len(ATTRIBUTES) > 170
    assert {unit for a in NUMBERS for unit in units_of(a)} == set(FACTORS)


@pytest.mark.parametrize("attribute", keys(NUMBERS))
def test_ends_of_the_range_come_to_si(attribute: Attribute) -> None:
    for unit, inch in units_of(attribute).items():
        for end, _ in ends_of(attribute):
            answer = typed(attribute, end, inch=inch)
            assert answer.said is not None
            assert canonical(answer.said.unit) == canonical(unit)
            value, si = si_of(attribute, answer)
            assert value == pytest.approx(end * FACTORS[attribute.unit], rel=3e-7, abs=1e-12)
            dimension = DIMENSIONS[attribute.dimension or "count"]
            assert canonical(si) == canonical(dimension.si_unit)


@pytest.mark.parametrize("attribute", keys(NUMBERS))
def test_ends_are_taken_and_what_lies_beyond_wants_a_reason(attribute: Attribute) -> None:
    for end, beyond in ends_of(attribute):
        check_answer(attribute, typed(attribute, end, inch=False), sure=True, reason="")
        if beyond < 0.0:
            with pytest.raises(EntryRefused, match="cannot be below zero"):
                typed(attribute, beyond, inch=False)
        elif beyond != end:
            answer = typed(attribute, beyond, inch=False)
            with pytest.raises(AskAgain) as asked:
                check_answer(attribute, answer, sure=True, reason="")
            assert asked.value.reason_wanted
            check_answer(attribute, answer, sure=True, reason="a strange one")


@pytest.mark.parametrize("attribute", keys(NUMBERS))
def test_usual_range_lies_in_the_possible_one(attribute: Attribute) -> None:
    assert attribute.hard is not None
    assert attribute.soft is not None
    assert attribute.hard.low <= attribute.soft.low < attribute.soft.high <= attribute.hard.high


@pytest.mark.parametrize("attribute", keys(NUMBERS))
def test_number_of_another_sort_is_refused(attribute: Attribute) -> None:
    other = "3 kPa" if attribute.dimension != "pressure" else "3 kg"
    with pytest.raises(EntryRefused):
        understand(attribute, other, inch=False)


@pytest.mark.parametrize("attribute", keys(CHOSEN))
def test_each_choice_can_be_given_three_ways(attribute: Attribute) -> None:
    choices = choices_of(attribute)
    assert len({choice.key for choice in choices}) == len(choices) > 1
    for place, choice in enumerate(choices, 1):
        for text in (choice.key, choice.label, choice.label.upper()):
            assert understand(attribute, text, inch=False).word == choice.key
        if not any(re.fullmatch(r"\d+", c.key) for c in choices):
            assert understand(attribute, str(place), inch=False).word == choice.key
    with pytest.raises(EntryRefused):
        understand(attribute, "no such answer", inch=False)


@pytest.mark.parametrize("attribute", keys(WORDS))
def test_words_are_kept_as_said_and_never_scored(attribute: Attribute) -> None:
    answer = understand(attribute, "  12,5 or so; see photo ", inch=False)
    assert (answer.state, answer.word, answer.said) == (
        State.MEASURED,
        "12,5 or so; see photo",
        None,
    )
    assert attribute.judged in (Judged.IDENTITY, Judged.DIFFERENT, Judged.PRESENCE)
    if attribute.judged is not Judged.PRESENCE:  # whether there are any markings may count
        assert attribute.key not in {entry.subject for entry in load_rules().entries}
