from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication

from benchlog.trade.sequence_file import load_sequence
from benchlog.window.bench.bench_place import BenchPlace
from benchlog.window.bench.done_words import done_words
from tests.window.bench_scenes import Seat, desk_over, planned, workshop_in

SPIN_ON = load_sequence("spin_on")
NO_PAD = Qt.KeyboardModifier.NoModifier


def test_plus_and_minus_walk_the_round(seat: Seat) -> None:
    seat.press(Qt.Key.Key_Plus)
    assert seat.asked == ("whole_mass", "Cobalt")
    seat.press(Qt.Key.Key_Minus)
    assert seat.asked == ("whole_mass", "Amber")


def test_round_turns(seat: Seat) -> None:
    seat.press(Qt.Key.Key_F7, NO_PAD)
    seat.press(Qt.Key.Key_Plus)
    assert seat.view.by_specimen
    assert seat.asked == ("dents", "Amber")


def test_done_station_says_how_to_go_on(seat: Seat) -> None:
    seat.go_to("gasket_lubed")
    seat.type("y")
    seat.type("n")
    assert "is done" not in seat.strip
    seat.type("y")
    here, following = seat.view.stations[2:4]
    assert here.missing == 0
    assert seat.asked == ("gasket_lubed", "Moss")
    assert seat.strip.endswith(f"{here.label} is done: pad + goes on to {following.label}.")
    seat.press(Qt.Key.Key_Plus)
    assert seat.view.station.key == following.key


def test_next_leaves_a_station_done_in_any_order(seat: Seat) -> None:
    for specimen in (2, 1, 0):
        seat.go_to("gasket_lubed", specimen)
        seat.type("y")
    assert seat.asked == ("gasket_lubed", "Amber")
    seat.press(Qt.Key.Key_Plus)
    assert seat.view.station.key == seat.view.stations[3].key


def test_next_walks_again_after_looking_elsewhere(seat: Seat) -> None:
    for specimen in range(3):
        seat.go_to("gasket_lubed", specimen)
        seat.type("y")
    seat.go_to("gasket_lubed", 0)
    seat.press(Qt.Key.Key_Plus)
    assert seat.asked == ("gasket_lubed", "Cobalt")


def test_last_station_done_names_what_is_missing(seat: Seat) -> None:
    view = seat.view
    rows = tuple(replace(r, missing=0, asked=3) for r in view.stations)
    last = replace(view, station=SPIN_ON.stations[-1], stations=rows, asked=None, missing=4)
    assert done_words(last, "pad +").endswith("is done; 4 answers are missing at other stations.")
    assert done_words(replace(last, missing=0), "pad +").endswith("and with it every station.")


def test_station_by_number(seat: Seat) -> None:
    seat.press(Qt.Key.Key_F5, NO_PAD)
    seat.answer("5")
    assert seat.view.station.key == "before_cut"
    assert seat.entry.hasFocus()


def test_station_by_letters(seat: Seat) -> None:
    seat.press(Qt.Key.Key_F5, NO_PAD)
    seat.answer("med")
    assert seat.view.station.key == "media"


def test_unknown_station_goes_nowhere(seat: Seat) -> None:
    seat.press(Qt.Key.Key_F5, NO_PAD)
    seat.answer("99")
    assert seat.view.station.key == "outside"
    assert "No station" in seat.bench.parts.finder.found.text()


def test_signs_needed_in_values_are_typed(seat: Seat) -> None:
    seat.type("8")
    seat.press(Qt.Key.Key_Minus)
    seat.press(Qt.Key.Key_1)
    seat.press(Qt.Key.Key_Slash)
    assert seat.entry.text() == "8-1/"


def test_moving_waits_while_something_is_typed(seat: Seat) -> None:
    seat.type("28")
    seat.press(Qt.Key.Key_PageDown, NO_PAD)
    assert seat.asked == ("whole_mass", "Amber")
    assert seat.entry.text() == "28"
    assert "'next' waits" in seat.strip


def test_clicked_station_waits_while_something_is_typed(seat: Seat) -> None:
    seat.type("28")
    seat.bench.parts.stations.wanted.emit("media")
    assert seat.view.station.key == "outside"
    assert seat.entry.text() == "28"


def test_pad_star_clears_what_is_typed(seat: Seat) -> None:
    seat.answer("287.4")
    seat.type("3")
    seat.press(Qt.Key.Key_Asterisk)
    assert seat.entry.text() == ""
    assert len(seat.readings()) == 1


def test_half_typed_text_survives(seat: Seat, qtbot, tmp_path: Path) -> None:
    seat.type("287.")
    shelf, lineup = seat.desk.workshop.shelf, seat.desk.lineup_id
    qtbot.waitUntil(lambda: shelf.place(lineup).half_typed == "287.")
    again = BenchPlace(desk_over(seat.desk.workshop))
    qtbot.addWidget(again)
    assert again.bench.parts.entry.field.text() == "287."
    assert again.bench.view.asked.attribute.key == "whole_mass"


