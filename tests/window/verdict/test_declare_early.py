"""Before the first reading a purpose is chosen, weighed, declared and taken back by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from benchlog.judge.purposes_file import load_purposes
from benchlog.tasks.declare import declare_purpose
from benchlog.tasks.draft import fresh_draft, save_draft, with_heading
from benchlog.tasks.purpose_view import NO_TOTAL
from benchlog.tasks.rank_view import NOTHING_TO_RANK
from benchlog.window.verdict.verdict_place import NOTHING_READ, VerdictPlace
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed
from tests.window.verdict.judge_scenes import ALT, worked_out
from tests.window.verdict.test_declare import declarations, press
from tests.window.verdict.test_ranks_page import declare as look_at
from tests.window.verdict.test_ranks_page import open_ranks

PRICE = next(p for p in load_purposes() if p.key == "price")


def unread(desk) -> str:
    draft = with_heading(fresh_draft(desk.workshop.clock), name="Unread")
    desk.open_lineup(save_draft(desk.workshop.shelf, draft).id)
    return desk.lineup_id


def seated(desk, sit, size: str = "1366 × 768") -> Person:
    person = sit(VerdictPlace, desk, size)
    person.until(lambda: person.place.watch.record is not None)
    settle()
    return person


@pytest.fixture
def early(desk, sit) -> Person:
    """Someone at the verdict of a line-up that has no reading yet."""
    unread(desk)
    return seated(desk, sit)


def test_unread_parts_tell_of_the_ranks(early: Person) -> None:
    place = early.place
    assert place.unread.words.text() == NOTHING_READ
    assert "under Ranks" in NOTHING_READ
    assert place.unread.isVisible()
    assert not place.parts.isVisible()
    for judging in (place.head.rules, place.head.rules_caption, place.head.blind, place.head.poll):
        assert not judging.isVisible()


def test_nothing_to_rank_is_said_before_readings(early: Person) -> None:
    open_ranks(early)
    ranks = early.place.ranks
    assert ranks.nothing.text() == NO_TOTAL
    for label in ("Long interval", "Price"):
        look_at(early, label)
        assert ranks.nothing.text() == NOTHING_TO_RANK
        assert ranks.middle.currentWidget() is ranks.nothing
        assert not ranks.said.isVisible()
    assert "price paid 50 %" in ranks.about.text()
    assert declarations(early) == []


def test_declared_before_the_first_reading(early: Person) -> None:
    open_ranks(early)
    look_at(early, "Price")
    bar = early.place.ranks.bar
    assert "after the cut" not in bar.said.text()
    early.tab_to(bar.why)
    early.type("settled beforehand")
    press(early, bar.do)
    (made,) = declarations(early)
    assert (made.purpose, made.reason) == (PRICE, "settled beforehand")
    assert (made.after, made.after_cut) == ("", False)
    assert bar.said.text().endswith(", before the cut. It stands on the sheet.")
    assert early.focus is bar.back
    assert early.place.ranks.nothing.text() == NOTHING_TO_RANK


def test_taken_back_before_the_first_reading(early: Person) -> None:
    test_declared_before_the_first_reading(early)
    press(early, early.place.ranks.bar.back)
    assert [one.purpose for one in declarations(early)] == [PRICE, None]
    assert early.place.watch.record.declared is None
    assert early.focus is early.place.ranks.bar.do


def test_unread_lineup_opens_with_its_purpose(desk, sit) -> None:
    workshop = desk.workshop
    declare_purpose(workshop.shelf, workshop.clock, unread(desk), PRICE)
    person = seated(desk, sit)
    assert person.focus is person.place.unread.go
    open_ranks(person)
    assert person.place.ranks.purpose == PRICE
    assert "It stands on the sheet." in person.place.ranks.bar.said.text()


def test_coming_back_stands_at_the_ranks(early: Person) -> None:
    open_ranks(early)
    early.place.head.views.setFocus()
    early.place.enter()
    settle()
    assert early.focus is early.place.ranks.purposes
    early.press(Qt.Key.Key_T, ALT)
    assert early.focus is early.place.unread.go


def test_no_sum_opens_before_readings(sample_desk, sit) -> None:
    person = seated(sample_desk, sit)
    lineup = unread(sample_desk)
    person.until(lambda: (r := person.place.watch.record) is not None and r.lineup.id == lineup)
    settle()
    assert person.focus is person.place.unread.go
    person.press(Qt.Key.Key_F12)  # the numbers behind are another line-up's
    assert not hasattr(person.place, "sum_dialog")
    assert person.told == []


def test_first_reading_brings_the_parts(early: Person) -> None:
    open_ranks(early)
    look_at(early, "Price")
    early.desk.teardown.go_to_station("outside")
    early.desk.teardown.accept("412 g", sure=True)
    with worked_out(early):
        early.desk.recorded.emit()
    ranks = early.place.ranks
    early.until(lambda: ranks.nothing.text() != NOTHING_TO_RANK)
    assert "Fewer than two specimens" in ranks.nothing.text()
    assert early.place.head.rules.isVisible()
    early.press(Qt.Key.Key_T, ALT)
    assert early.focus is early.place.scores
    assert not early.place.unread.isVisible()


@pytest.mark.parametrize("size", SIZES)
def test_unread_ranks_are_not_cut_off(desk, sit, size: str) -> None:
    unread(desk)
    person = seated(desk, sit, size)
    assert cut_off(person.place) == []
    open_ranks(person)
    look_at(person, "Cold starts")
    assert cut_off(person.place) == []
    assert unnamed(person.place) == []
