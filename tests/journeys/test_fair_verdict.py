"""A fair verdict from the lock to the record: locked, cut, judged blind, revealed, overruled.

Everything is done with keys in the program's window, as a reviewer would; at the end the record
tells all of it, the change of a rule after the cut too.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from benchlog.judge.verdict import AwardKind
from benchlog.settings import Settings
from benchlog.tasks.edit_rules import rule_about
from benchlog.tasks.lock import lock_story
from benchlog.tasks.overruled_view import overruled_in
from benchlog.tasks.record import Record
from benchlog.tasks.verdict_view import value_rows
from benchlog.trade.component import Component
from benchlog.window.faults import Faults
from benchlog.window.main_window import MainWindow
from benchlog.window.theme import apply_theme, rescale
from benchlog.wiring import record_of
from tests.sheet.reading_back import words, write
from tests.window.bench_scenes import planned, workshop_in
from tests.window.place_scenes import NO_MODIFIER, Person, settle
from tests.window.verdict.judge_scenes import colours_in_sight, words_in_sight

ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
PAD = Qt.KeyboardModifier.KeypadModifier
WHY_CHANGED = "a dent from the post says nothing of the make"
WHY_DECLARED = "viewers asked for cans alone"
WHY_OVERRULED = "The dents came from the post, as the film shows."


class Reviewer(Person):
    """Someone in the program's window with a keyboard."""

    @property
    def bench(self) -> QWidget:
        return self.place.place("bench").bench

    def at(self, key: str) -> QWidget:
        return self.place.place(key)

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NO_MODIFIER) -> None:
        self.desk.workshop.clock.at_s += 1
        QTest.keyClick(QApplication.focusWidget(), key, modifiers)
        settle()

    def back_in_the_window(self) -> None:
        """A dialog has closed; the window manager gives the window the keys again."""
        self.place.activateWindow()
        self.until(lambda: self.focus is not None)

    def press_button(self, button: QPushButton) -> None:
        self.tab_to(button)
        self.press(Qt.Key.Key_Return)

    def record(self) -> Record:
        return record_of(self.desk.workshop, self.desk.lineup_id)


@pytest.fixture
def reviewer(qtbot, qapp, tmp_path: Path) -> Iterator[Reviewer]:
    qapp.setStyle("Fusion")
    apply_theme(qapp, "dark")
    rescale(qapp, QWidget(), 1.0)
    workshop = workshop_in(tmp_path / "shelf")
    planned(workshop)
    workshop.close()
    window = MainWindow(tmp_path / "shelf", Settings(sounds=False), Faults(), opener=workshop_in)
    qtbot.addWidget(window)
    window.resize(1366, 768)
    with qtbot.waitSignal(window.opened), qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    (brief,) = window.desk.workshop.shelf.lineups()
    window.desk.open_lineup(brief.id)
    window.show_place("bench")
    settle()
    yield Reviewer(qtbot, window.desk, window)
    window.close()


def lock_from_the_bench(reviewer: Reviewer) -> None:
    """The page before the cut says what is owed; its key leads to the rules."""
    assert reviewer.place.where.text().endswith("rules not locked")
    reviewer.bench.hands.go_to_station("cut")
    page = reviewer.bench.parts.one_way
    assert "The rules are not locked." in page.owed.shown
    reviewer.press(Qt.Key.Key_R, ALT)
    opener = reviewer.at("lineup").rules_opener
    reviewer.until(lambda: opener.dialog is not None)
    dialog = opener.dialog
    reviewer.until(lambda: reviewer.focus is dialog.table)
    reviewer.press_button(dialog.parts.lock)
    assert ", before the cut." in dialog.parts.state.text()
    reviewer.press_button(dialog.parts.close)
    reviewer.back_in_the_window()
    assert reviewer.place.where.text().endswith("rules locked")