def test_reopened_bench_stands_where_it_stood(qtbot, themed, tmp_path: Path) -> None:
    workshop = workshop_in(tmp_path / "other")
    lineup = planned(workshop)
    first = desk_over(workshop)
    first.open_lineup(lineup)
    first.teardown.go_to_station("media")
    first.teardown.next()
    workshop.close()
    workshop = workshop_in(tmp_path / "other")
    place = BenchPlace(desk_over(workshop))
    qtbot.addWidget(place)
    view = place.bench.view
    assert (view.station.key, view.asked.specimen.nickname) == ("media", "Cobalt")
    workshop.close()


def test_repeated_key_press_bounces_off(seat: Seat) -> None:
    seat.press(Qt.Key.Key_Plus)
    from PySide6.QtTest import QTest

    QTest.keyClick(seat.entry, Qt.Key.Key_Plus, Qt.KeyboardModifier.KeypadModifier)
    assert seat.asked == ("whole_mass", "Cobalt")
    seat.press(Qt.Key.Key_Plus)
    assert seat.asked == ("whole_mass", "Moss")


def test_kept_down_key_acts_once(seat: Seat) -> None:
    for repeated in (False, True, True):
        seat.pause()
        held = QKeyEvent(
            QEvent.Type.KeyPress,
            Qt.Key.Key_Plus,
            Qt.KeyboardModifier.KeypadModifier,
            "+",
            repeated,
        )
        QApplication.sendEvent(seat.entry, held)
    assert seat.asked == ("whole_mass", "Cobalt")


def test_typing_reaches_the_entry_from_elsewhere(seat: Seat) -> None:
    seat.bench.parts.table.setFocus()
    seat.type("28")
    assert seat.entry.text() == "28"
    assert seat.entry.hasFocus()


def test_cell_clicked_is_asked(seat: Seat) -> None:
    seat.bench.parts.table.cellClicked.emit(2, 1)
    assert seat.asked == ("can_diameter", "Cobalt")


def test_station_clicked_is_shown(seat: Seat) -> None:
    stations = seat.bench.parts.stations
    stations.itemClicked.emit(stations.item(10))
    assert seat.view.station.key == "media"


def test_one_way_step_wants_its_number(seat: Seat) -> None:
    seat.bench.hands.go_to_station("cut")
    page = seat.bench.parts.one_way
    assert page.isVisible()
    assert page.field.hasFocus()
    number = re.search(r"type  (\d{3})  and", page.ask.text()).group(1)
    wrong = "999" if number != "999" else "998"
    seat.type(wrong)
    seat.press(Qt.Key.Key_Enter)
    assert seat.view.yes_wanted
    assert wrong in page.wrong.text()
    seat.type(number)
    seat.press(Qt.Key.Key_Enter)
    assert not seat.view.yes_wanted
    assert seat.asked == ("cutting_tool", "Amber")
    assert seat.entry.hasFocus()


def test_one_way_page_tells_what_is_missing(seat: Seat) -> None:
    seat.answer("287.4")
    seat.bench.hands.go_to_station("cut")
    page = seat.bench.parts.one_way
    outside = next(row for row in seat.view.stations if row.key == "outside")
    assert f"Outside: {outside.missing} of {outside.asked}" in page.missing.shown
    assert set(seat.view.station.lost_after) == set(page.lost.shown)
    assert set(seat.view.station.cautions) == set(page.cautions.shown)


def test_one_way_number_changes_with_each_coming(seat: Seat) -> None:
    numbers = iter(("111", "222"))
    page = seat.bench.parts.one_way
    page._draw_number = lambda: next(numbers)
    seat.bench.hands.go_to_station("cut")
    assert page.number == "111"
    seat.bench.show_now()
    assert page.number == "111"
    page.not_yet.click()
    assert seat.view.station.key == "before_cut"
    seat.bench.hands.go_to_station("cut")
    assert page.number == "222"


def test_flag_keeps_what_is_typed(seat: Seat) -> None:
    seat.type("28")
    seat.press(Qt.Key.Key_F2, NO_PAD)
    assert seat.entry.text() == "28"
    assert len(seat.desk.workshop.shelf.moments(seat.desk.lineup_id)) == 1


def test_legend_acts_when_clicked(seat: Seat) -> None:
    from benchlog.window.keys import Action

    seat.bench.parts.legend.buttons[Action.NEXT].click()
    assert seat.asked == ("whole_mass", "Cobalt")
    assert seat.entry.hasFocus()


def test_legend_greys_out_what_cannot_act(seat: Seat) -> None:
    from benchlog.window.keys import Action

    buttons = seat.bench.parts.legend.buttons
    assert buttons[Action.NEXT].isEnabled()
    assert not buttons[Action.CLEAR].isEnabled()
    seat.type("2")
    assert not buttons[Action.NEXT].isEnabled()
    assert buttons[Action.CLEAR].isEnabled()
