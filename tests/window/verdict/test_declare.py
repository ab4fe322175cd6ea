"""A purpose is looked at, declared by keys, found again, and taken back."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt

from benchlog.judge.purposes_file import load_purposes
from benchlog.tasks.declare import declare_purpose
from benchlog.tasks.own_purpose import own_purpose
from benchlog.window.verdict.ranks_page import ELSEWHERE
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_scenes import Person, settle
from tests.window.verdict.judge_scenes import worked_out
from tests.window.verdict.test_ranks_page import declare as look_at
from tests.window.verdict.test_ranks_page import open_ranks

PRICE = next(p for p in load_purposes() if p.key == "price")


def declarations(person: Person) -> list[object]:
    return person.desk.workshop.shelf.declarations(person.desk.lineup_id)


def press(person: Person, button: object) -> None:
    person.tab_to(button)
    with worked_out(person):
        person.press(Qt.Key.Key_Space)
    settle()


def test_looking_declares_nothing(judge: Person) -> None:
    open_ranks(judge)
    assert not judge.place.ranks.bar.why.isVisible()
    look_at(judge, "Price")
    assert "not on the sheet" in judge.place.ranks.bar.said.text()
    assert "after the cut" in judge.place.ranks.bar.said.text()
    assert declarations(judge) == []


def test_declared_by_keys_with_its_reason(judge: Person) -> None:
    open_ranks(judge)
    look_at(judge, "Price")
    bar = judge.place.ranks.bar
    judge.tab_to(bar.why)
    judge.type("viewers asked")
    press(judge, bar.do)
    (made,) = declarations(judge)
    assert (made.purpose, made.reason, made.after_cut) == (PRICE, "viewers asked", True)
    assert bar.said.text().startswith("“Price”, version 1, was declared on ")
    assert bar.said.text().endswith(", after the cut. It stands on the sheet.")
    assert bar.why.text() == ""
    assert not bar.do.isVisible()
    assert judge.focus is bar.back
    assert judge.place.ranks.lead.text().startswith("In the mean of all draws ")


def test_taken_back_by_keys(judge: Person) -> None:
    test_declared_by_keys_with_its_reason(judge)
    press(judge, judge.place.ranks.bar.back)
    assert [one.purpose for one in declarations(judge)] == [PRICE, None]
    assert "not on the sheet" in judge.place.ranks.bar.said.text()
    assert judge.place.watch.record.declared is None


def test_another_is_declared_instead(judge: Person) -> None:
    test_declared_by_keys_with_its_reason(judge)
    bar = judge.place.ranks.bar
    judge.place.ranks.purposes.setFocus()
    judge.press(Qt.Key.Key_Home)
    assert bar.back.isVisible()
    assert judge.place.ranks.nothing.text() == ELSEWHERE
    look_at(judge, "Cold starts")
    assert bar.said.text().startswith("Looked at only. “Price”, version 1, was declared on ")
    assert bar.do.text() == "Declare this one instead"
    press(judge, bar.do)
    assert [one.purpose.key for one in declarations(judge)] == ["price", "cold_starts"]


def opened_with(sample_desk, sit, purpose) -> Person:
    workshop = sample_desk.workshop
    declare_purpose(workshop.shelf, workshop.clock, sample_desk.lineup_id, purpose)
    person = sit(VerdictPlace, sample_desk)
    person.until(lambda: person.place.ranks.shown is not None)
    settle()
    assert person.place.ranks.purpose == purpose
    assert "It stands on the sheet." in person.place.ranks.bar.said.text()
    return person


def test_lineup_opens_with_the_declared_one(sample_desk, sit) -> None:
    person = opened_with(sample_desk, sit, PRICE)
    assert person.place.ranks.purposes.currentItem().text() == "Price"


def test_lineup_opens_with_own_weights(sample_desk, sit) -> None:
    person = opened_with(sample_desk, sit, own_purpose({"can": "3", "media": "open"}))
    ranks = person.place.ranks
    assert ranks.own.texts == {"can": "3", "media": "open"}
    assert ranks.bar.said.text().startswith("The reviewer's own weights (")
    assert person.desk.settings.own_weights == {}


def test_lineup_opens_with_a_purpose_of_old(sample_desk, sit) -> None:
    old = replace(PRICE, version="0", open_share=0.25)
    person = opened_with(sample_desk, sit, old)
    assert person.place.ranks.purposes.currentItem().text() == "“Price”, version 0"
