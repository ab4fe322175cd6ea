"""Ranks by the reviewer's own weights: typed by keys, used at once, kept on the machine."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from benchlog.settings import load_settings
from benchlog.window.verdict.ranks_page import RanksPage
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed
from tests.window.verdict.judge_scenes import ALT


def open_own(person: Person) -> RanksPage:
    """Open the ranks and go down to the last purpose, which is the reviewer's own."""
    person.press(Qt.Key.Key_K, ALT)
    person.press(Qt.Key.Key_End)
    return person.place.ranks


def weigh(person: Person, component: str, text: str) -> None:
    """Reach a component's line with Tab, type and leave it by Enter."""
    person.tab_to(person.place.ranks.own.lines[component])
    person.press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    person.type(text)
    person.press(Qt.Key.Key_Return)


def ranked(person: Person) -> None:
    ranks = person.place.ranks
    person.until(lambda: ranks.shown is not None and ranks.shown.purpose == ranks.purpose)
    settle()


def test_form_stands_under_its_purpose_alone(judge: Person) -> None:
    ranks = open_own(judge)
    assert ranks.purposes.currentItem().text() == "Your own weights"
    assert ranks.own.isVisible()
    assert "No component weighs anything yet" in ranks.nothing.text()
    judge.press(Qt.Key.Key_Up)
    assert not ranks.own.isVisible()


def test_typed_weights_rank_at_once(judge: Person) -> None:
    ranks = open_own(judge)
    weigh(judge, "can", "3")
    ranked(judge)
    assert ranks.middle.currentWidget() is ranks.tables
    assert ranks.made.text().startswith("Your own weights: can 3, all others 0. ")
    weigh(judge, "media", "open")
    ranked(judge)
    assert ranks.made.text().startswith("Your own weights: can 3, media open, all others 0. ")
    assert "can 50 %; 50 % left open among media" in ranks.about.text()


def test_weights_are_kept_on_the_machine(judge: Person) -> None:
    open_own(judge)
    weigh(judge, "can", "3")
    ranked(judge)
    assert load_settings().own_weights == {"can": "3"}
    again = RanksPage(judge.desk)
    judge.qtbot.addWidget(again)
    assert again.own.lines["can"].text() == "3"
    assert again.purpose is None
    again.purposes.setCurrentRow(again.purposes.count() - 1)
    assert again.purpose == judge.place.ranks.purpose


def test_unfit_weight_is_told_and_not_kept(judge: Person) -> None:
    ranks = open_own(judge)
    weigh(judge, "can", "3")
    ranked(judge)
    weigh(judge, "media", "12")
    assert ranks.own.fault.text().startswith("media: '12' is no weight.")
    assert ranks.own.lines["media"].accessibleDescription() == ranks.own.fault.text()
    assert ranks.nothing.text() == ranks.own.fault.text()
    assert ranks.middle.currentWidget() is ranks.nothing
    assert judge.focus is ranks.own.lines["media"]
    assert load_settings().own_weights == {"can": "3"}
    weigh(judge, "media", "1")
    assert not ranks.own.fault.isVisible()
    ranked(judge)
    assert load_settings().own_weights == {"can": "3", "media": "1"}


def test_all_weights_taken_away_rank_nobody(judge: Person) -> None:
    ranks = open_own(judge)
    weigh(judge, "can", "3")
    ranked(judge)
    weigh(judge, "can", "0")
    assert ranks.shown is None
    assert "No component weighs anything yet" in ranks.nothing.text()


def test_kept_nonsense_does_no_harm(judge: Person) -> None:
    kept = {"can": "much", "engine": "3", "media": 4}
    judge.desk.settings = replace(judge.desk.settings, own_weights=kept)
    page = RanksPage(judge.desk)
    judge.qtbot.addWidget(page)
    page.purposes.setCurrentRow(page.purposes.count() - 1)
    assert page.own.texts == {"can": "much"}
    assert page.purpose is None
    assert "'much' is no weight" in page.nothing.text()


@pytest.mark.parametrize("size", SIZES)
def test_form_is_named_and_not_cut_off(sample_desk, sit, size: str) -> None:
    person = sit(VerdictPlace, sample_desk, size)
    person.until(lambda: person.place.watch.record is not None)
    open_own(person)
    weigh(person, "can", "3")
    weigh(person, "media", "open")
    ranked(person)
    assert unnamed(person.place) == []
    line = person.place.ranks.own.lines["media"]
    assert person.focus is line
    person.until(lambda: line.visibleRegion().boundingRect() == line.rect())
    assert cut_off(person.place) == []
