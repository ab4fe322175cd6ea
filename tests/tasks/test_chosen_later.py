"""Outputs and ways of the sheet chosen after a revision went out: a further one, told as such."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.errors import PublishRefused
from benchlog.shelf import SqlShelf
from benchlog.tasks.changed import CARDS, CHAPTERS, DESCRIPTION, SHEET, WishChange, outputs_touched
from benchlog.tasks.changed_between import changed_between
from benchlog.tasks.footage import Footage
from benchlog.tasks.frozen_record import frozen, thawed
from benchlog.tasks.going_out import going_out
from benchlog.tasks.publication import Publication
from benchlog.tasks.publications import latest_changes
from benchlog.tasks.publish_revision import next_revision, publish_revision
from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.tasks.revision_rows import revision_rows, what_changed
from benchlog.tasks.stand_in_wish import StandInWish
from benchlog.tasks.wanted import wanted_of, wished_between
from tests.small_trade import HandClock
from tests.tasks.publishing_scenes import Steps, WordsWriter, put_right, read_two, record_now

SPARE = PublishWishes(kinds=(SHEET, DESCRIPTION))
WITH_CARDS = replace(SPARE, kinds=(SHEET, CARDS, DESCRIPTION))
STAND_IN = StandInWish("s-a", "s-b", on_sheet=True, on_cards=True)


@pytest.fixture(autouse=True)
def two_readings(shelf: SqlShelf, clock: HandClock) -> None:
    read_two(shelf, clock)


def put_out(shelf: SqlShelf, clock: HandClock, wishes: PublishWishes | None, paper: str = "A4",
            reason: str = "") -> Publication:  # fmt: skip
    record = record_now(shelf)
    wanted = None if wishes is None else wanted_of(record, wishes, paper)
    writers = [WordsWriter()]
    return publish_revision(shelf, clock, record, writers, None, Steps(), reason, wanted=wanted)


def test_cards_left_out_may_follow(shelf: SqlShelf, clock: HandClock) -> None:
    first = put_out(shelf, clock, SPARE)
    second = put_out(shelf, clock, WITH_CARDS)
    assert (second.revision, second.reason) == (2, "cards were added")
    assert first.digest == second.digest
    assert thawed(shelf.published_record("l-1", 2))["changes"] == ["Cards were added"]
    record = record_now(shelf)
    newest, *_ = revision_rows(shelf, record)
    assert newest.reason == "cards were added"
    assert what_changed(shelf, record, newest)[1] == ("Cards were added",)
    between, (change,) = latest_changes(shelf, record)
    assert (between, change.what) == ("from revision 1 to 2", "Cards were added")
    assert outputs_touched(change) == (CARDS,)


def test_same_wishes_make_no_revision(shelf: SqlShelf, clock: HandClock) -> None:
    everything = replace(WITH_CARDS, stand_in=STAND_IN, large_print=True, sums=True)
    put_out(shelf, clock, everything)
    with pytest.raises(PublishRefused, match="Nothing changed since revision 1"):
        put_out(shelf, clock, everything)
    with pytest.raises(PublishRefused, match="Nothing changed since revision 1"):
        put_out(shelf, clock, None)


@pytest.mark.parametrize(
    ("wishes", "paper", "units", "told"),
    [
        (replace(SPARE, large_print=True), "A4", "metric", "Large print was added"),
        (replace(SPARE, sums=True), "A4", "metric", "Sums were added"),
        (replace(SPARE, stand_in=STAND_IN), "A4", "metric", "A stand-in page was added"),
        (replace(SPARE, kinds=(SHEET,)), "A4", "metric", "The description was left out"),
        (SPARE, "Letter", "metric", "Paper: A4 → Letter"),
        (SPARE, "A4", "both", "Units: metric → both"),
        (replace(SPARE, ask="Which next?"), "A4", "metric",
         "The description's links, question or length were changed"),
        (replace(SPARE, heights=(1080,)), "A4", "metric", ""),
        (replace(SPARE, kinds=(*SPARE.kinds, "data")), "A4", "metric", ""),
    ],
)  # fmt: skip
def test_each_wish_is_named_plainly(
    shelf: SqlShelf, wishes: PublishWishes, paper: str, units: str, told: str
) -> None:
    record = record_now(shelf)
    older, newer = wanted_of(record, SPARE), wanted_of(record, wishes, paper, units)
    found = tuple(wished_between(older, newer))
    assert [change.sentence for change in found] == ([told] if told else [])
    assert all(isinstance(change, WishChange) for change in found)


def test_another_stand_in_check_is_told(shelf: SqlShelf) -> None:
    record = record_now(shelf)
    one, other = (
        wanted_of(record, replace(SPARE, stand_in=replace(STAND_IN, handbook=part)))
        for part in ("1", "2")
    )
    (change,) = wished_between(one, other)
    assert change.sentence == "The stand-in check was changed"


def test_chapters_are_added_where_there_are_some(shelf: SqlShelf) -> None:
    ticked = replace(SPARE, kinds=(*SPARE.kinds, CHAPTERS))
    read = record_now(shelf)
    (change,) = wished_between(wanted_of(read, SPARE), wanted_of(read, ticked))
    assert change.sentence == "Chapters and subtitles were added"
    unread = replace(read, readings=())
    assert wanted_of(unread, ticked) == wanted_of(unread, SPARE)
    misfit = replace(ticked, footage=(Footage(),) * 9)
    assert CHAPTERS in wanted_of(read, misfit)["parts"]


def test_wish_alone_leaves_no_correction_line(shelf: SqlShelf, clock: HandClock) -> None:
    put_out(shelf, clock, SPARE)
    record = record_now(shelf)
    wanted = wanted_of(record, WITH_CARDS)
    fresh = next_revision(shelf, record, "viewers asked for them", wanted=wanted)
    assert (fresh.revision, fresh.revision_lines) == (2, ())
    put_out(shelf, clock, WITH_CARDS)
    put_right(shelf, clock)
    record = record_now(shelf)
    wanted = wanted_of(record, replace(WITH_CARDS, large_print=True))
    (line,) = next_revision(shelf, record, wanted=wanted).revision_lines
    assert line.startswith("Revision 3: read a mark too low. Amber · ")
    made = put_out(shelf, clock, replace(WITH_CARDS, large_print=True))
    assert made.reason == "read a mark too low"
    assert thawed(shelf.published_record("l-1", 3))["changes"][-1] == "Large print was added"
    assert record_now(shelf).revision_lines == (line,)


def test_wish_lends_no_reason_to_a_changed_plan(shelf: SqlShelf, clock: HandClock) -> None:
    put_out(shelf, clock, SPARE)
    shelf.save_lineup(replace(shelf.lineup("l-1"), question="Another question?"))
    with pytest.raises(PublishRefused, match="needs its reason"):
        put_out(shelf, clock, WITH_CARDS)


def test_standing_tells_what_was_chosen(shelf: SqlShelf, clock: HandClock) -> None:
    put_out(shelf, clock, SPARE)
    record = record_now(shelf)
    same = going_out(shelf, record, SPARE)
    assert (same.revision, same.changed) == (1, False)
    told = going_out(shelf, record, WITH_CARDS, paper="Letter")
    assert (told.revision, told.changed, told.needs_reason) == (2, True, False)
    words = "cards were added; paper: A4 → Letter"
    assert told.standing == f"revision 1 is published; the record is the same, but {words}"
    assert told.reason == words


def test_licence_and_cards_are_both_told(shelf: SqlShelf, clock: HandClock) -> None:
    put_out(shelf, clock, SPARE)
    both = replace(WITH_CARDS, kinds=(*WITH_CARDS.kinds, "data"), licence="CC0-1.0")
    told = going_out(shelf, record_now(shelf), both)
    assert told.standing.endswith("would go out under CC0-1.0 now; cards were added")
    assert told.reason == "licence of the data: CC0-1.0; cards were added"


def test_records_frozen_before_wishes_say_nothing(shelf: SqlShelf) -> None:
    record = record_now(shelf)
    older = frozen(record)
    del older["wanted"], older["chosen"]
    assert changed_between(older, frozen(record, wanted=wanted_of(record, WITH_CARDS))) == ()
    assert changed_between(frozen(record, wanted=wanted_of(record, SPARE)), older) == ()
