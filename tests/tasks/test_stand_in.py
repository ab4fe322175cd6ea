"""The stand-in check: match, differs or unknown by line, three words in all, never more."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.errors import PlanRefused
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.sheet.stand_in_text import stand_in_text
from benchlog.tasks.stand_in import (
    LineOutcome,
    Side,
    StandInCheck,
    StandInWord,
    Told,
    check_stand_in,
)
from benchlog.tasks.stand_in_numbers import Gap, gap_between
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.stand_in import Compare, StandInSubject, load_stand_in

SPIN_ON = load_sequence("spin_on")
CARTRIDGE = load_sequence("cartridge")
SEEN = "the maker's data sheet"
LOOKED_UP = {k: Told(LineOutcome.MATCH, SEEN) for k in ("anti_syphon", "pressure", "flow")}
WORDS = {"thread_code": "3/4-16 UNF", "gasket_section": "square", "bypass_place": "dome_end"} | {
    "adbv_present": "yes",
    "claim_standard": "iso_4548_12",
}
NUMBERS = {
    "gasket_outside": 71.0,
    "gasket_inside": 62.0,
    "gasket_proud": 2.5,
    "recess_depth": 6.0,
    "can_diameter": 76.0,
    "can_height": 90.0,
    "bypass_marked": 100.0,
    "claim_size": 25.0,
    "claim_percent": 99.0,
    "claim_distance": 15000.0,
}


def number(key: str, value: float, u: float = 0.0) -> Finding:
    unit = SPIN_ON.attribute(key).unit
    quantity = registry().Quantity(ufloat(value, u) if u else value, unit)
    return Finding(key, "s", State.MEASURED, quantity=quantity)


def word(key: str, text: str) -> Finding:
    return Finding(key, "s", State.MEASURED, word=text)


def without(key: str, state: State) -> Finding:
    return Finding(key, "s", state)


def same_filter(**changed: Finding) -> Side:
    found = {key: number(key, value) for key, value in NUMBERS.items()}
    found |= {key: word(key, text) for key, text in WORDS.items()}
    return Side("Amber", {**found, **changed})


def check(candidate: Side, told: Any = LOOKED_UP, handbook: str = "04-1188") -> StandInCheck:
    specified = replace(same_filter(), name="Original")
    return check_stand_in(candidate, specified, SPIN_ON, handbook, told)


def outcome(made: StandInCheck, line: str) -> LineOutcome:
    return next(one.outcome for one in made.lines if one.line.key == line)


def test_all_lines_alike_find_no_difference() -> None:
    made = check(same_filter())
    assert {one.outcome for one in made.lines} == {LineOutcome.MATCH}
    assert made.word is StandInWord.NO_DIFFERENCE
    assert made.word.value == "No difference found in what we measured"


@pytest.mark.parametrize(
    ("line", "key", "finding", "word_said"),
    [
        ("thread", "thread_code", word("thread_code", "M20x1.5"), "Stops here"),
        ("gasket", "gasket_outside", number("gasket_outside", 68.0), "Stops here"),
        ("gasket", "gasket_section", word("gasket_section", "lip"), "Stops here"),
        ("recess", "recess_depth", number("recess_depth", 4.0), "Stops here"),
        ("can_size", "can_height", number("can_height", 99.0), "Ask the engine maker"),
        ("bypass_place", "bypass_place", word("bypass_place", "none"), "Ask the engine maker"),
        ("bypass_setting", "bypass_marked", number("bypass_marked", 170.0), "Ask the engine maker"),
        ("adbv", "adbv_present", word("adbv_present", "no"), "Ask the engine maker"),
    ],
)
def test_a_difference_stops_or_asks(line: str, key: str, finding: Finding, word_said: str) -> None:
    made = check(same_filter(**{key: finding}))
    assert outcome(made, line) is LineOutcome.DIFFERS
    assert made.word.value == word_said
    (told,) = [one for one in made.lines if one.line.key == line]
    assert told.words == f"{told.line.words} {told.line.caution}"
    assert [one.line.key for one in made.lines if one.outcome is LineOutcome.DIFFERS] == [line]


@pytest.mark.parametrize(
    ("line", "key", "finding"),
    [
        ("can_size", "can_height", number("can_height", 70.0)),
        ("recess", "recess_depth", number("recess_depth", 9.0)),
        ("bypass_place", "bypass_place", word("bypass_place", "thread_end")),
        ("claims", "claim_percent", number("claim_percent", 99.9)),
        ("claims", "claim_size", number("claim_size", 20.0)),
    ],
)
def test_harmless_differences_match(line: str, key: str, finding: Finding) -> None:
    assert outcome(check(same_filter(**{key: finding})), line) is LineOutcome.MATCH


@pytest.mark.parametrize("state", [s for s in State if not s.has_value and s != "not applicable"])
def test_unknown_is_not_cleared(state: State) -> None:
    for key in (*NUMBERS, *WORDS):
        made = check(same_filter(**{key: without(key, state)}))
        assert LineOutcome.UNKNOWN in {one.outcome for one in made.lines}
        assert made.word is StandInWord.ASK


def test_no_finding_at_all_is_unknown() -> None:
    made = check(Side("Bare", {}), {})
    assert {one.outcome for one in made.lines} == {LineOutcome.UNKNOWN}
    assert made.word is StandInWord.ASK
    assert all(one.words == one.line.caution for one in made.lines)


def test_part_that_only_one_has_differs() -> None:
    gone = without("bypass_marked", State.NOT_APPLICABLE)
    assert outcome(check(same_filter(bypass_marked=gone)), "bypass_setting") is LineOutcome.DIFFERS
    both = check_stand_in(
        same_filter(bypass_marked=gone), same_filter(bypass_marked=gone), SPIN_ON, "1", LOOKED_UP
    )
    assert outcome(both, "bypass_setting") is LineOutcome.MATCH


def test_other_thread_is_no_answer() -> None:
    other = word("thread_code", "other")
    both = check_stand_in(
        same_filter(thread_code=other), same_filter(thread_code=other), SPIN_ON, "1", LOOKED_UP
    )
    assert outcome(both, "thread") is LineOutcome.UNKNOWN


def test_unlike_answers_are_never_called_the_same() -> None:
    why = {}
    for mine in ("dome_end", "thread_end"):
        side = same_filter(bypass_place=word("bypass_place", mine))
        theirs = same_filter(bypass_place=word("bypass_place", "dome_end"))
        made = check_stand_in(side, theirs, SPIN_ON, "1", LOOKED_UP)
        (line,) = [one for one in made.lines if one.line.key == "bypass_place"]
        assert line.outcome is LineOutcome.MATCH
        why[mine] = line.subjects[0].why
    assert why["dome_end"] == "The same answer."
    assert why["thread_end"].startswith("Another answer")


def test_valve_more_than_specified_is_harmless() -> None:
    bare = same_filter(adbv_present=word("adbv_present", "no"))
    made = check_stand_in(same_filter(), bare, SPIN_ON, "1", LOOKED_UP)
    assert outcome(made, "adbv") is LineOutcome.MATCH


def test_pins_are_held_against_the_original_at_the_bench() -> None:
    answers = {}
    for key in ("all", "missing", "extra", "none"):
        side = Side("A", {"snap_parts": word("snap_parts", key)})
        made = check_stand_in(side, Side("B", {}), CARTRIDGE, "1")
        (line,) = [one for one in made.lines if one.line.key == "cartridge"]
        answers[key] = next(
            one.outcome.value for one in line.subjects if one.subject.key == "snap_parts"
        )
    assert answers == {"all": "match", "missing": "differs", "extra": "differs", "none": "match"}


def subject(compare: Compare, band: float) -> StandInSubject:
    return StandInSubject("x", compare, band, "millimeter")


def gap(compare: Compare, band: float, mine: float, theirs: float, u: float) -> Gap:
    unit = registry().millimeter
    pair = (ufloat(mine, u) if u else mine) * unit, theirs * unit
    return gap_between(subject(compare, band), *pair)


@pytest.mark.parametrize(
    ("compare", "mine", "u", "inside", "beyond"),
    [
        # Band 1 mm about 71 mm; U = 1.96 u. JCGM 106:2012, 8.3, guard bands (from memory).
        (Compare.WITHIN, 71.5, 0.1, True, False),
        (Compare.WITHIN, 71.9, 0.1, False, False),
        (Compare.WITHIN, 72.1, 0.1, False, False),
        (Compare.WITHIN, 72.3, 0.1, False, True),
        (Compare.WITHIN, 69.7, 0.1, False, True),
        (Compare.WITHIN, 72.0, 0.0, True, False),
        (Compare.AT_MOST, 60.0, 0.1, True, False),
        (Compare.AT_MOST, 72.3, 0.1, False, True),
        (Compare.AT_LEAST, 90.0, 0.1, True, False),
        (Compare.AT_LEAST, 69.7, 0.1, False, True),
        (Compare.AT_LEAST, 70.1, 0.1, False, False),
    ],
)
def test_gap_is_held_against_band_and_uncertainty(
    compare: Compare, mine: float, u: float, inside: bool, beyond: bool
) -> None:
    made = gap(compare, 1.0, mine, 71.0, u)
    assert (made.inside, made.beyond) == (inside, beyond)
    assert ("Too close to tell" in made.sentence) is not (inside or beyond)


sizes = st.floats(0.1, 500)


@given(st.sampled_from([c for c in Compare if c.of_numbers]), sizes, sizes, sizes, st.floats(0, 20))
def test_no_gap_is_both_inside_and_beyond(
    compare: Compare, band: float, mine: float, theirs: float, u: float
) -> None:
    made = gap(compare, band, mine, theirs, u)
    assert not (made.inside and made.beyond)
    wider = gap(compare, band, mine, theirs, u + 1.0)
    assert wider.inside <= made.inside
    assert wider.beyond <= made.beyond


def test_shared_error_of_one_instrument_cancels() -> None:
    # JCGM 100, 5.2: what both readings share is not in their difference.
    shared = variable(1.0, Part("instrument/c", Spread.RECTANGULAR))
    unit = registry().millimeter
    made = gap_between(subject(Compare.WITHIN, 1.0), (71.5 + shared) * unit, (71.0 + shared) * unit)
    assert made.expanded == pytest.approx(0.0, abs=1e-12)
    assert made.inside


def test_count_must_be_the_same() -> None:
    one = gap_between(
        StandInSubject("x", Compare.WITHIN, 0.0, "count"),
        registry().Quantity(3.0, "count"),
        registry().Quantity(3.0, "count"),
    )
    assert one.inside
    assert one.sentence == "Gap 0, wanted within 0."


def test_hand_answer_without_a_source_is_not_cleared() -> None:
    told = {**LOOKED_UP, "flow": Told(LineOutcome.MATCH, "  ")}
    made = check(same_filter(), told)
    assert outcome(made, "flow") is LineOutcome.UNKNOWN
    assert made.word is StandInWord.ASK


def test_readings_cannot_be_answered_by_hand() -> None:
    with pytest.raises(PlanRefused, match="'thread' is not answered by hand"):
        check(same_filter(), {"thread": Told(LineOutcome.MATCH, SEEN)})


def test_kind_without_lines_is_refused() -> None:
    with pytest.raises(PlanRefused, match="no check for filters"):
        check_stand_in(same_filter(), same_filter(), SPIN_ON, "1", lines=())


def test_missing_handbook_number_is_not_cleared() -> None:
    made = check(same_filter(), handbook=" ")
    assert made.word is StandInWord.ASK
    assert made.handbook.endswith(": not given")


outcomes = st.sampled_from(LineOutcome)


@given(st.fixed_dictionaries(dict.fromkeys(LOOKED_UP, outcomes)), st.booleans(), st.booleans())
def test_word_follows_the_worst_line(
    hand: dict[str, LineOutcome], thread: bool, handbook: bool
) -> None:
    changed = {} if thread else {"thread_code": word("thread_code", "M20x1.5")}
    told = {key: Told(one, SEEN) for key, one in hand.items()}
    made = check(same_filter(**changed), told, "1" if handbook else "")
    clear = thread and handbook and set(hand.values()) == {LineOutcome.MATCH}
    assert (made.word is StandInWord.STOPS) is (not thread)
    assert (made.word is StandInWord.NO_DIFFERENCE) is clear


def test_text_leads_with_word_and_handbook_number() -> None:
    made = check(same_filter(thread_code=word("thread_code", "M20x1.5")))
    lines = stand_in_text(made).splitlines()
    assert lines[:3] == [
        "Stops here",
        "Amber beside Original, the specified filter",
        "Part number by the vehicle maker's handbook: 04-1188",
    ]
    text = "\n".join(lines)
    assert all(f"{one.line.label}: {one.outcome.value}" in lines for one in made.lines)
    assert " fits" not in text.lower()


@given(st.sampled_from(load_stand_in("spin_on") + load_stand_in("cartridge")))
def test_no_line_says_more_than_a_bench_can(line: Any) -> None:
    said = f"{line.label} {line.rule} {line.caution} {line.words}".lower()
    assert not {"fits", "filters better", "holds more dirt"} & {said, *said.split()}
