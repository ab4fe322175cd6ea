"""The sum behind a number, opened at the bench."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from benchlog.settings import load_settings
from benchlog.window.bench.bench_sum import NOTHING
from benchlog.window.dialogs import open_dialog
from tests.window.bench_scenes import Seat

NO_MODIFIER = Qt.KeyboardModifier.NoModifier


def sum_of_seat(seat: Seat):
    """Wait for the dialog and return it."""
    seat.qtbot.waitUntil(lambda: getattr(seat.bench.sums, "dialog", None) is not None)
    dialog = seat.bench.sums.dialog
    seat.qtbot.waitUntil(lambda: QApplication.activeWindow() is dialog)
    return dialog


def spot_of(seat: Seat, attribute: str, column: int) -> QPoint:
    table = seat.bench.parts.table
    row = [r.attribute.key for r in seat.view.table].index(attribute)
    return table.visualItemRect(table.item(row, column)).center()


def test_key_opens_the_sum_of_the_latest_reading(seat: Seat) -> None:
    seat.answer("287.4")
    seat.press(Qt.Key.Key_F12, NO_MODIFIER)
    dialog = sum_of_seat(seat)
    assert dialog.view.title.text() == "Amber · Whole weight, as received"
    assert dialog.view.result.text().startswith("287.4")
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Escape)
    seat.qtbot.waitUntil(lambda: seat.place.focusWidget() is seat.entry)


def test_key_opens_the_sum_of_what_is_asked_when_it_has_readings(seat: Seat) -> None:
    seat.answer("287.4")
    seat.answer("312.4")
    seat.go_to("whole_mass", 0)
    seat.press(Qt.Key.Key_F12, NO_MODIFIER)
    assert sum_of_seat(seat).view.title.text().startswith("Amber · ")


def test_cell_with_the_keys_is_the_one_shown(seat: Seat) -> None:
    seat.answer("287.4")
    seat.answer("312.4")
    table = seat.bench.parts.table
    table.setFocus()
    table.setCurrentCell(0, 0)
    seat.press(Qt.Key.Key_Right, NO_MODIFIER)
    seat.press(Qt.Key.Key_F12, NO_MODIFIER)
    assert sum_of_seat(seat).view.title.text().startswith("Cobalt · ")


def test_double_click_on_a_value_opens_its_sum(seat: Seat) -> None:
    seat.answer("287.4")
    table, spot = seat.bench.parts.table.viewport(), spot_of(seat, "whole_mass", 0)
    QTest.mouseClick(table, Qt.MouseButton.LeftButton, pos=spot)
    QTest.mouseDClick(table, Qt.MouseButton.LeftButton, pos=spot)
    assert sum_of_seat(seat).view.title.text().startswith("Amber · ")


def test_context_menu_of_a_cell_offers_its_sum(seat: Seat) -> None:
    seat.answer("287.4")
    table = seat.bench.parts.table
    table.setCurrentCell(0, 0)
    (action,) = table.actions()
    action.trigger()
    assert sum_of_seat(seat).view.title.text().startswith("Amber · ")


def test_empty_cell_has_no_sum(seat: Seat) -> None:
    seat.answer("287.4")
    table = seat.bench.parts.table
    asked: list[tuple[str, str]] = []
    table.sum_wanted.connect(lambda key, who: asked.append((key, who)))
    table.setCurrentCell(0, 2)
    assert table.cell_here() is None
    table.actions()[0].trigger()
    assert asked == []


def test_nothing_read_is_said_in_words(seat: Seat) -> None:
    seat.press(Qt.Key.Key_F12, NO_MODIFIER)
    seat.qtbot.waitUntil(lambda: seat.strip == NOTHING)


def test_failed_working_out_is_told(seat: Seat, monkeypatch) -> None:
    from benchlog.errors import ShelfDamaged
    from benchlog.window.bench import bench_sum

    def damaged(_workshop, _lineup_id):
        raise ShelfDamaged("The shelf is damaged.", "Bring back a copy.")

    told: list[object] = []
    seat.desk.faults.told.connect(told.append)
    monkeypatch.setattr(bench_sum, "record_of", damaged)
    seat.press(Qt.Key.Key_F12, NO_MODIFIER)
    seat.qtbot.waitUntil(lambda: bool(told))
    assert told[0].what == "The shelf is damaged."
    assert seat.strip == ""


@pytest.mark.parametrize(("place", "kept"), [(0, "metric"), (1, "inch"), (2, "both")])
def test_units_shown_are_kept_and_change_no_entry(seat: Seat, qtbot, place: int, kept: str) -> None:
    dialog = open_dialog("settings", seat.bench)
    qtbot.waitExposed(dialog)
    dialog.shown.setCurrentIndex(place)
    dialog.accept()
    assert load_settings().units == kept
    assert load_settings().inch is False
    seat.go_to("can_height")
    assert seat.view.asked.unit == "mm"
