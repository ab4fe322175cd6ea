"""The reviewer's hand: overruling, remarks, looks under other rules, viewers' polls."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics

from benchlog.judge.rules_file import load_rules
from benchlog.judge.verdict import AwardKind
from benchlog.tasks.overruled_view import short_of
from benchlog.tasks.own_sets import save_own_set
from benchlog.tasks.sets_view import IN_FORCE
from benchlog.trade.component import Component
from benchlog.window.theme import font_of, px
from benchlog.window.verdict.poll_dialog import AFTER
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed
from tests.window.verdict.judge_scenes import ALT, choose, outcome_spoken, worked_out

REASON = "The dent came from the post, as the film shows."


def open_overrule(person: Person) -> object:
    choose(person, Component.CAN)
    person.press(Qt.Key.Key_O, ALT)
    person.until(lambda: hasattr(person.place, "overrule_dialog"))
    dialog = person.place.overrule_dialog
    person.until(lambda: person.focus is dialog.kinds)
    return dialog


def open_poll(person: Person) -> object:
    person.press(Qt.Key.Key_V, ALT)
    person.until(lambda: hasattr(person.place, "poll_dialog"))
    dialog = person.place.poll_dialog
    person.until(lambda: person.focus is dialog.question)
    return dialog


def overrule(person: Person, downs: int, reason: str = REASON) -> None:
    """Choose the award so many rows below the first, type the reason, and press Enter."""
    dialog = open_overrule(person)
    person.press(Qt.Key.Key_Home)
    for _ in range(downs):
        person.press(Qt.Key.Key_Down)
    person.tab_to(dialog.reason_text)
    person.type(reason)
    person.tab_to(dialog.do)
    person.press(Qt.Key.Key_Return)


def test_overruled_award_stands_beside_the_rules(judge: Person) -> None:
    with worked_out(judge):
        overrule(judge, 2)
    settle()
    why = judge.place.why
    assert why.overruled.isVisible()
    assert why.overruled.text().startswith("The rules gave: winner, Cobalt. You say: tie.")
    assert REASON in why.overruled.text()
    said = outcome_spoken(judge, Component.CAN)
    assert said.startswith("can: winner;")
    assert "You say: tie." in said
    assert judge.place.focusWidget() is why.overrule  # has the keys once its window has them


@pytest.mark.parametrize("kind", AwardKind)
def test_every_award_by_hand_fits_its_column(judge: Person, kind: AwardKind) -> None:
    """What was overruled stands below the outcome, behind a small mark, uncut."""
    scores = judge.place.scores
    room = scores.columnWidth(1) - px(28) - 3 * px(6) - px(12)
    assert QFontMetrics(font_of(12, bold=True)).horizontalAdvance(short_of(kind)) <= room


def test_winners_are_ticked_by_keys(judge: Person) -> None:
    dialog = open_overrule(judge)
    judge.press(Qt.Key.Key_Home)
    *_, third = dialog.boxes.values()
    judge.tab_to(third)
    judge.press(Qt.Key.Key_Space)
    judge.tab_to(dialog.reason_text)
    judge.type(REASON)
    judge.tab_to(dialog.do)
    with worked_out(judge):
        judge.press(Qt.Key.Key_Return)
    standing = judge.place.watch.record.overrulings[Component.CAN]
    assert standing.kind is AwardKind.WINNER
    assert standing.winners == (judge.place.watch.record.lineup.specimens[2].id,)


def test_award_of_all_names_nobody(judge: Person) -> None:
    dialog = open_overrule(judge)
    judge.press(Qt.Key.Key_Home)
    assert all(box.isEnabled() for box in dialog.boxes.values())
    judge.press(Qt.Key.Key_Down)
    judge.press(Qt.Key.Key_Down)
    assert not any(box.isEnabled() for box in dialog.boxes.values())
    judge.press(Qt.Key.Key_Escape)


def test_overruling_without_reason_is_refused_in_place(judge: Person) -> None:
    overrule(judge, 2, "")
    dialog = judge.place.overrule_dialog
    assert dialog.isVisible()
    assert "needs its reason" in dialog.told.text()
    assert judge.focus is dialog.reason_text
    judge.press(Qt.Key.Key_Escape)
    assert judge.shelf.overrulings(judge.desk.lineup_id) == []


def test_wrong_number_of_winners_leads_to_the_boxes(judge: Person) -> None:
    overrule(judge, 1)
    dialog = judge.place.overrule_dialog
    assert "two or more" in dialog.told.text()
    assert judge.focus in dialog.boxes.values()
    judge.press(Qt.Key.Key_Escape)


def test_overruling_is_taken_back(judge: Person) -> None:
    assert not judge.place.why.take_back.isVisible()
    with worked_out(judge):
        overrule(judge, 2)
    settle()
    judge.place.activateWindow()
    judge.until(lambda: judge.focus is judge.place.why.overrule)
    judge.tab_to(judge.place.why.take_back)
    with worked_out(judge):
        judge.press(Qt.Key.Key_Return)
    said = judge.place.why.overruled.text()
    assert said.startswith("Overruled on ")
    assert "; taken back on " in said
    assert not judge.place.why.take_back.isVisible()
    assert len(judge.shelf.overrulings(judge.desk.lineup_id)) == 2


def test_flagged_words_are_offered_others(judge: Person) -> None:
    why = judge.place.why
    why.own.setFocus()
    judge.type("Cobalt filters better.")
    assert why.remark.why.isVisible()
    assert "“filters better”" in why.remark.why.text()
    judge.press(Qt.Key.Key_Tab)
    assert judge.focus is why.remark.instead
    judge.press(Qt.Key.Key_Return)
    assert "filters better" not in why.own.toPlainText()
    assert why.own.toPlainText().startswith("Cobalt the maker claims")
    assert judge.focus is why.own
    assert not why.remark.why.isVisible()


def test_flagged_words_are_underlined(judge: Person) -> None:
    own = judge.place.why.own
    own.setFocus()
    judge.type("It filters better here.")
    marks = own.document().firstBlock().layout().formats()
    assert [(m.start, m.length) for m in marks] == [(3, len("filters better"))]
    own.setPlainText("It is thicker.")
    assert own.document().firstBlock().layout().formats() == []


def test_words_put_instead_may_be_undone(judge: Person) -> None:
    own = judge.place.why.own
    own.setFocus()
    judge.type("It filters better.")
    judge.place.why.remark.instead.click()
    judge.press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert own.toPlainText() == "It filters better."


def look_under_other(judge: Person) -> None:
    workshop = judge.desk.workshop
    softer = replace(load_rules(), meaningful_score=6.0)
    save_own_set(workshop.shelf, workshop.clock, softer, "Hard to win")
    judge.place.enter()
    rules = judge.place.head.rules
    rules.setFocus()
    assert rules.currentText() == IN_FORCE
    with worked_out(judge):
        judge.press(Qt.Key.Key_Down)


def test_other_rules_are_a_look_only(judge: Person) -> None:
    own = judge.place.watch.record
    locks = judge.shelf.rules_locks(judge.desk.lineup_id)
    look_under_other(judge)
    settle()
    record = judge.place.watch.record
    assert record.rules.label == "Hard to win"
    assert record.verdict.awards != own.verdict.awards
    assert judge.place.head.look_strip.isVisible()
    assert "“Hard to win”, version 1" in judge.place.head.look.text()
    assert not judge.place.why.overrule.isEnabled()
    assert not judge.place.why.own.isEnabled()
    assert cut_off(judge.place) == []
    assert judge.shelf.rules_locks(judge.desk.lineup_id) == locks


def test_own_rules_come_back(judge: Person) -> None:
    own = judge.place.watch.record
    look_under_other(judge)
    with worked_out(judge):
        judge.press(Qt.Key.Key_Up)
    settle()
    assert judge.place.watch.record.verdict == own.verdict
    assert not judge.place.head.look_strip.isVisible()
    assert judge.place.why.overrule.isEnabled()


def test_poll_is_kept_and_shown_beside_the_result(judge: Person) -> None:
    assert not judge.place.head.polls.isVisible()
    dialog = open_poll(judge)
    assert dialog.when.text() == AFTER
    judge.type("Which would you have bought?")
    for votes in ("120", "60", "20"):
        judge.press(Qt.Key.Key_Tab)
        judge.press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        judge.type(votes)
    judge.tab_to(dialog.keep)
    with worked_out(judge):
        judge.press(Qt.Key.Key_Return)
    settle()
    assert judge.place.head.polls.isVisible()
    assert "Amber 60%" in judge.place.head.polls.text()
    assert cut_off(judge.place) == []


def test_poll_without_votes_is_refused_in_place(judge: Person) -> None:
    dialog = open_poll(judge)
    judge.type("Which one?")
    judge.press(Qt.Key.Key_Return)
    assert dialog.isVisible()
    assert "Nobody voted" in dialog.told.text()
    judge.press(Qt.Key.Key_Escape)
    assert judge.shelf.polls(judge.desk.lineup_id) == []


@pytest.mark.parametrize("size", SIZES)
def test_dialogs_are_named_and_not_cut_off(sample_desk, sit, size: str) -> None:
    person = sit(VerdictPlace, sample_desk, size)
    person.until(lambda: person.place.watch.record is not None)
    dialog = open_overrule(person)
    person.tab_to(dialog.reason_text)
    person.type("It filters better.")
    settle()
    assert cut_off(dialog) == []
    assert unnamed(dialog) == []
    dialog.reject()
    person.place.head.poll.click()
    settle()
    assert cut_off(person.place.poll_dialog) == []
    assert unnamed(person.place.poll_dialog) == []
    person.place.poll_dialog.reject()