def read_and_cut(reviewer: Reviewer) -> None:
    reviewer.press(Qt.Key.Key_3, CTRL)
    lineup = reviewer.desk.teardown.lineup
    reviewer.bench.hands.go_to("dents", lineup.specimens[0].id)
    for answer in "112":
        reviewer.desk.workshop.clock.at_s += 1  # past the lock-out of bouncing keys
        reviewer.type(answer)
    seen = [r.word for r in reviewer.shelf.readings(lineup.id) if r.attribute == "dents"]
    assert len(seen) == 3
    assert len(set(seen)) == 2
    reviewer.bench.hands.go_to_station("cut")
    page = reviewer.bench.parts.one_way
    assert "The rules are not locked." not in page.owed.shown
    reviewer.type(page.number)
    reviewer.press(Qt.Key.Key_Enter, PAD)
    assert not reviewer.bench.view.yes_wanted


def judge_blind(reviewer: Reviewer) -> None:
    """Judge the dents anew by codes: in the window nothing tells whose can it is."""
    reviewer.press(Qt.Key.Key_4, CTRL)
    verdict = reviewer.at("verdict")
    reviewer.until(lambda: verdict.currentWidget() is verdict.page)
    reviewer.press(Qt.Key.Key_B, ALT)
    reviewer.until(lambda: verdict.blind.under_way)
    choose = verdict.blind.choose
    for n in range(choose.list.count()):
        item = choose.list.item(n)
        wanted = item.text() == "can: Dents"
        if (item.checkState() is Qt.CheckState.Checked) is not wanted:
            reviewer.press(Qt.Key.Key_Space)
        reviewer.press(Qt.Key.Key_Down)
    reviewer.press_button(choose.go)
    reviewer.press(Qt.Key.Key_Return)
    reviewer.press(Qt.Key.Key_Return)
    specimens = reviewer.desk.teardown.lineup.specimens
    codes = {code for _, code in verdict.blind.run.codes}
    for _ in specimens:
        words = words_in_sight(reviewer.place)
        assert not [s.nickname for s in specimens if s.nickname in words]
        assert reviewer.desk.teardown.lineup.name not in words
        assert not colours_in_sight(reviewer.place, {s.colour.lower() for s in specimens})
        assert verdict.blind.asking.code.text() in codes
        reviewer.type("3")
        settle()
    record = reviewer.record()
    assert len(record.sealed) == len(specimens)
    reviewer.press(Qt.Key.Key_Return)
    assert all(s.nickname in words_in_sight(reviewer.place) for s in specimens)
    reviewer.press(Qt.Key.Key_Return)
    reviewer.until(lambda: verdict.currentWidget() is verdict.page)
    assert reviewer.place.where.text().endswith("rules locked")
    assert reviewer.place.top.isVisible()


def overrule_the_can(reviewer: Reviewer) -> None:
    """Overrule it, take that back, and overrule it again."""
    verdict = reviewer.at("verdict")
    reviewer.until(lambda: verdict.watch.record is not None and verdict.watch.record.reveals)
    settle()
    say_by_hand(reviewer)
    reviewer.press_button(verdict.why.take_back)
    reviewer.until(lambda: not verdict.why.take_back.isVisible())
    assert "; taken back on " in verdict.why.overruled.text()
    del verdict.overrule_dialog
    say_by_hand(reviewer)


def say_by_hand(reviewer: Reviewer) -> None:
    verdict = reviewer.at("verdict")
    verdict.scores.setFocus()
    while verdict.scores.component is not Component.CAN:
        reviewer.press(Qt.Key.Key_Down)
    reviewer.press(Qt.Key.Key_O, ALT)
    reviewer.until(lambda: hasattr(verdict, "overrule_dialog"))
    dialog = verdict.overrule_dialog
    reviewer.until(lambda: reviewer.focus is dialog.kinds)
    reviewer.press(Qt.Key.Key_Home)
    for _ in range(3):
        reviewer.press(Qt.Key.Key_Down)
    reviewer.tab_to(dialog.reason_text)
    reviewer.type(WHY_OVERRULED)
    reviewer.press_button(dialog.do)
    reviewer.back_in_the_window()
    reviewer.until(verdict.why.take_back.isVisible)
    assert "You say: different, not better." in verdict.why.overruled.text()


