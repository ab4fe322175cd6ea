"""Judging blind by keys: nothing in the window tells whose part it is until the reveal."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication

from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.judge_blind import start_blind, unrevealed
from benchlog.window.verdict.blind_turn import BlindTurn
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed
from tests.window.verdict.judge_scenes import ALT, colours_in_sight, words_in_sight


@pytest.fixture
def blind(judge: Person) -> Person:
    """Someone who has chosen to judge pleats' evenness alone, the parts laid out."""
    open_blind(judge)
    tick_only(judge, "Pleat evenness")
    begin(judge)
    return judge


def turn(person: Person) -> BlindTurn:
    return person.place.blind


def open_blind(person: Person) -> None:
    person.press(Qt.Key.Key_B, ALT)
    person.until(lambda: turn(person).under_way)
    settle()


def tick_only(person: Person, label: str) -> None:
    """Walk down the list with the arrow keys and tick by Space what is wanted alone."""
    wanted = turn(person).choose.list
    assert person.focus is wanted
    person.press(Qt.Key.Key_Home)
    for n in range(wanted.count()):
        item = wanted.item(n)
        if (item.checkState() is Qt.CheckState.Checked) is not (label in item.text()):
            person.press(Qt.Key.Key_Space)
        person.press(Qt.Key.Key_Down)


def begin(person: Person) -> None:
    person.tab_to(turn(person).choose.go)
    person.press(Qt.Key.Key_Return)
    assert person.focus is turn(person).codes.show_list
    person.press(Qt.Key.Key_Return)
    assert person.focus is turn(person).codes.hide_list
    person.press(Qt.Key.Key_Return)
    assert person.focus is turn(person).asking


def nicknames(person: Person) -> list[str]:
    return [s.nickname for s in person.desk.teardown.lineup.specimens]


def test_what_counts_is_ticked(judge: Person) -> None:
    open_blind(judge)
    shown = turn(judge).choose.list
    ticked = {
        shown.item(n).text(): shown.item(n).checkState() is Qt.CheckState.Checked
        for n in range(shown.count())
    }
    assert ticked["pleats: Pleat evenness"]
    assert not ticked["can: Label (shown, never scored)"]


def test_nothing_ticked_cannot_begin(judge: Person) -> None:
    open_blind(judge)
    tick_only(judge, "no such thing")
    assert not turn(judge).choose.go.isEnabled()
    assert "Nothing is ticked" in turn(judge).choose.told.text()
    assert turn(judge).choose.chosen == ()


def test_list_of_codes_waits_to_be_asked_for(judge: Person) -> None:
    open_blind(judge)
    tick_only(judge, "Pleat evenness")
    judge.tab_to(turn(judge).choose.go)
    judge.press(Qt.Key.Key_Return)
    words = words_in_sight(judge.place)
    assert not [name for name in nicknames(judge) if name in words]
    judge.press(Qt.Key.Key_Return)
    run = turn(judge).run
    words = words_in_sight(judge.place)
    for owner, code in run.codes:
        name = next(s.nickname for s in judge.desk.teardown.lineup.specimens if s.id == owner)
        assert f"{code}    {name}" in words


def test_nothing_tells_whose_part_it_is(blind: Person) -> None:
    lineup = blind.desk.teardown.lineup
    words = words_in_sight(blind.place)
    assert not [s.nickname for s in lineup.specimens if s.nickname in words]
    assert colours_in_sight(blind.place, {s.colour.lower() for s in lineup.specimens}) == set()
    assert turn(blind).asking.code.text() in {code for _, code in turn(blind).run.codes}


def test_colours_would_be_noticed(judge: Person) -> None:
    lineup = judge.desk.teardown.lineup
    wanted = {s.colour.lower() for s in lineup.specimens}
    assert colours_in_sight(judge.place, wanted) == wanted


def test_one_key_answers_and_leads_on(blind: Person) -> None:
    asking, run = turn(blind).asking, turn(blind).run
    asked = []
    for n in range(len(run.codes)):
        assert asking.done.text() == f"{n} of {len(run.codes)} answered"
        asked.append(asking.code.text())
        blind.type("1")
    assert tuple(asked) == run.orders[0]
    assert turn(blind).currentWidget() is turn(blind).end
    taken = [r for r in blind.shelf.readings(blind.desk.lineup_id) if r.blind]
    assert len(taken) == len(run.codes)


def test_held_key_answers_once(blind: Person) -> None:
    asking = turn(blind).asking
    for again in (False, True, True):
        event = QKeyEvent(
            QEvent.Type.KeyPress, Qt.Key.Key_1, Qt.KeyboardModifier.NoModifier, "1", again
        )
        QApplication.sendEvent(asking, event)
    assert asking.done.text().startswith("1 of")


def test_could_not_tell_has_its_key(blind: Person) -> None:
    blind.type("0")
    assert "could not tell" in turn(blind).asking.told.text()
    assert blind.shelf.readings(blind.desk.lineup_id)[-1].word is None


def test_key_without_answer_does_nothing(blind: Person) -> None:
    blind.type("9x")
    assert turn(blind).asking.done.text().startswith("0 of")


