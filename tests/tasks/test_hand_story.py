"""What was said by hand leaves its trace; specimens of one part are named together."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import PlanRefused
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.data.hand_tables import hand_tables
from benchlog.shelf import SqlShelf
from benchlog.tasks.changed import AwardChange
from benchlog.tasks.changed_between import changed_between
from benchlog.tasks.contents import contents_of
from benchlog.tasks.contents_json import contents_from_json, plain_contents
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.frozen_record import frozen
from benchlog.tasks.overrule import overrule, take_back_overruling
from benchlog.tasks.overruled_view import hand_story, overruled_in, winner_offers
from benchlog.tasks.poll import GONE
from benchlog.tasks.record import Record
from benchlog.tasks.tell import tell
from benchlog.tasks.verdict_view import component_rows
from benchlog.tasks.work_out import worked_out
from benchlog.trade.component import Component
from tests.sheet.reading_back import words, write
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SPIN_ON, read_dents, spin_on_lineup

CAN = Component.CAN
WHY = "the deep dent sits on the seam"


def drawn(fair: SqlShelf) -> Record:
    return draw_up(fair, "l-1", SPIN_ON)


@pytest.fixture
def record(fair: SqlShelf, clock: HandClock) -> Record:
    read_dents(fair, clock, "none none deep")
    return drawn(fair)


@pytest.fixture
def back(fair: SqlShelf, clock: HandClock, record: Record) -> Record:
    """Overruled once, and taken back."""
    overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-b",), WHY)
    take_back_overruling(fair, clock, drawn(fair), CAN, "it was the light")
    return drawn(fair)


def nickname(record: Record, specimen_id: str) -> str:
    return next(s.nickname for s in record.lineup.specimens if s.id == specimen_id)


def test_taken_back_is_told_in_one_line(back: Record) -> None:
    story = hand_story(back, CAN)
    who = nickname(back, "s-b")
    assert story.startswith("Overruled on 2026-")
    assert f" to winner, {who} ({WHY}); taken back on 2026-" in story
    assert story.endswith(" (it was the light).")
    assert hand_story(back, Component.MEDIA) == ""
    (row,) = [row for row in component_rows(back) if row.component is CAN]
    assert (row.hand_story, row.overruled) == (story, None)


def test_what_stands_alone_has_no_story(fair: SqlShelf, clock: HandClock, record: Record) -> None:
    overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-b",), WHY)
    assert hand_story(drawn(fair), CAN) == ""
    overrule(fair, clock, drawn(fair), CAN, AwardKind.CANNOT_SEPARATE, (), "looked again at both")
    story = hand_story(drawn(fair), CAN)
    assert f"({WHY}); changed on 2026-" in story
    assert "looked again" not in story
    take_back_overruling(fair, clock, drawn(fair), CAN)
    overrule(fair, clock, drawn(fair), CAN, AwardKind.TIE, (), "looked a third time")
    story = hand_story(drawn(fair), CAN)
    assert " to cannot separate (looked again at both); taken back on " in story
    assert "; overruled again on 2026-" in story


def test_sheet_prints_what_was_taken_back(back: Record, tmp_path: Path) -> None:
    text = words(write(back, tmp_path))
    at = text.index("Reviewer’s hand Overruled on ")
    assert "(it was the light)." in text[at : at + 300]
    assert "overruled by the reviewer" not in text


def test_data_holds_every_entry(back: Record) -> None:
    (table,) = hand_tables(back)
    kinds = [row[table.place("award")] for row in table.rows]
    assert kinds == ["winner", None]
    assert [row[table.place("stands")] for row in table.rows] == [False, False]
    assert [one["reason"] for one in tell(back)["overruling_log"]] == [WHY, "it was the light"]
    assert tell(back)["overrulings"] == []


def test_nothing_by_hand_makes_no_table(record: Record) -> None:
    assert hand_tables(record) == ()


def test_trace_comes_back_from_the_contents(record: Record, back: Record) -> None:
    contents = contents_from_json(json.dumps(plain_contents(contents_of(back))))
    again = worked_out(contents)
    assert again.overruling_log == back.overruling_log
    assert (again.overrulings, again.digest) == ({}, back.digest)
    assert back.digest != record.digest


def test_standing_ones_alone_keep_the_digest(
    fair: SqlShelf, clock: HandClock, record: Record
) -> None:
    """A record of an earlier version held what stood, and nothing more."""
    overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-b",), WHY)
    now = drawn(fair)
    earlier = replace(now, overruling_log=())
    assert worked_out(contents_of(earlier)).digest == now.digest


def test_revision_tells_what_was_said_between(record: Record, back: Record) -> None:
    (change,) = changed_between(frozen(record), frozen(back))
    assert type(change) is AwardChange
    assert change.sentence.startswith("Can award, by hand: Overruled on ")
    assert changed_between(frozen(back), frozen(back)) == ()


def test_overruled_specimen_may_leave(fair: SqlShelf, clock: HandClock) -> None:
    bare = drawn(fair)
    overrule(fair, clock, bare, CAN, AwardKind.WINNER, ("s-c",), WHY)
    lineup = fair.lineup("l-1")
    fair.save_lineup(replace(lineup, specimens=lineup.specimens[:2]))
    told = overruled_in(drawn(fair), CAN)
    assert told is not None
    assert told.words.endswith(f"You say: winner, {GONE}.")


@pytest.fixture
def twins(fair: SqlShelf, clock: HandClock) -> Record:
    """The first and the third are one part; all dents are said."""
    one, two, three = spin_on_lineup().specimens
    part = {"maker": "Larkfield", "part_number": "LF-1", "origin_can": "", "origin_box": ""}
    alike = [replace(s, **part, origin_inferred="") for s in (one, three)]
    fair.save_lineup(spin_on_lineup(specimens=(alike[0], two, alike[1])))
    read_dents(fair, clock, "none none deep")
    return drawn(fair)


def test_one_part_is_named_as_one(fair: SqlShelf, clock: HandClock, twins: Record) -> None:
    first, second = winner_offers(twins)
    assert first.ids == ("s-a", "s-c")
    assert first.label.startswith("these two Larkfield LF-1 parts: ")
    assert second.label == nickname(twins, "s-b")
    made = overrule(fair, clock, twins, CAN, AwardKind.WINNER, ("s-c",), WHY)
    assert made.winners == ("s-a", "s-c")
    told = overruled_in(drawn(fair), CAN)
    assert told is not None
    assert told.words.endswith("You say: winner, these two Larkfield LF-1 parts.")


def test_one_part_counts_as_one(fair: SqlShelf, clock: HandClock, twins: Record) -> None:
    with pytest.raises(PlanRefused, match=r"1 of 2 are chosen\. Specimens of one part count"):
        overrule(fair, clock, twins, CAN, AwardKind.JOINT_WINNERS, ("s-a", "s-c"), WHY)
    made = overrule(fair, clock, twins, CAN, AwardKind.TIE, (), WHY)
    assert made.winners == ("s-a", "s-b", "s-c")
