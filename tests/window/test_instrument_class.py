"""The accuracy class and verification interval of a scale, in the instruments dialog."""

from __future__ import annotations

import pytest

from benchlog.measure.permissible import permissible_error_at
from benchlog.window.dialogs import open_dialog
from benchlog.window.dialogs.instrument_fields import FOLLOWS, read_number
from benchlog.window.theme import rescale
from tests.window.bench_scenes import Seat
from tests.window.place_scenes import cut_off, settle, unnamed


@pytest.fixture
def dialog(seat: Seat, qtbot):
    seat.go_to("whole_mass")
    made = open_dialog("tool", seat.bench)
    qtbot.waitExposed(made)
    return made


def verified(dialog, interval: str, resolution: str = "0.1") -> None:
    fields = dialog.fields
    fields.name.setText("bench scale")
    fields.kind.setCurrentText("scale")
    fields.resolution.setText(resolution)
    fields.accuracy.setCurrentIndex(fields.accuracy.findData("III"))
    fields.interval.setText(interval)


def test_class_takes_the_place_of_a_stated_error(seat: Seat, dialog) -> None:
    verified(dialog, "0,1")
    assert not dialog.fields.error.isEnabled()
    assert dialog.fields.error.placeholderText() == "follows from the load"
    dialog.save.click()
    (kept,) = seat.desk.workshop.shelf.instruments()
    assert (kept.accuracy_class, kept.verification_interval) == ("III", 0.1)
    # OIML R 76-1:2006, Table 6: class III, up to 500 e; twice the initial limit in service.
    assert permissible_error_at(kept, 40.0) == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("interval", "words"),
    [
        ("", "wants a number above zero, such as 0.1: it stands on the scale's plate"),
        ("0", "wants a number above zero"),
        ("fine", "wants a number above zero"),
        ("0.05", "cannot be finer than the resolution"),
    ],
)
def test_interval_is_asked_for_in_plain_words(
    seat: Seat, dialog, interval: str, words: str
) -> None:
    verified(dialog, interval)
    dialog.save.click()
    assert words in dialog.words.text()
    assert seat.desk.workshop.shelf.instruments() == []


def test_class_given_up_wants_the_error_again(seat: Seat, dialog) -> None:
    verified(dialog, "0.1")
    dialog.save.click()
    dialog.fields.accuracy.setCurrentIndex(0)
    assert dialog.fields.error.isEnabled()
    assert not dialog.fields.interval.isEnabled()
    dialog.fields.error.setText("")
    dialog.save.click()
    assert "permissible error wants a number" in dialog.words.text()
    dialog.fields.error.setText("0.2")
    dialog.save.click()
    (kept,) = seat.desk.workshop.shelf.instruments()
    assert (kept.accuracy_class, kept.verification_interval) == ("", 0.0)
    assert kept.permissible_error == 0.2


def test_only_a_scale_is_asked_for_its_class(seat: Seat, dialog) -> None:
    fields = dialog.fields
    assert fields.form.isRowVisible(fields.accuracy)
    assert fields.about.text() == FOLLOWS
    verified(dialog, "0.1")
    fields.kind.setCurrentText("calliper")
    for part in (fields.accuracy, fields.interval, fields.about):
        assert not fields.form.isRowVisible(part)
    assert fields.error.isEnabled()
    fields.error.setText("0.03")
    dialog.save.click()
    (kept,) = seat.desk.workshop.shelf.instruments()
    assert (kept.kind.value, kept.accuracy_class, kept.verification_interval) == ("calliper", "", 0)


def test_class_is_shown_as_it_was_kept(seat: Seat, dialog) -> None:
    verified(dialog, "0.2")
    dialog.save.click()
    dialog.list.setCurrentRow(0)
    assert dialog.fields.accuracy.currentText() == "class III"
    assert dialog.fields.interval.text() == "0.2"


@pytest.mark.parametrize("unit", [1.0, 0.667])
def test_words_of_the_fields_are_seen_whole(seat: Seat, dialog, qapp, unit: float) -> None:
    rescale(qapp, seat.place, unit)
    settle()
    assert (cut_off(dialog), unnamed(dialog)) == ([], [])
    verified(dialog, "0.05")
    dialog.save.click()
    settle()
    assert cut_off(dialog) == []


@pytest.mark.parametrize(
    ("text", "number"),
    [("0,01", 0.01), (" 2 ", 2.0), ("-1", None), ("", None), ("nan", None), ("1e12", None)],
)
def test_numbers_are_read_or_refused(text: str, number: float | None) -> None:
    assert read_number(text) == number
