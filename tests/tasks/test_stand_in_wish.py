"""A stand-in check between two specimens of a line-up, as it is asked for in the window."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.errors import PlanRefused
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in import LineOutcome, StandInWord, Told
from benchlog.tasks.stand_in_wish import (
    StandInWish,
    by_hand,
    first_wish,
    sides_of,
    stand_in_of,
    wish_for,
)
from benchlog.wiring import stand_in_words
from tests.tasks.sample_records import sample_record

SEEN = Told(LineOutcome.MATCH, "handbook, page 12")


@pytest.fixture
def record() -> Record:
    return sample_record()


def asked(record: Record) -> list[str]:
    return [one.key for line in by_hand(record) for one in line.subjects]


def test_first_wish_sets_the_second_against_the_first(record: Record) -> None:
    amber, cobalt, _ = record.lineup.specimens
    wish = first_wish(record.lineup)
    assert (wish.candidate, wish.specified) == (cobalt.id, amber.id)
    candidate, specified = sides_of(record, wish)
    assert (candidate.name, specified.name) == ("Cobalt", "Amber")
    assert candidate.findings["can_height"] is record.findings["can_height", cobalt.id]


def test_lone_specimen_has_nothing_to_stand_in_for(record: Record) -> None:
    lone = replace(record.lineup, specimens=record.lineup.specimens[:1])
    with pytest.raises(PlanRefused, match="needs two specimens"):
        first_wish(lone)


def test_no_filter_stands_in_for_itself(record: Record) -> None:
    amber = record.lineup.specimens[0].id
    with pytest.raises(PlanRefused, match="stand in for itself"):
        stand_in_of(record, StandInWish(amber, amber))


def test_kept_wish_counts_while_its_specimens_are_there(record: Record) -> None:
    lineup = record.lineup
    kept = StandInWish(lineup.specimens[2].id, lineup.specimens[0].id, "TB-4411")
    assert wish_for(lineup, kept) == kept
    fewer = replace(lineup, specimens=lineup.specimens[:2])
    assert wish_for(fewer, kept) == first_wish(fewer)
    with pytest.raises(PlanRefused, match="gone"):
        sides_of(replace(record, lineup=fewer), kept)


def test_answers_by_hand_clear_their_lines(record: Record) -> None:
    wish = first_wish(record.lineup)
    assert asked(record) == ["anti_syphon", "pressure", "flow"]
    for key in asked(record):
        wish = wish.answered(key, SEEN)
    outcomes = {r.line.key: r.outcome for r in stand_in_of(record, wish).lines}
    assert all(outcomes[key] is LineOutcome.MATCH for key in asked(record))
    opened = wish.answered("flow", None)
    outcomes = {r.line.key: r.outcome for r in stand_in_of(record, opened).lines}
    assert outcomes["flow"] is LineOutcome.UNKNOWN
    assert outcomes["pressure"] is LineOutcome.MATCH


def test_answer_without_its_source_clears_nothing(record: Record) -> None:
    wish = first_wish(record.lineup).answered("flow", Told(LineOutcome.MATCH, "  "))
    lines = {r.line.key: r for r in stand_in_of(record, wish).lines}
    assert lines["flow"].outcome is LineOutcome.UNKNOWN


def test_words_never_promise_anything(record: Record) -> None:
    check = stand_in_of(record, replace(first_wish(record.lineup), handbook="TB-4411"))
    words = stand_in_words(check)
    assert check.word in StandInWord
    assert words.startswith(check.word.value)
    assert "TB-4411" in words
    assert "fits" not in words.casefold().split()
