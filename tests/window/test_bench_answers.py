from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from benchlog.measure.state import State
from benchlog.window.bench.habits import Habits
from benchlog.window.bench.station_table import cell_words
from tests.window.bench_scenes import PAD, Seat

NO_PAD = Qt.KeyboardModifier.NoModifier


def test_three_specimens_by_keyboard_only(seat: Seat) -> None:
    for grams in ("287.4", "301.2", "255.0"):
        seat.answer(grams)
    assert seat.cells("whole_mass") == ["287.4 g", "301.2 g", "255.0 g"]
    assert [r.said.text for r in seat.readings()] == ["287.4", "301.2", "255.0"]
    assert seat.asked == ("dents", "Amber")
    assert seat.strip == "Moss · Whole weight, as received: 255.0 g"
    assert seat.bench.parts.strip.tone == "good"


def test_units_as_people_say_them(seat: Seat) -> None:
    seat.go_to("can_height")
    seat.answer('3 7/16"')
    assert seat.readings()[-1].si_value == pytest.approx(0.0873125)
    assert seat.cells("can_height")[0].startswith("3 7/16")


def test_one_digit_chooses(seat: Seat) -> None:
    seat.go_to("dents")
    wanted = seat.view.asked.choices[1]
    seat.type("2")
    assert seat.readings()[-1].word == wanted.key
    assert seat.cells("dents") == [wanted.label, "", ""]
    assert seat.entry.text() == ""


def test_first_letters_choose(seat: Seat) -> None:
    seat.go_to("dents")
    wanted = seat.view.asked.choices[0]
    seat.answer(wanted.label[:3])
    assert seat.readings()[-1].word == wanted.key


def test_y_answers_a_presence(seat: Seat) -> None:
    seat.go_to("gasket_lubed")
    seat.type("y")
    seat.type("n")
    assert [r.word for r in seat.readings()] == ["yes", "no"]


def test_habitual_enter_after_one_key_says_nothing(seat: Seat) -> None:
    seat.go_to("gasket_lubed")
    seat.type("y")
    said = seat.strip
    seat.enter()
    assert seat.asked == ("gasket_lubed", "Cobalt")
    assert (seat.strip, seat.bench.parts.strip.tone) == (said, "good")
    seat.enter()
    assert "Nothing was typed" in seat.strip


def test_enter_after_another_key_is_meant(seat: Seat) -> None:
    seat.go_to("gasket_lubed")
    seat.type("y")
    seat.press(Qt.Key.Key_Plus)
    seat.enter()
    assert "Nothing was typed" in seat.strip


def test_enter_that_would_weigh_is_habit_only_at_once() -> None:
    now = [10.0]
    habits = Habits(lambda: now[0])
    for waited, swallowed in ((0.3, True), (0.5, False)):
        habits.answered_by_one_key()
        now[0] += waited
        assert habits.enter_meant_before(would_do=True) is swallowed
        assert not habits.enter_meant_before(would_do=False)


def test_ambiguous_digit_waits_for_enter(seat: Seat) -> None:
    seat.go_to("thread_code")
    assert len(seat.view.asked.choices) >= 12
    seat.type("1")
    assert seat.entry.text() == "1"
    seat.type("2")
    seat.enter()
    assert seat.readings()[-1].word == seat.view.table[0].attribute.choices[11].key


def test_clicked_choice_answers(seat: Seat) -> None:
    seat.go_to("dents")
    wanted = seat.view.asked.choices[2]
    seat.bench.parts.choices.buttons[2].click()
    assert seat.readings()[-1].word == wanted.key


def test_pad_plus_makes_typed_an_estimate(seat: Seat) -> None:
    seat.type("280")
    seat.press(Qt.Key.Key_Plus)
    last = seat.readings()[-1]
    assert last.state is State.ESTIMATE
    assert last.said.approximate


def test_no_value_by_two_keys_and_enter(seat: Seat) -> None:
    seat.press(Qt.Key.Key_Slash)
    assert seat.bench.parts.no_value.isVisible()
    seat.press(Qt.Key.Key_3)
    seat.enter()
    (kept,) = seat.readings()
    assert (kept.state, kept.reason) == (State.COULD_NOT_TELL, "")
    assert seat.asked == ("whole_mass", "Cobalt")
    assert seat.cells("whole_mass")[0] == "could not tell"
    assert seat.bench.parts.table.isVisible()


@pytest.mark.parametrize("opens", [(Qt.Key.Key_Slash, PAD), (Qt.Key.Key_F3, NO_PAD)])
@pytest.mark.parametrize("enter", [(Qt.Key.Key_Enter, PAD), (Qt.Key.Key_Return, NO_PAD)])
@pytest.mark.parametrize("reason", ["", "no time"])
def test_one_enter_stores_one_state(seat: Seat, opens: tuple, enter: tuple, reason: str) -> None:
    seat.press(*opens)
    seat.press(Qt.Key.Key_2, NO_PAD)
    seat.type(reason)
    seat.press(*enter)
    assert [(r.state, r.reason) for r in seat.readings()] == [(State.NOT_MEASURED, reason)]
    assert seat.asked == ("whole_mass", "Cobalt")


def test_no_value_with_a_reason(seat: Seat) -> None:
    seat.press(Qt.Key.Key_Slash)
    seat.press(Qt.Key.Key_5)
    seat.answer("dropped it")
    (kept,) = seat.readings()
    assert (kept.state, kept.reason) == (State.SPOILED, "dropped it")


