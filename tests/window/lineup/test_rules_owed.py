"""The page before the cut says that the rules are not locked, and leads to them."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from benchlog.judge.rules_file import load_rules
from benchlog.tasks.lock import lock_rules
from tests.window.bench_scenes import Seat

NOT_LOCKED = "The rules are not locked."


def lock(seat: Seat) -> None:
    workshop = seat.desk.workshop
    lock_rules(workshop.shelf, workshop.clock, seat.desk.lineup_id, load_rules())


def test_unlocked_rules_are_owed_before_the_cut(seat: Seat) -> None:
    seat.bench.hands.go_to_station("cut")
    page = seat.bench.parts.one_way
    assert NOT_LOCKED in page.owed.shown
    assert page.rules.isVisible()


def test_key_leads_to_the_rules(seat: Seat, qtbot) -> None:
    seat.bench.hands.go_to_station("cut")
    with qtbot.waitSignal(seat.desk.rules_wanted):
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_R, Qt.KeyboardModifier.AltModifier)


def test_locked_rules_are_owed_no_more(seat: Seat) -> None:
    lock(seat)
    seat.bench.hands.go_to_station("cut")
    assert NOT_LOCKED not in seat.bench.parts.one_way.owed.shown


def test_nothing_is_owed_at_the_next_one_way_step(seat: Seat) -> None:
    seat.bench.hands.go_to_station("cut")
    page = seat.bench.parts.one_way
    seat.type(page.number)
    seat.press(Qt.Key.Key_Enter)
    seat.bench.hands.go_to_station("unfold")
    assert page.isVisible()
    assert page.owed.shown == ()
    assert not page.rules.isVisible()


def test_bench_leads_to_blind_judging(seat: Seat) -> None:
    happened: list[str] = []
    seat.desk.go_to.connect(happened.append)
    seat.desk.blind_wanted.connect(lambda: happened.append("blind"))
    seat.bench.parts.menu.buttons["blind"].click()
    assert happened == ["verdict", "blind"]