def declare_own_weights(reviewer: Reviewer) -> None:
    ranks = reviewer.at("verdict").ranks
    reviewer.press(Qt.Key.Key_K, ALT)
    reviewer.press(Qt.Key.Key_End)
    reviewer.tab_to(ranks.own.lines["can"])
    reviewer.type("3")
    reviewer.press(Qt.Key.Key_Return)
    reviewer.until(lambda: ranks.shown is not None)
    assert "It would be declared after the cut" in ranks.bar.said.text()
    reviewer.tab_to(ranks.bar.why)
    reviewer.type(WHY_DECLARED)
    reviewer.press_button(ranks.bar.do)
    reviewer.until(ranks.bar.back.isVisible)
    assert "It stands on the sheet." in ranks.bar.said.text()


def change_a_rule(reviewer: Reviewer) -> None:
    reviewer.press(Qt.Key.Key_2, CTRL)
    reviewer.press(Qt.Key.Key_U, ALT)
    opener = reviewer.at("lineup").rules_opener
    reviewer.until(lambda: opener.dialog is not None)
    dialog = opener.dialog
    reviewer.until(lambda: reviewer.focus is dialog.table)
    while dialog.table.subject != "dents":
        reviewer.press(Qt.Key.Key_Down)
    reviewer.tab_to(dialog.form.fields["weight"].editor)
    reviewer.press(Qt.Key.Key_A, CTRL)
    reviewer.type("1")
    reviewer.press(Qt.Key.Key_Tab)
    assert dialog.parts.reason.note.text().endswith("as a change after the cut.")
    reviewer.tab_to(dialog.parts.reason.editor)
    reviewer.type(WHY_CHANGED)
    reviewer.press_button(dialog.parts.lock)
    reviewer.press_button(dialog.parts.close)
    reviewer.back_in_the_window()
    assert reviewer.place.where.text().endswith("rules changed after the cut")


def test_record_tells_all_of_a_fair_verdict(reviewer: Reviewer, tmp_path: Path) -> None:
    lock_from_the_bench(reviewer)
    read_and_cut(reviewer)
    judge_blind(reviewer)
    overrule_the_can(reviewer)
    declare_own_weights(reviewer)
    change_a_rule(reviewer)
    record = reviewer.record()
    locked, changed = lock_story(record)
    assert f"digest {record.locks[0].digest[:12]}, were locked on " in locked
    assert locked.endswith(", before the cut.")
    assert f", after the cut, digest {record.locks[1].digest[:12]}." in changed
    assert f"Reason: {WHY_CHANGED}." in changed
    before = rule_about(record.locks[0].rules, "dents").weight
    assert f"Dents: weight {before:g} → 1" in changed
    assert record.cut_made
    assert rule_about(record.rules, "dents").weight == 1

    (run,), (reveal,) = record.blind_runs, record.reveals
    assert reveal.run_id == run.id
    assert record.sealed == frozenset()
    dents = next(r for r in value_rows(record, Component.CAN) if r.subject == "dents")
    assert [cell.blind for cell in dents.cells] == [True, True, True]
    assert len({cell.text for cell in dents.cells}) == 1

    said = overruled_in(record, Component.CAN)
    assert (said.kind, said.reason) == (AwardKind.DIFFERENT, WHY_OVERRULED)
    award = next(a for a in record.verdict.awards if a.component is Component.CAN)
    assert said.words == f"The rules gave: {award.kind}. You say: different, not better."

    assert [one.kind for one in record.overruling_log] == [
        AwardKind.DIFFERENT, None, AwardKind.DIFFERENT,
    ]  # fmt: skip
    assert record.declared is not None
    assert record.declared.declaration.after_cut
    text = words(write(record, tmp_path))
    assert "For own weights, declared by the reviewer" in text
    assert f"Reviewer’s why {WHY_DECLARED}." in text
    assert "Reviewer’s hand Overruled on " in text
    assert "Purpose Declared on " in text
