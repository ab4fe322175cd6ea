"""Checking instruments at the bench, by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from benchlog.measure.check import CheckMoment
from benchlog.window.keys import Action
from benchlog.window.theme import rescale
from tests.window.bench_scenes import PlainScale, Seat
from tests.window.check_scenes_window import (
    CALLIPER,
    NO_MODIFIER,
    SCALE,
    SPOKEN,
    checks_of,
    equip,
    leave,
    show,
    tab_to,
)
from tests.window.place_scenes import cut_off, settle, unnamed


@pytest.fixture
def bench(seat: Seat) -> Seat:
    equip(seat)
    return seat


def made(seat: Seat) -> list[tuple[str, str, str]]:
    checks = seat.desk.workshop.shelf.checks(seat.desk.lineup_id)
    return [(c.moment.value, c.standard, str(c.said.value)) for c in checks]


def listed(dialog) -> list[str]:
    return [dialog.list.item(row).data(SPOKEN) for row in range(dialog.list.count())]


def test_usual_checks_follow_each_other(bench: Seat) -> None:
    dialog = checks_of(bench)
    form = dialog.form
    assert (form.title.text(), form.moment) == ("Calliper", CheckMoment.OPENING)
    show(bench, "0.00")
    assert form.strip.words.text() == "Opening zero: +0.00 mm off, 0.03 mm allowed: passed."
    assert form.standard.chosen.key == "block"
    assert QApplication.focusWidget() is form.standard.length
    bench.type("10")
    bench.press(Qt.Key.Key_Tab, NO_MODIFIER)
    bench.type("0.001")
    bench.press(Qt.Key.Key_Tab, NO_MODIFIER)
    show(bench, "10.01")
    assert form.strip.words.text() == (
        "Opening gauge block 10 mm: +0.01 mm off, 0.031 mm allowed: passed."
    )
    assert made(bench) == [("opening", "", "0.00"), ("opening", "gauge block 10 mm", "10.01")]
    leave(bench, dialog)
    assert "with Calliper (opened " in bench.bench.parts.asked.how.text()


def test_block_once_typed_is_offered_again(bench: Seat) -> None:
    dialog = checks_of(bench)
    show(bench, "0.00")
    bench.type("10")
    bench.press(Qt.Key.Key_Tab, NO_MODIFIER)
    bench.type("0.001")
    bench.press(Qt.Key.Key_Tab, NO_MODIFIER)
    show(bench, "10.00")
    leave(bench, dialog)
    bench.answer("76.2")
    dialog = checks_of(bench)
    assert dialog.form.moment is CheckMoment.CLOSING
    show(bench, "0.00")
    assert QApplication.focusWidget() is dialog.form.shown
    show(bench, "10.00")
    assert made(bench)[2:] == [("closing", "", "0.00"), ("closing", "gauge block 10 mm", "10.00")]
    assert "Calliper, calliper: closed and passed" in listed(dialog)


def test_slip_is_asked_once_more_in_place(bench: Seat) -> None:
    dialog = checks_of(bench)
    show(bench, "5")
    assert "far off. Type it anew, or press Enter once more." in dialog.form.strip.words.text()
    assert dialog.form.shown.selectedText() == "5"
    assert made(bench) == []
    bench.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert made(bench) == [("opening", "", "5")]
    assert dialog.form.strip.words.text().endswith("failed.")


def test_other_value_after_the_question_is_asked_again(bench: Seat) -> None:
    checks_of(bench)
    show(bench, "5")
    show(bench, "6")
    assert made(bench) == []
    show(bench, "0.01")
    assert made(bench) == [("opening", "", "0.01")]


def test_nonsense_is_refused_in_words(bench: Seat) -> None:
    dialog = checks_of(bench)
    for said, word in (("", "Nothing"), ("~0.05", "one number"), ("0.05 g", "mass")):
        dialog.form.shown.clear()
        show(bench, said)
        assert word in dialog.form.strip.words.text()
    assert made(bench) == []


def test_closing_can_be_chosen_by_keys(bench: Seat) -> None:
    dialog = checks_of(bench)
    bench.press(Qt.Key.Key_L, Qt.KeyboardModifier.AltModifier)
    bench.qtbot.waitUntil(lambda: dialog.form.moment is CheckMoment.CLOSING)
    tab_to(bench, dialog.form.shown)
    show(bench, "0.00")
    assert made(bench) == [("closing", "", "0.00")]


def test_caught_weight_checks_the_scale_alone(bench: Seat) -> None:
    scale = PlainScale()
    bench.place.attach_scale(scale)
    bench.go_to("whole_mass")
    dialog = checks_of(bench)
    assert dialog.form.title.text() == "Bench scale"
    scale.catches("0.0")
    assert dialog.form.strip.words.text() == "0.0 g was caught. Enter takes it."
    bench.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert dialog.form.standard.chosen.key == "weight"
    assert dialog.form.standard.nominal.currentText() == "100"
    scale.catches("100.1")
    bench.press(Qt.Key.Key_F6, NO_MODIFIER)
    assert made(bench) == [
        ("opening", "", "0.0"), ("opening", "check weight 100 g, class M1", "100.1"),
    ]  # fmt: skip
    assert bench.readings() == []
    leave(bench, dialog)
    scale.catches("287.4")
    assert [r.text for r in bench.readings()] == ["287.4 g"]


def test_polled_weight_is_taken_as_it_comes(bench: Seat) -> None:
    scale = PlainScale()
    bench.place.attach_scale(scale)
    bench.go_to("whole_mass")
    dialog = checks_of(bench)
    bench.press(Qt.Key.Key_F6, NO_MODIFIER)
    assert scale.polled == 1
    scale.catches("0.1")
    assert made(bench) == [("opening", "", "0.1")]
    leave(bench, dialog)


def test_weight_is_nothing_to_a_calliper(bench: Seat) -> None:
    scale = PlainScale()
    bench.place.attach_scale(scale)
    dialog = checks_of(bench)
    assert dialog.form.weigh.isHidden()
    scale.catches("100.1")
    assert dialog.form.strip.words.text() == ""
    bench.press(Qt.Key.Key_Return, NO_MODIFIER)
    assert made(bench) == []
    assert bench.readings() == []
    leave(bench, dialog)


def test_scale_in_use_wants_no_weight_key_without_a_scale(bench: Seat) -> None:
    bench.go_to("whole_mass")
    dialog = checks_of(bench)
    assert dialog.form.weigh.isHidden()
    assert not dialog.form.standard.fields["kind"].isHidden()


def test_instruments_not_in_use_stand_below(bench: Seat) -> None:
    dialog = checks_of(bench)
    assert listed(dialog) == [
        "Calliper, calliper: not checked",
        None,
        "Bench scale, scale: not checked",
        "Steel tape, tape: no check is usual",
    ]
    assert dialog.list.item(1).text() == "other instruments"


def test_list_leads_to_another_instrument(bench: Seat) -> None:
    dialog = checks_of(bench)
    dialog.list.setFocus()
    bench.press(Qt.Key.Key_Down, NO_MODIFIER)
    assert dialog.form.title.text() == "Bench scale"
    assert dialog.form.unit.text() == "g"
    tab_to(bench, dialog.form.shown)
    show(bench, "0.0")
    (check,) = bench.desk.workshop.shelf.checks(bench.desk.lineup_id)
    assert check.instrument_id == SCALE.id


def test_tab_goes_from_the_end_to_the_buttons(bench: Seat) -> None:
    bench.answer("76.2")
    dialog = checks_of(bench)
    show(bench, "0.05")
    tab_to(bench, dialog.form.shown)
    names = tab_to(bench, dialog.leave)
    assert names[0] == "Record it"
    assert names[-5:] == [
        "Readings in doubt, as read and as a shift would make them", "Why",
        "Shift the reading by −0.05 mm", "Mark the reading as spoiled", "Close",
    ]  # fmt: skip


def test_shelf_without_instruments_says_so(seat: Seat) -> None:
    dialog = checks_of(seat)
    assert not dialog.none.isHidden()
    assert "Add one under Instruments" in dialog.none.text()


@pytest.mark.parametrize(("width", "height", "unit"), [(1366, 734, 1.0), (911, 488, 0.667)])
def test_nothing_is_cut_off_or_unnamed(
    bench: Seat, qapp, width: int, height: int, unit: float
) -> None:
    rescale(qapp, bench.place, unit)
    bench.place.rescaled()
    bench.place.resize(width, height)
    settle()
    for text in ("76.2", "76.3", "76.4"):
        bench.answer(text)
        bench.go_to("can_diameter")
    dialog = checks_of(bench)
    assert (cut_off(dialog), unnamed(dialog)) == ([], [])
    show(bench, "0.05")
    assert unnamed(dialog) == []
    assert cut_off(dialog.form) == []
    assert cut_off(dialog.bracket) == []
    assert dialog.width() <= bench.place.width()
    assert dialog.height() <= bench.place.height()
    assert dialog.bracket.width() <= dialog.below.viewport().width()


def test_checks_have_a_key_and_a_button(bench: Seat) -> None:
    assert bench.bench.parts.legend.buttons[Action.CHECK].cap == "F1"
    bench.bench.parts.menu.buttons["checks"].click()
    settle()
    assert QApplication.activeModalWidget().form.title.text() == CALLIPER.name
