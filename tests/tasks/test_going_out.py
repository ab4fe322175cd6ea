"""What is told before publishing: which revision, what comes first, what stays out and why."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.judge.blind import BlindRun
from benchlog.shelf import SqlShelf
from benchlog.tasks.going_out import (
    LINEUP,
    NO_LICENCE,
    NOT_LOCKED,
    VERDICT,
    GoingOut,
    going_out,
)
from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in_wish import StandInWish, first_wish
from benchlog.tasks.video_start import TypedStart, openings_of, with_start
from benchlog.trade.specimen import Paid
from tests.small_trade import HandClock
from tests.tasks.publishing_scenes import publish, put_right, read_two, record_now
from tests.tasks.video_scenes import filmed


@pytest.fixture(autouse=True)
def two_readings(shelf: SqlShelf, clock: HandClock) -> None:
    read_two(shelf, clock)


def told(shelf: SqlShelf, wishes: PublishWishes | None = None) -> GoingOut:
    return going_out(shelf, record_now(shelf), wishes or PublishWishes())


def of(shelf: SqlShelf, record: Record, **wishes: object) -> GoingOut:
    return going_out(shelf, record, PublishWishes(**wishes))


def unpaid(record: Record) -> Record:
    first, *others = record.lineup.specimens
    specimens = (replace(first, paid=Paid.UNANSWERED), *others)
    return replace(record, lineup=replace(record.lineup, specimens=specimens))


def test_first_revision_needs_no_reason(shelf: SqlShelf) -> None:
    first = told(shelf)
    assert (first.revision, first.changed, first.block) == (1, True, "")
    assert first.standing == "draft of revision 1, not published"
    assert (first.needs_reason, first.reason) == (False, "")
    assert first.rows["sheet"].words.startswith("Free from the maker: Cobalt · Paid for")


def test_published_record_is_no_draft(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    after = told(shelf)
    assert (after.revision, after.changed) == (1, False)
    assert after.standing == "revision 1 is published; nothing changed since"


def test_correction_lends_its_reason(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    put_right(shelf, clock)
    further = told(shelf)
    assert (further.revision, further.changed) == (2, True)
    assert (further.needs_reason, further.reason) == (False, "read a mark too low")


def test_change_without_a_reason_owes_one(shelf: SqlShelf, clock: HandClock) -> None:
    publish(shelf, clock)
    lineup = shelf.lineup("l-1")
    shelf.save_lineup(replace(lineup, question="Another question?"))
    further = told(shelf)
    assert (further.revision, further.needs_reason, further.reason) == (2, True, "")


def test_unanswered_disclosure_comes_first(shelf: SqlShelf) -> None:
    blocked = of(shelf, unpaid(record_now(shelf)))
    assert "who paid for Amber" in blocked.block
    assert blocked.answered_in == LINEUP
    assert not blocked.needs_reason
    assert blocked.rows["sheet"].words == ""


def test_closed_blind_run_comes_first(shelf: SqlShelf, clock: HandClock) -> None:
    record = record_now(shelf)
    codes = tuple((s.id, f"K{n}") for n, s in enumerate(record.lineup.specimens))
    orders = (tuple(code for _, code in codes),)
    run = BlindRun("b-1", "l-1", ("media_length",), codes, orders, 7, clock.now())
    blocked = of(shelf, replace(record, blind_runs=(run,)))
    assert blocked.answered_in == VERDICT
    assert "judged blind" in blocked.block


def test_unlocked_rules_are_only_noted(shelf: SqlShelf) -> None:
    noted = told(shelf)
    assert noted.notes == (NOT_LOCKED,)
    assert noted.block == ""


def test_data_waits_for_its_licence(shelf: SqlShelf) -> None:
    assert told(shelf).rows["data"].words == NO_LICENCE
    assert told(shelf).rows["data"].missing
    unwanted = told(shelf, PublishWishes(kinds=("sheet",)))
    assert not unwanted.rows["data"].missing
    chosen = told(shelf, PublishWishes(licence="CC0-1.0")).rows["data"]
    assert (chosen.words, chosen.missing) == ("with 0 photos", False)


def test_chapters_say_where_the_clip_starts(shelf: SqlShelf) -> None:
    record = filmed(60)
    words = of(shelf, record).rows["chapters"].words
    assert words.endswith("the clip is taken to start with the first reading")
    (opening,) = openings_of(record)
    clips = with_start(record, (), 0, TypedStart(opening.moments[0].time))
    assert of(shelf, record, footage=clips).rows["chapters"].words.endswith("that you set")


def test_clips_without_an_opening_are_missing_one(shelf: SqlShelf) -> None:
    record = filmed(60)
    clips = with_start(record, (), 0, TypedStart()) * 2
    row = of(shelf, record, footage=clips).rows["chapters"]
    assert row.missing
    assert "2 clips" in row.words


def test_description_says_what_length_leaves_out(shelf: SqlShelf) -> None:
    record = filmed(60)
    whole = of(shelf, record).rows["description"]
    assert whole.words.endswith("of 5000 characters")
    short = of(shelf, record, limit=700).rows["description"]
    assert "left out for length: " in short.words
    assert not short.missing
    none = of(shelf, record, limit=20).rows["description"]
    assert none.missing
    assert "longer than 20 characters" in none.words


def test_stand_in_is_named_with_the_cards(shelf: SqlShelf) -> None:
    record = filmed(6)
    wish = first_wish(record.lineup)
    assert of(shelf, record, stand_in=wish).rows["cards"].words == ""
    shown = of(shelf, record, stand_in=replace(wish, on_cards=True)).rows["cards"]
    assert shown.words == "with the stand-in check: Cobalt beside Amber"
    gone = StandInWish("x", wish.specified, on_cards=True)
    assert of(shelf, record, stand_in=gone).rows["cards"].missing
