"""Judging the media blind by their pictures: looked through by keys, named by code alone."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from benchlog.window.theme import rescale
from benchlog.window.verdict.blind_question import LARGE, SMALL
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed
from tests.window.verdict.judge_scenes import words_in_sight
from tests.window.verdict.test_blind import begin, nicknames, open_blind, tick_only, turn


@pytest.fixture
def looking(judge: Person) -> Person:
    """Someone who judges blind, by pictures, what the media are."""
    open_blind(judge)
    tick_only(judge, "Media kind")
    begin(judge)
    look = turn(judge).asking.look
    judge.until(lambda: look.view.has_picture)
    return judge


def test_pictures_of_the_part_are_shown(looking: Person) -> None:
    asking = turn(looking).asking
    assert asking.look.isVisible()
    assert asking.code.property("px") == SMALL
    assert asking.look.caption.text().startswith("picture 1 of ")
    assert not set(nicknames(looking)) & set(" ".join(words_in_sight(looking.place)).split())


def test_arrows_lead_through_the_pictures(looking: Person) -> None:
    look = turn(looking).asking.look
    many = int(look.caption.text().split(" of ")[1].split(",")[0])
    assert many >= 2
    looking.press(Qt.Key.Key_Right)
    assert look.caption.text().startswith("picture 2 of ")
    looking.until(lambda: look.view.has_picture)
    whole = look.view.zoom
    looking.press(Qt.Key.Key_Plus)
    assert look.view.zoom > whole
    looking.press(Qt.Key.Key_Left)
    looking.press(Qt.Key.Key_Left)
    assert look.caption.text().startswith(f"picture {many} of ")


def test_answer_leads_to_the_next_parts_pictures(looking: Person) -> None:
    asking = turn(looking).asking
    code, seen = asking.code.text(), asking.look._pictures
    looking.press(Qt.Key.Key_1)
    assert asking.code.text() != code
    assert not set(asking.look._pictures) & set(seen)


def test_other_questions_show_the_code_alone(judge: Person) -> None:
    open_blind(judge)
    tick_only(judge, "Pleat evenness")
    begin(judge)
    asking = turn(judge).asking
    assert asking.look.isHidden()
    assert asking.code.property("px") == LARGE
    judge.press(Qt.Key.Key_Right)
    assert asking.look.number == 0


@pytest.mark.parametrize("size", list(SIZES))
def test_everything_has_room(looking: Person, qapp, size: str) -> None:
    width, height, unit = SIZES[size]
    looking.place.resize(width, height)
    rescale(qapp, looking.place, unit)
    looking.place.rescaled()
    settle()
    assert cut_off(turn(looking).asking) == []
    assert unnamed(turn(looking).asking) == []