def test_no_value_ends_the_repeats(seat: Seat) -> None:
    seat.go_to("can_diameter")
    seat.press(Qt.Key.Key_Slash)
    seat.press(Qt.Key.Key_2)
    seat.enter()
    assert seat.asked == ("can_diameter", "Cobalt")
    ended = seat.view.table[2].cells[0]
    assert (ended.taken, ended.wanted) == (1, 1)
    assert cell_words(ended) == "not measured"
    seat.answer("76.1")
    assert cell_words(seat.view.table[2].cells[1]) == "76.1 mm  (1 of 2)"


def test_escape_leaves_the_panel_without_storing(seat: Seat) -> None:
    seat.press(Qt.Key.Key_Slash)
    seat.press(Qt.Key.Key_2)
    seat.press(Qt.Key.Key_Escape, NO_PAD)
    assert seat.readings() == []
    assert seat.entry.hasFocus()
    assert seat.bench.parts.entry.isVisible()


def test_panel_reaches_the_other_actions(seat: Seat) -> None:
    seat.press(Qt.Key.Key_Slash)
    seat.press(Qt.Key.Key_6)
    moments = seat.desk.workshop.shelf.moments(seat.desk.lineup_id)
    assert [moment.label for moment in moments] == ["Outside"]


def test_scratch_and_put_back(seat: Seat) -> None:
    seat.answer("287.4")
    seat.press(Qt.Key.Key_Asterisk)
    assert seat.cells("whole_mass")[0] == ""
    assert seat.asked == ("whole_mass", "Amber")
    assert "Scratched" in seat.strip
    seat.press(Qt.Key.Key_F9, NO_PAD)
    assert seat.cells("whole_mass")[0] == "287.4 g"
    assert len(seat.readings()) == 3


def test_unusual_value_wants_enter_once_more(seat: Seat) -> None:
    seat.answer("75.2")
    assert seat.readings() == []
    assert seat.entry.text() == "75.2"
    assert "press Enter once more" in seat.strip
    seat.enter()
    assert seat.cells("whole_mass")[0] == "75.2 g"


def test_changed_text_is_asked_afresh(seat: Seat) -> None:
    seat.answer("75.2")
    seat.press(Qt.Key.Key_Asterisk)
    seat.answer("81")
    assert seat.readings() == []
    assert "81 g" in seat.strip


@pytest.mark.parametrize("to_the_reason", [Qt.Key.Key_Tab, Qt.Key.Key_Down])
def test_impossible_value_wants_a_reason(seat: Seat, to_the_reason: Qt.Key) -> None:
    seat.answer("5000")
    reason = seat.bench.parts.strip.reason
    assert reason.isVisible()
    assert seat.entry.hasFocus()
    seat.enter()
    assert seat.readings() == []
    assert "press Tab and say why" in seat.strip
    seat.press(to_the_reason, NO_PAD)
    assert reason.hasFocus()
    seat.press(Qt.Key.Key_Return, NO_PAD)
    assert seat.readings() == []
    seat.type("truck filter")
    seat.press(Qt.Key.Key_Return, NO_PAD)
    (kept,) = seat.readings()
    assert (kept.said.text, kept.reason) == ("5000", "truck filter")
    assert seat.entry.hasFocus()


def test_impossible_value_is_typed_over(seat: Seat) -> None:
    seat.answer("50")
    seat.answer("287.4")
    (kept,) = seat.readings()
    assert (kept.said.text, kept.reason) == ("287.4", "")
    assert not seat.bench.parts.strip.reason.isVisible()


@pytest.mark.parametrize("back", [Qt.Key.Key_Escape, Qt.Key.Key_Up])
def test_reason_is_left_for_the_value(seat: Seat, back: Qt.Key) -> None:
    seat.answer("5000")
    seat.press(Qt.Key.Key_Tab, NO_PAD)
    seat.press(back, NO_PAD)
    assert seat.entry.hasFocus()
    assert seat.entry.text() == "5000"
    seat.answer("287.4")
    assert [r.said.text for r in seat.readings()] == ["287.4"]


def test_escape_drops_the_impossible_value(seat: Seat) -> None:
    seat.answer("5000")
    seat.press(Qt.Key.Key_Escape, NO_PAD)
    assert seat.entry.text() == ""
    assert seat.strip == ""
    assert not seat.bench.parts.strip.reason.isVisible()


@pytest.mark.parametrize("said", ["287.4", "~287 g", "3 7/16 in", "8 to 11 psi", "50?"])
def test_value_is_no_reason(seat: Seat, said: str) -> None:
    seat.answer("5000")
    seat.press(Qt.Key.Key_Tab, NO_PAD)
    seat.answer(said)
    assert seat.readings() == []
    assert seat.strip.startswith(f"'{said}' is a value, not a reason")
    seat.press(Qt.Key.Key_Escape, NO_PAD)
    seat.answer("287.4")
    assert [r.said.text for r in seat.readings()] == ["287.4"]


@pytest.mark.parametrize("said", ["truck filter", "2 cans in one", "weighed with its box"])
def test_words_are_a_reason(seat: Seat, said: str) -> None:
    seat.answer("5000")
    seat.press(Qt.Key.Key_Tab, NO_PAD)
    seat.answer(said)
    assert [r.reason for r in seat.readings()] == [said]


def test_refusal_keeps_the_text(seat: Seat) -> None:
    seat.answer("12 mm")
    assert seat.readings() == []
    assert seat.entry.text() == "12 mm"
    assert seat.bench.parts.strip.tone == "warn"
    assert "mass" in seat.strip


def test_repeats_are_counted(seat: Seat) -> None:
    seat.go_to("can_diameter")
    assert seat.view.asked.wanted == 2
    seat.answer("76.1")
    assert seat.asked == ("can_diameter", "Amber")
    assert seat.bench.parts.banner.accessibleDescription().endswith("reading 2 of 2")
    seat.answer("76.3")
    assert seat.asked == ("can_diameter", "Cobalt")
