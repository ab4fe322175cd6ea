"""Setting the microscope up: a stage micrometer's picture, or a typed scale, by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt, QThreadPool
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from benchlog.measure.micrograph import MicroscopeSetUp, ScaleFrom
from benchlog.window.microscope.set_up_dialog import SetUpDialog
from tests.window.microscope.field_scenes import CTRL, AtPictures, png, typed_set_up
from tests.window.place_scenes import cut_off, settle, unnamed


def open_dialog(there: AtPictures) -> SetUpDialog:
    there.press(Qt.Key.Key_F11)
    dialog = there.page.dialogs.dialog
    there.until(lambda: dialog.isAncestorOf(QApplication.focusWidget() or there.page))
    settle()
    return dialog


def fill(dialog: SetUpDialog, name: str = "Low power") -> None:
    for field, words in ((dialog.fields.name, name), (dialog.fields.objective, "4x")):
        field.setFocus()
        QTest.keyClicks(field, words)


def bring(there: AtPictures, dialog: SetUpDialog, shade: int) -> None:
    dialog.ask_file = lambda: there.file(shade)
    there.press(Qt.Key.Key_F10)
    told = dialog.stage.told
    there.until(lambda: told.text() not in ("", "Looking for the lines…"))
    settle()


def set_ups(there: AtPictures) -> list[MicroscopeSetUp]:
    return there.seat.desk.workshop.shelf.set_ups()


def test_stage_picture_gives_the_scale(without_set_up: AtPictures) -> None:
    there = without_set_up
    dialog = open_dialog(there)
    fill(dialog)
    bring(there, dialog, 120)
    assert dialog.stage.view.has_lines
    assert "4 lines found, 1 missing between them, 20 px a division." in dialog.stage.told.text()
    assert QApplication.focusWidget() is dialog.stage.division
    QTest.keyClicks(dialog.stage.division, "10")
    there.press(Qt.Key.Key_Return)
    there.until(lambda: "lie 10 µm apart" in dialog.strip.words.text())
    assert set_ups(there) == []
    assert QApplication.focusWidget() is dialog.save
    there.press(Qt.Key.Key_Return)
    there.until(lambda: len(set_ups(there)) == 1)
    (made,) = set_ups(there)
    assert (made.um_per_px, made.scale_from, made.light) == (0.5, ScaleFrom.STAGE, "above")
    there.until(lambda: "Low power: 0.5 µm a pixel" in there.page.parts.set_up_words.text())
    shelf = there.seat.desk.workshop.shelf
    assert shelf.scale_picture(made.id) == there.file(120).read_bytes()


@pytest.mark.parametrize("keeping", [False, True])
def test_leaving_while_lines_are_looked_for_keeps_nothing(
    without_set_up: AtPictures, keeping: bool
) -> None:
    there = without_set_up
    dialog = open_dialog(there)
    fill(dialog)
    if keeping:
        bring(there, dialog, 120)
        QTest.keyClicks(dialog.stage.division, "10")
        dialog.save.click()
    else:
        dialog.ask_file = lambda: there.file(120)
        dialog.stage.choose.click()
    dialog.reject()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    there.until(lambda: QThreadPool.globalInstance().activeThreadCount() == 0)
    settle()
    assert set_ups(there) == []
    assert "No set-up yet" in there.page.parts.set_up_words.text()


def test_division_is_never_assumed(without_set_up: AtPictures) -> None:
    there = without_set_up
    dialog = open_dialog(there)
    fill(dialog)
    bring(there, dialog, 120)
    assert dialog.stage.division.text() == ""
    there.press(Qt.Key.Key_Return)
    assert "The slide's division is not said." in dialog.strip.words.text()
    assert QApplication.focusWidget() is dialog.stage.division
    assert set_ups(there) == []


def test_picture_without_lines_is_refused(without_set_up: AtPictures) -> None:
    there = without_set_up
    dialog = open_dialog(there)
    fill(dialog)
    bring(there, dialog, 20)
    assert "evenly spaced lines" in dialog.stage.told.text()
    assert not dialog.stage.view.has_lines
    assert not dialog.stage.division.isEnabled()
    dialog.save.click()
    assert "no stage micrometer" in dialog.strip.words.text()


def test_stage_picture_can_be_pasted_anywhere(without_set_up: AtPictures) -> None:
    there = without_set_up
    dialog = open_dialog(there)
    assert QApplication.focusWidget() is dialog.fields.name
    QGuiApplication.clipboard().setImage(QImage.fromData(png(120)))
    there.press(Qt.Key.Key_V, CTRL)
    there.until(lambda: dialog.stage.found is not None)
    QGuiApplication.clipboard().setText("50")
    dialog.stage.division.setFocus()
    there.press(Qt.Key.Key_V, CTRL)
    assert dialog.stage.division.text() == "50"


def test_changing_the_division_asks_anew(without_set_up: AtPictures) -> None:
    there = without_set_up
    dialog = open_dialog(there)
    fill(dialog)
    bring(there, dialog, 120)
    QTest.keyClicks(dialog.stage.division, "10")
    there.press(Qt.Key.Key_Return)
    there.until(lambda: "lie 10 µm apart" in dialog.strip.words.text())
    dialog.stage.division.setFocus()
    QTest.keyClicks(dialog.stage.division, "0")
    assert dialog.strip.words.text() == ""
    there.press(Qt.Key.Key_Return)
    there.until(lambda: "lie 100 µm apart" in dialog.strip.words.text())
    assert set_ups(there) == []


def test_scale_can_be_typed(without_set_up: AtPictures) -> None:
    there = without_set_up
    dialog = open_dialog(there)
    fill(dialog)
    QTest.keyClick(dialog, Qt.Key.Key_T, Qt.KeyboardModifier.AltModifier)
    there.until(dialog.parts.by_typing.isChecked)
    for field, words in ((dialog.typed.scale, "0.46"), (dialog.typed.uncertainty, "1 %")):
        field.setFocus()
        QTest.keyClicks(field, words)
    dialog.fields.lights["below"].setChecked(True)
    there.press(Qt.Key.Key_Return)
    (made,) = set_ups(there)
    assert (made.um_per_px, made.scale_from, made.light) == (0.46, ScaleFrom.TYPED, "below")
    assert abs(made.u_um_per_px - 0.0046) < 1e-12


def test_missing_name_is_asked_for_in_place(without_set_up: AtPictures) -> None:
    there = without_set_up
    dialog = open_dialog(there)
    dialog.parts.by_typing.setChecked(True)
    dialog.typed.scale.setFocus()
    QTest.keyClicks(dialog.typed.scale, "0.46")
    QTest.keyClicks(dialog.typed.uncertainty, "1 %")
    there.press(Qt.Key.Key_Return)
    assert "The set-up has no name." in dialog.strip.words.text()
    assert QApplication.focusWidget() is dialog.fields.name
    assert dialog.typed.scale.text() == "0.46"


def test_size_wants_both_sides(without_set_up: AtPictures) -> None:
    dialog = open_dialog(without_set_up)
    fill(dialog)
    dialog.parts.by_typing.setChecked(True)
    for field, words in (
        (dialog.typed.scale, "0.46"),
        (dialog.typed.uncertainty, "1 %"),
        (dialog.typed.width_px, "1200"),
    ):
        field.setFocus()
        QTest.keyClicks(field, words)
    dialog.save.click()
    assert "size is not said whole" in dialog.strip.words.text()
    assert set_ups(without_set_up) == []


def test_calibrating_anew_replaces(pictures: AtPictures) -> None:
    (old,) = set_ups(pictures)
    dialog = open_dialog(pictures)
    dialog.parts.anew.click()
    assert dialog.fields.name.text() == "Low power"
    assert "keep its scale" in dialog.strip.words.text()
    bring(pictures, dialog, 120)
    QTest.keyClicks(dialog.stage.division, "10")
    pictures.press(Qt.Key.Key_Return)
    pictures.until(lambda: "apart" in dialog.strip.words.text())
    pictures.press(Qt.Key.Key_Return)
    pictures.until(lambda: len(set_ups(pictures)) == 2)
    assert set_ups(pictures)[1].replaces == old.id
    pictures.until(lambda: pictures.now.set_up == set_ups(pictures)[1])


def test_other_set_up_is_used_by_enter(pictures: AtPictures) -> None:
    other = typed_set_up(pictures.seat, "High power")
    dialog = open_dialog(pictures)
    assert QApplication.focusWidget() is dialog.list
    names = [dialog.list.item(n).text().split(",")[0] for n in range(dialog.list.count())]
    row = names.index("High power")
    for _ in range(dialog.list.count()):
        if dialog.list.currentRow() != row:
            pictures.press(Qt.Key.Key_Down if dialog.list.currentRow() < row else Qt.Key.Key_Up)
    pictures.press(Qt.Key.Key_Return)
    assert pictures.now.set_up.id == other.id
    assert pictures.said == "In use: High power."


def test_everything_is_named_and_shown_whole(pictures: AtPictures) -> None:
    dialog = open_dialog(pictures)
    assert unnamed(dialog) == []
    assert cut_off(dialog) == []
    bring(pictures, dialog, 120)
    QTest.keyClicks(dialog.stage.division, "10")
    dialog.fields.name.setFocus()
    QTest.keyClicks(dialog.fields.name, "Another")
    QTest.keyClicks(dialog.fields.objective, "10x")
    dialog.save.click()
    pictures.until(lambda: "apart" in dialog.strip.words.text())
    settle()
    assert cut_off(dialog) == []
    dialog.parts.by_typing.setChecked(True)
    settle()
    assert (unnamed(dialog), cut_off(dialog)) == ([], [])
