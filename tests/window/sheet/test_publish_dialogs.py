"""The dialogs of the Sheet with real keys: start of the clip, words, stand-in check."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QDialog

from benchlog.tasks.footage import Anchor, Footage, Kept
from benchlog.tasks.stand_in import LineOutcome, Told
from benchlog.window.dialogs.stand_in_dialog import StandInDialog
from benchlog.window.sheet.video_dialog import VideoDialog
from benchlog.window.sheet.wishes_kept import wishes_of
from benchlog.window.theme import rescale
from tests.tasks.sample_records import sample_record
from tests.tasks.video_scenes import START as OPENED
from tests.tasks.video_scenes import filmed
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed
from tests.window.sheet.publish_scenes import at_the_sheet, dialog_of


@pytest.fixture
def publisher(sample_desk, sit, tmp_path: Path) -> Person:
    return at_the_sheet(sit, sample_desk, tmp_path / "out")


def opened(person: Person, button: object) -> QDialog:
    button.setFocus()
    person.press(Qt.Key.Key_Return)
    settle()
    return dialog_of(person)


def local(seconds: float) -> str:
    return f"{(OPENED + timedelta(seconds=seconds)).astimezone():%H:%M:%S}"


def shown(qtbot, dialog: QDialog) -> QDialog:
    qtbot.addWidget(dialog)
    with qtbot.waitActive(dialog):
        dialog.open()
        dialog.activateWindow()
    settle()
    return dialog


def keep(dialog: QDialog, taken: list) -> None:
    dialog.set.connect(lambda one, *_: taken.append(one))
    dialog.accept()


def test_links_and_question_are_kept(publisher: Person) -> None:
    dialog = opened(publisher, publisher.place.panel.outputs.words)
    assert publisher.focus is dialog.fields["sheet"].editor
    publisher.type("my page")
    publisher.press(Qt.Key.Key_Return)
    assert dialog.isVisible()
    assert "no address" in dialog.fields["sheet"].fault.text()
    dialog.fields["sheet"].editor.selectAll()
    publisher.type("https://example.org/s")
    publisher.tab_to(dialog.fields["ask"].editor)
    publisher.type("What next?")
    publisher.press(Qt.Key.Key_Return)
    assert not dialog.isVisible()
    kept = wishes_of(publisher.desk)
    assert (kept.links.sheet, kept.ask) == ("https://example.org/s", "What next?")


def test_sample_has_no_clip_to_set(publisher: Person) -> None:
    dialog = opened(publisher, publisher.place.panel.outputs.start)
    publisher.press(Qt.Key.Key_Return)
    assert dialog.result() == 0
    publisher.press(Qt.Key.Key_Escape)
    assert not dialog.isVisible()
    assert wishes_of(publisher.desk).footage == ()


def test_flagged_moment_starts_the_clip(qtbot, themed) -> None:
    dialog = shown(qtbot, VideoDialog(filmed(60), ()))
    taken: list[tuple[Footage, ...]] = []
    moments = dialog.moments["start"]
    moments.setFocus()
    qtbot.keyClick(moments, Qt.Key.Key_Down)
    assert dialog.fields["start"].editor.text() == f"{local(12)}.50"
    keep(dialog, taken)
    assert taken == [(Footage((Anchor(12.5, 0.0),)),)]


def test_clip_that_is_set_is_shown_again(qtbot, themed) -> None:
    footage = (Footage((Anchor(12.5, 0.0), Anchor(600.0, 590.0))),)
    dialog = shown(qtbot, VideoDialog(filmed(60), footage))
    assert [dialog.fields[k].editor.text() for k in ("start", "later_clip", "later_time")] == [
        f"{local(12)}.50",
        "9:50.00",
        f"{local(600)}.00",
    ]
    assert dialog.moments["start"].currentText() == f"{local(12)} Look"
    taken: list[tuple[Footage, ...]] = []
    keep(dialog, taken)
    assert taken == [footage]


def test_each_opening_has_its_own_clip(qtbot, themed) -> None:
    dialog = shown(qtbot, VideoDialog(filmed(10, pause_after=4), ()))
    qtbot.keyClicks(dialog.fields["start"].editor, local(2))
    qtbot.keyClick(dialog.opening, Qt.Key.Key_Down)
    assert dialog.fields["start"].editor.text() == ""
    assert not dialog.moments["start"].isEnabled()
    qtbot.keyClicks(dialog.fields["start"].editor, local(4))
    qtbot.keyClick(dialog.opening, Qt.Key.Key_Up)
    assert dialog.fields["start"].editor.text() == local(2)
    taken: list[tuple[Footage, ...]] = []
    keep(dialog, taken)
    assert [clip.anchors[0].session_s for clip in taken[0]] == [2.0, 4.0]


def test_unclear_time_is_told_beside_its_field(qtbot, themed) -> None:
    dialog = shown(qtbot, VideoDialog(filmed(10, pause_after=4), ()))
    qtbot.keyClicks(dialog.fields["start"].editor, "nine")
    qtbot.keyClick(dialog.opening, Qt.Key.Key_Down)
    taken: list[tuple[Footage, ...]] = []
    keep(dialog, taken)
    assert taken == []
    assert dialog.opening.currentIndex() == 0
    assert "no time of day" in dialog.fields["start"].fault.text()
    assert QApplication.focusWidget() is dialog.fields["start"].editor


def test_length_and_kept_ranges_are_kept(qtbot, themed) -> None:
    dialog = shown(qtbot, VideoDialog(filmed(60), ()))
    qtbot.keyClicks(dialog.fields["length"].editor, "1:30:00")
    qtbot.keyClicks(dialog.fields["kept"].editor, "0:30-12:00, 14:10 to 20:00")
    taken: list[tuple[tuple[Footage, ...], tuple[Kept, ...]]] = []
    dialog.set.connect(lambda clips, kept: taken.append((clips, kept)))
    qtbot.keyClick(dialog.fields["kept"].editor, Qt.Key.Key_Return)
    assert not dialog.isVisible()
    ((clips, kept),) = taken
    assert clips == (Footage(length_s=5400.0),)
    assert kept == (Kept(30.0, 720.0), Kept(850.0, 1200.0))
    again = shown(qtbot, VideoDialog(filmed(60), clips, kept=kept))
    assert again.fields["length"].editor.text() == "1:30:00.00"
    assert again.fields["kept"].editor.text() == "0:30.00-12:00.00, 14:10.00-20:00.00"
    again.reject()


def test_what_is_kept_of_the_footage_outlives_the_dialog(publisher: Person) -> None:
    dialog = opened(publisher, publisher.place.panel.outputs.start)
    dialog.set.emit((Footage(length_s=900.0),), (Kept(1.0, 2.0),))
    assert wishes_of(publisher.desk).kept == (Kept(1.0, 2.0),)
    assert wishes_of(publisher.desk).footage == (Footage(length_s=900.0),)
    dialog.reject()


def test_ranges_beyond_the_footage_are_told(qtbot, themed) -> None:
    dialog = shown(qtbot, VideoDialog(filmed(60), ()))
    qtbot.keyClicks(dialog.fields["length"].editor, "10:00")
    qtbot.keyClicks(dialog.fields["kept"].editor, "11:00-12:00")
    taken: list[tuple[Footage, ...]] = []
    keep(dialog, taken)
    assert taken == []
    assert "begins after the footage ends" in dialog.fields["kept"].fault.text()
    assert QApplication.focusWidget() is dialog.fields["kept"].editor
    dialog.fields["kept"].editor.setText("1:00-2:00")
    dialog.accept()
    assert taken[0][0].length_s == 600.0


def test_stand_in_is_asked_and_kept_by_keys(publisher: Person) -> None:
    dialog = opened(publisher, publisher.place.panel.stand_in)
    assert dialog.word.text() == "Stops here"
    assert "Cobalt beside Amber" in dialog.beside.text()
    assert "handbook: not given" in dialog.beside.text()
    publisher.tab_to(dialog.handbook)
    publisher.type("TB-4411")
    assert "handbook: TB-4411" in dialog.beside.text()
    publisher.tab_to(dialog.by_hand.answers["flow"])
    publisher.press(Qt.Key.Key_Down)
    publisher.press(Qt.Key.Key_Tab)
    assert publisher.focus is dialog.by_hand.sources["flow"]
    publisher.type("catalogue of 2026")
    publisher.tab_to(dialog.cards)
    publisher.press(Qt.Key.Key_Space)
    publisher.tab_to(dialog.keep)
    publisher.press(Qt.Key.Key_Space)
    assert not dialog.isVisible()
    kept = wishes_of(publisher.desk).stand_in
    assert (kept.handbook, kept.on_cards) == ("TB-4411", True)
    assert kept.told == {"flow": Told(LineOutcome.MATCH, "catalogue of 2026")}
    note = publisher.place.panel.outputs.rows["cards"].note
    publisher.until(lambda: note.text() == "with the stand-in check: Cobalt beside Amber")


def test_lines_follow_what_is_chosen(qtbot, themed) -> None:
    record = sample_record()
    dialog = shown(qtbot, StandInDialog(record, None))
    table = dialog.table

    def outcome(name: str) -> str:
        rows = {table.item(r, 0).text(): table.item(r, 1).text() for r in range(table.rowCount())}
        return rows[name]

    assert outcome("Thread") == "=  match"
    assert outcome("Rated flow") == "?  unknown: not cleared"
    answer, source = dialog.by_hand.answers["flow"], dialog.by_hand.sources["flow"]
    qtbot.keyClick(answer, Qt.Key.Key_Down)
    assert outcome("Rated flow") == "?  unknown: not cleared"  # no source yet
    qtbot.keyClicks(source, "data sheet")
    assert outcome("Rated flow") == "=  match"
    qtbot.keyClick(answer, Qt.Key.Key_Down)
    assert outcome("Rated flow") == "≠  differs"
    spoken = table.item(0, 1).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "Comes to: match"


def test_filter_beside_itself_cannot_be_kept(qtbot, themed) -> None:
    dialog = shown(qtbot, StandInDialog(sample_record(), None))
    qtbot.keyClick(dialog.candidate, Qt.Key.Key_Up)
    assert dialog.check is None
    assert "stand in for itself" in dialog.word.text()
    assert dialog.table.rowCount() == 0
    assert not dialog.keep.isEnabled()
    qtbot.keyClick(dialog.candidate, Qt.Key.Key_Down)
    assert dialog.keep.isEnabled()


def test_check_is_copied_as_text(qtbot, themed) -> None:
    dialog = shown(qtbot, StandInDialog(sample_record(), None))
    dialog.copy.setFocus()
    qtbot.keyClick(dialog.copy, Qt.Key.Key_Space)
    text = QGuiApplication.clipboard().text()
    assert text.startswith(dialog.word.text())
    assert "Part number by the vehicle maker's handbook: not given" in text


@pytest.mark.parametrize("size", SIZES)
def test_no_dialog_is_cut_off(sample_desk, sit, themed, tmp_path: Path, size: str) -> None:
    person = at_the_sheet(sit, sample_desk, tmp_path / "out")
    width, height, unit = SIZES[size]
    person.place.resize(width, height)
    rescale(themed, person.place, unit)
    person.place.rescaled()
    outputs = person.place.panel.outputs
    for button in (outputs.words, outputs.start, person.place.panel.stand_in):
        button.click()
        settle()
        dialog = dialog_of(person)
        assert cut_off(dialog) == []
        assert unnamed(dialog) == []
        assert dialog.width() <= width
        assert dialog.height() <= height
        dialog.reject()
