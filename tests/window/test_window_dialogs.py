from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.settings import ScaleSettings, load_settings
from benchlog.window.dialogs import open_dialog
from benchlog.window.dialogs.instruments_dialog import units_of
from benchlog.window.keys import Action
from tests.window.bench_scenes import PlainScale, Seat
from tests.window.microscope.field_scenes import typed_set_up
from tests.window.place_scenes import cut_off, settle, unnamed


@pytest.fixture
def dialog_of(seat: Seat, qtbot):
    def opened(name: str):
        dialog = open_dialog(name, seat.bench)
        qtbot.waitExposed(dialog)
        return dialog

    return opened


def test_reassigned_pedal_acts(seat: Seat, dialog_of) -> None:
    dialog = dialog_of("keys")
    cap = dialog.caps[Action.NEXT, 2]
    cap.click()
    QTest.keyClick(cap, Qt.Key.Key_F13)
    dialog.accept()
    assert load_settings().keys == {"next": "Num++ , PgDown , F13"}
    seat.place.activateWindow()
    seat.pause()
    QTest.keyClick(seat.entry, Qt.Key.Key_F13)
    assert seat.asked == ("whole_mass", "Cobalt")


def test_taken_key_is_refused_in_words(seat: Seat, dialog_of) -> None:
    dialog = dialog_of("keys")
    cap = dialog.caps[Action.BACK, 0]
    cap.click()
    QTest.keyClick(cap, Qt.Key.Key_F2)
    assert "already means 'flag moment'" in dialog.words.text()
    assert dialog.keys.keys[Action.BACK] == ("Num+-", "PgUp")


def test_last_accept_key_stays(dialog_of) -> None:
    dialog = dialog_of("keys")
    dialog.assign(Action.ACCEPT, 1, "")
    dialog.assign(Action.ACCEPT, 0, "")
    assert dialog.keys.keys[Action.ACCEPT] == ("Num+Enter",)


def test_delete_takes_a_key_away(dialog_of) -> None:
    dialog = dialog_of("keys")
    cap = dialog.caps[Action.NEXT, 1]
    cap.click()
    QTest.keyClick(cap, Qt.Key.Key_Delete)
    assert dialog.keys.keys[Action.NEXT] == ("Num++",)
    dialog.restore()
    assert dialog.keys.keys[Action.NEXT] == ("Num++", "PgDown")


def test_settings_change_units_at_once(seat: Seat, dialog_of) -> None:
    seat.go_to("can_height")
    dialog = dialog_of("settings")
    dialog.units.setCurrentIndex(1)
    dialog.reviewer.setText("  M. Hale ")
    dialog.accept()
    assert seat.view.asked.unit == "in"
    assert load_settings().reviewer == "M. Hale"


def test_instrument_is_added_and_taken(seat: Seat, dialog_of) -> None:
    dialog = dialog_of("tool")
    assert dialog.fields.kind.currentText() == "scale"
    dialog.fields.name.setText("bench scale")
    dialog.fields.resolution.setText("0,1")
    dialog.fields.error.setText("0.2")
    dialog.take.click()
    (kept,) = seat.desk.workshop.shelf.instruments()
    assert (kept.kind, kept.resolution, kept.unit) == (InstrumentKind.SCALE, 0.1, "gram")
    assert seat.view.asked.tool == kept
    assert "with bench scale" in seat.bench.parts.asked.how.text()