def test_last_answer_is_taken_back(blind: Person) -> None:
    asking = turn(blind).asking
    first = asking.code.text()
    assert not asking.back.isEnabled()
    blind.type("1")
    assert asking.code.text() != first
    blind.press(Qt.Key.Key_Backspace)
    assert asking.code.text() == first
    assert asking.told.text().startswith("Taken back: ")


def test_nothing_to_take_back_is_said(blind: Person) -> None:
    blind.press(Qt.Key.Key_Backspace)
    assert "no answer to take back" in turn(blind).asking.told.text()


def test_pause_keeps_the_seal_and_goes_on_later(blind: Person) -> None:
    run = turn(blind).run
    blind.type("1")
    drawn: list[bool] = []
    blind.desk.curtain.connect(drawn.append)
    blind.press(Qt.Key.Key_Escape)
    assert drawn == [False]
    assert unrevealed(blind.shelf, blind.desk.lineup_id) == run
    blind.until(lambda: blind.place.currentWidget() is blind.place.page)
    blind.press(Qt.Key.Key_B, ALT)
    blind.until(lambda: turn(blind).under_way)
    assert drawn == [False, True]
    assert blind.focus is turn(blind).asking
    assert turn(blind).asking.done.text().startswith("1 of")


def test_early_end_asks_once_more(blind: Person) -> None:
    blind.tab_to(turn(blind).asking.end)
    blind.press(Qt.Key.Key_Return)
    end = turn(blind).end
    assert blind.focus is end.reveal
    blind.press(Qt.Key.Key_Return)
    assert "no answer yet" in end.told.text()
    assert blind.shelf.reveals(blind.desk.lineup_id) == []
    blind.tab_to(end.go_back)
    blind.press(Qt.Key.Key_Return)
    assert turn(blind).currentWidget() is turn(blind).asking


def test_reveal_shows_whose_part_was_which(blind: Person) -> None:
    run = turn(blind).run
    for _ in run.codes:
        blind.type("2")
    end = turn(blind).end
    assert not end.go_back.isVisible()
    assert blind.focus is end.reveal
    blind.press(Qt.Key.Key_Return)
    assert len(blind.shelf.reveals(blind.desk.lineup_id)) == 1
    words = words_in_sight(blind.place)
    assert all(name in words for name in nicknames(blind))
    assert blind.focus is end.done
    blind.press(Qt.Key.Key_Return)
    blind.until(lambda: blind.place.currentWidget() is blind.place.page)
    record = draw_up(blind.shelf, blind.desk.lineup_id, blind.desk.teardown.sequence)
    found = [f for (key, _), f in record.findings.items() if key == "pleat_evenness"]
    assert [finding.readings[-1].blind for finding in found] == [True, True, True]


def test_poll_is_entered_before_the_reveal(blind: Person) -> None:
    for _ in turn(blind).run.codes:
        blind.type("2")
    blind.tab_to(turn(blind).end.poll)
    blind.press(Qt.Key.Key_Return)
    blind.until(lambda: hasattr(blind.place, "poll_dialog"))
    dialog = blind.place.poll_dialog
    assert dialog.when.text().startswith("The reveal is still to come")
    dialog.reject()


def test_readings_elsewhere_show_no_names_meanwhile(blind: Person) -> None:
    blind.desk.recorded.emit()
    blind.place.watch.look()
    blind.until(lambda: not blind.place.watch._under_way)
    settle()
    assert blind.place.currentWidget() is turn(blind)
    blind.place.enter()
    assert blind.focus is turn(blind).asking


def test_bench_leads_to_blind_judging(judge: Person) -> None:
    judge.desk.blind_wanted.emit()
    assert turn(judge).under_way
    assert judge.focus is turn(judge).choose.list


def test_not_now_leads_back(judge: Person) -> None:
    open_blind(judge)
    judge.tab_to(turn(judge).choose.not_now)
    judge.press(Qt.Key.Key_Return)
    judge.until(lambda: judge.place.currentWidget() is judge.place.page)
    assert judge.shelf.blind_runs(judge.desk.lineup_id) == []


def test_run_that_began_elsewhere_is_refused_in_place(judge: Person) -> None:
    open_blind(judge)
    teardown = judge.desk.teardown
    start_blind(
        judge.shelf, judge.desk.workshop.clock, teardown.lineup.id, ("dents",),
        sequence=teardown.sequence,
    )  # fmt: skip
    judge.tab_to(turn(judge).choose.go)
    judge.press(Qt.Key.Key_Return)
    assert "not been revealed yet" in turn(judge).choose.told.text()


@pytest.mark.parametrize("size", SIZES)
def test_pages_are_named_and_not_cut_off(sample_desk, sit, size: str) -> None:
    person = sit(VerdictPlace, sample_desk, size)
    person.until(lambda: person.place.watch.record is not None)
    open_blind(person)
    looks(person)
    turn(person).choose.go.click()
    looks(person)
    turn(person).codes.show_list.click()
    looks(person)
    turn(person).codes.hide_list.click()
    for _ in range(9):
        looks(person)
        person.type("0")
    turn(person).asking.end.click()
    looks(person)
    turn(person).end.reveal.click()
    looks(person)
    turn(person).end.reveal.click()
    looks(person)


def looks(person: Person) -> None:
    settle()
    assert cut_off(person.place) == []
    assert unnamed(person.place) == []
