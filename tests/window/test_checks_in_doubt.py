"""Readings in doubt at the bench, and putting a group right by keys."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from benchlog.tasks.bench_view import TableRow
from benchlog.window.bench.station_table import StationTable
from tests.window.bench_scenes import Seat
from tests.window.check_scenes_window import (
    NO_MODIFIER,
    SPOKEN,
    checks_of,
    equip,
    leave,
    show,
    tab_to,
)


@pytest.fixture
def doubted(seat: Seat) -> Seat:
    """A bench whose calliper read two diameters and then failed its closing check."""
    equip(seat)
    for text in ("76.2", "76.4"):
        seat.answer(text)
    dialog = checks_of(seat)
    show(seat, "0.05")
    leave(seat, dialog)
    seat.go_to("can_diameter")
    return seat


def spoken(table: StationTable) -> list[str]:
    said = [
        table.item(row, column).data(SPOKEN)
        for row in range(table.rowCount())
        for column in range(table.columnCount())
    ]
    return [words for words in said if "in doubt" in words]


def state(seat: Seat) -> list[str]:
    return [text for text in seat.cells("can_diameter") if text]


def test_doubt_is_told_in_one_line_and_in_the_table(doubted: Seat) -> None:
    asked = doubted.bench.parts.asked
    assert asked.checks.text() == (
        "Calliper · closing failed: 2 readings in doubt. F1 leads to its checks."
    )
    assert asked.checks.property("tone") == "warn"
    told = spoken(doubted.bench.parts.table)
    assert [one.partition(",")[0] for one in told] == ["Can outside diameter"] * len(state(doubted))


def test_sign_stands_beside_the_value(doubted: Seat) -> None:
    table = doubted.bench.parts.table
    with_sign = table.grab().toImage()
    view = doubted.view
    sure = tuple(
        TableRow(row.attribute, tuple(replace(cell, in_doubt=False) for cell in row.cells))
        for row in view.table
    )
    table.show_view(view)
    assert table.grab().toImage() == with_sign
    table.show_view(replace(view, table=sure))
    assert table.grab().toImage() != with_sign


def test_reason_is_wanted_and_a_value_is_none(doubted: Seat) -> None:
    dialog = checks_of(doubted)
    right = dialog.bracket.right
    tab_to(doubted, right.shift)
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert "needs its reason" in right.field.fault.text()
    assert right.reason.hasFocus()
    doubted.type("0.05 mm")
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert doubted.desk.workshop.shelf.group_corrections(doubted.desk.lineup_id) == []
    doubted.press(Qt.Key.Key_Tab, NO_MODIFIER)
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert "is a value, not a reason" in right.field.fault.text()
    assert doubted.desk.workshop.shelf.group_corrections(doubted.desk.lineup_id) == []


def test_spoiled_group_loses_its_values(doubted: Seat) -> None:
    dialog = checks_of(doubted)
    right = dialog.bracket.right
    assert "A shift takes it" in right.caution.text()
    tab_to(doubted, right.reason)
    doubted.type("dropped it in between")
    tab_to(doubted, right.spoil)
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    leave(doubted, dialog)
    assert set(", ".join(state(doubted)).split(", ")) == {"spoiled"}
    assert spoken(doubted.bench.parts.table) == []
    assert "with Calliper (put right)" in doubted.bench.parts.asked.how.text()
    assert doubted.bench.parts.asked.checks.isHidden()


def test_places_are_told_of_checks_and_corrections(doubted: Seat) -> None:
    told: list[bool] = []
    doubted.desk.recorded.connect(lambda: told.append(True))
    dialog = checks_of(doubted)
    show(doubted, "76.21")
    assert told == []
    tab_to(doubted, dialog.bracket.right.reason)
    doubted.type("a chip")
    tab_to(doubted, dialog.bracket.right.shift)
    doubted.press(Qt.Key.Key_Space, NO_MODIFIER)
    assert told == [True]
    assert doubted.view.tool_check.words == "put right"


def test_taking_back_can_be_left(doubted: Seat) -> None:
    dialog = checks_of(doubted)
    tab_to(doubted, dialog.bracket.right.reason)
    doubted.type("a chip")
    tab_to(doubted, dialog.bracket.right.shift)
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    done = dialog.bracket.done
    tab_to(doubted, done.buttons[0])
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert done.reason.hasFocus()
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert "needs its reason" in done.field.fault.text()
    tab_to(doubted, done.leave)
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert done.asking.isHidden()
    assert done.buttons[0].hasFocus()
    assert len(doubted.desk.workshop.shelf.group_corrections(doubted.desk.lineup_id)) == 1


def test_scratch_after_a_shift_says_where_to_go(doubted: Seat) -> None:
    dialog = checks_of(doubted)
    tab_to(doubted, dialog.bracket.right.reason)
    doubted.type("a chip")
    tab_to(doubted, dialog.bracket.right.shift)
    doubted.press(Qt.Key.Key_Return, NO_MODIFIER)
    leave(doubted, dialog)
    before = state(doubted)
    doubted.press(Qt.Key.Key_F8, NO_MODIFIER)
    assert "Take it back under Checks" in doubted.strip
    assert state(doubted) == before


def test_last_station_names_what_is_open(seat: Seat) -> None:
    equip(seat)
    dialog = checks_of(seat)
    show(seat, "0.00")
    leave(seat, dialog)
    seat.answer("76.2")
    assert seat.view.still_open == ()
    seat.bench.hands.go_to_station("close")
    checks = seat.bench.parts.asked.checks
    assert checks.text() == "No closing check yet: Calliper. F1 makes it."
    assert checks.property("tone") == "accent"
    seat.press(Qt.Key.Key_Plus)
    assert seat.view.station.key == "close"
    assert seat.bench.parts.strip.tone != "warn"