@pytest.mark.parametrize("name", ["Blue one", "Workshop bench micrometer", "Borrowed " * 8])
def test_instrument_names_are_seen_whole(seat: Seat, dialog_of, name: str) -> None:
    for kind in (InstrumentKind.MICROMETER, InstrumentKind.DUROMETER):
        kept = Instrument(f"i-{kind}", f"{name} {kind}", kind, units_of(kind)[0], 0.01, 0.02)
        seat.desk.workshop.shelf.save_instrument(kept)
    listed = dialog_of("tool").list
    assert not listed.horizontalScrollBar().isVisible()
    assert listed.horizontalScrollBar().maximum() == 0
    for row in range(listed.count()):
        words, box = listed.item(row).text(), listed.visualItemRect(listed.item(row))
        letters = listed.fontMetrics()
        lines = -(-letters.horizontalAdvance(words) // box.width())
        assert box.height() >= lines * letters.height()
        assert box.width() <= listed.viewport().width()


def test_instrument_without_resolution_is_refused(seat: Seat, dialog_of) -> None:
    dialog = dialog_of("tool")
    dialog.fields.name.setText("bench scale")
    dialog.fields.resolution.setText("fine")
    dialog.save.click()
    assert "The resolution wants a number above zero" in dialog.words.text()
    assert seat.desk.workshop.shelf.instruments() == []


def test_changed_instrument_keeps_its_identity(seat: Seat, dialog_of) -> None:
    dialog = dialog_of("tool")
    dialog.fields.name.setText("gauge")
    dialog.fields.kind.setCurrentText("thickness gauge")
    dialog.fields.resolution.setText("0.01")
    dialog.fields.error.setText("0.02")
    dialog.save.click()
    dialog.fields.pressure.setText("20")
    dialog.save.click()
    (kept,) = seat.desk.workshop.shelf.instruments()
    assert (kept.name, kept.contact_pressure_kpa) == ("gauge", 20.0)


def test_a_set_up_is_told_and_never_changed(seat: Seat, dialog_of) -> None:
    kept = typed_set_up(seat, "Low power")
    before = seat.desk.workshop.shelf.instruments()
    dialog = dialog_of("tool")
    dialog.list.setCurrentRow(0)
    settle()
    assert dialog.set_up.text().startswith("Low power: stand, 4x")
    assert "0.5 µm a pixel" in dialog.set_up.text()
    assert "press Set-up there" in dialog.set_up.text()
    assert (cut_off(dialog), unnamed(dialog)) == ([], [])
    assert not dialog.fields.isVisible()
    assert not dialog.save.isEnabled()
    assert not dialog.take.isEnabled()
    dialog.new.click()
    assert dialog.fields.isVisible()
    assert dialog.take.isEnabled()
    assert dialog.fields.kind.findText("microscope") < 0
    assert seat.desk.workshop.shelf.instruments() == before
    assert [one.id for one in before] == [kept.id]


def test_scale_lines_are_shown_live(seat: Seat, dialog_of) -> None:
    scale = PlainScale()
    seat.place.attach_scale(scale)
    dialog = dialog_of("scale")
    scale.says("287.4")
    scale.listener.scale_garbage(b"\x07", "not a weight")
    assert dialog.lines.toPlainText().splitlines() == [
        "ST,GS,+287.4  g",
        "\\x07   not understood: not a weight",
    ]
    dialog.ask.click()
    assert scale.polled == 1
    dialog.let_go.click()
    assert scale.closed


def test_scale_settings_are_kept_as_chosen(seat: Seat, dialog_of, qtbot) -> None:
    dialog = dialog_of("scale")
    told: list[object] = []
    seat.desk.faults.told.connect(told.append)
    fields = dialog.fields
    fields.port.setEditText("/nowhere/scale")
    fields.baud.setCurrentText("4800")
    fields.data_bits.setCurrentIndex(fields.data_bits.findData("7"))
    fields.parity.setCurrentIndex(fields.parity.findData("E"))
    fields.mode.setCurrentIndex(fields.mode.findData("polled"))
    fields.poll_text.setText("P")
    dialog.connect_button.click()
    qtbot.waitUntil(lambda: bool(told))
    kept = load_settings().scale
    assert kept == ScaleSettings(
        port="/nowhere/scale", baud=4800, data_bits=7, parity="E", mode="polled", poll_text="P"
    )
    assert "/nowhere/scale" in told[0].what
    assert not seat.bench.scale.attached


def test_scale_without_a_port_is_asked_for(dialog_of) -> None:
    dialog = dialog_of("scale")
    dialog.connect_button.click()
    assert dialog.state.text() == "Pick a port, or type its path."


def test_rehearsed_scale_weighs(seat: Seat, dialog_of, qtbot) -> None:
    dialog = dialog_of("scale")
    dialog.rehearse.click()
    dialog.ask.click()
    qtbot.waitUntil(lambda: bool(seat.readings()))
    assert seat.readings()[0].said.value == Decimal("287.4")
