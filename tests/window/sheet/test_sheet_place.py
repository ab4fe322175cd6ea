from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtWidgets import QApplication, QLineEdit, QStackedWidget

from benchlog.settings import INCH
from benchlog.tasks.correct import correct
from benchlog.tasks.plan import save_plan
from benchlog.trade.specimen import Paid
from benchlog.window.sheet.sheet_place import SheetPlace
from tests.window.place_scenes import Person, settle

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def writer(sample_desk, sit) -> Person:
    """Someone at the sheet of the sample line-up, not written yet."""
    return sit(SheetPlace, sample_desk)


@pytest.fixture
def reader(writer: Person) -> Person:
    """Someone with the written sheet before them."""
    write(writer)
    return writer


def write(person: Person) -> None:
    with person.qtbot.waitSignal(person.place.work.written, timeout=60_000):
        person.place.panel.write.setFocus()
        person.press(Qt.Key.Key_Space)
    settle()


def ready(person: Person) -> None:
    """Wait until it is told how things stand."""
    person.until(lambda: person.place.watch.record is not None)
    settle()


def without_answer(person: Person) -> None:
    lineup = person.desk.teardown.lineup
    first = replace(lineup.specimens[0], paid=Paid.UNANSWERED)
    save_plan(person.shelf, replace(lineup, specimens=(first, *lineup.specimens[1:])))
    person.desk.reload()
    person.until(lambda: person.place.watch.standing and person.place.watch.standing.block)
    settle()
    person.place.enter()


def test_nothing_goes_out_until_who_paid_is_answered(writer: Person) -> None:
    without_answer(writer)
    panel = writer.place.panel
    assert "who paid for Amber" in panel.refusal.text()
    assert panel.refusal.isVisible()
    assert writer.focus is panel.to_answer
    panel.write.setFocus()
    writer.press(Qt.Key.Key_Return, CONTROL)
    assert not writer.place.work.under_way
    assert writer.focus is panel.to_answer
    writer.press(Qt.Key.Key_Space)
    assert writer.went == ["lineup"]


def test_preview_is_refused_until_who_paid_is_answered(writer: Person) -> None:
    without_answer(writer)
    with writer.qtbot.waitSignal(writer.place.work.failed, timeout=60_000):
        writer.place.panel.write.click()
    settle()
    assert "who paid for Amber" in writer.place.panel.state.text()
    assert writer.place.written is None
    assert writer.told == []


def test_answer_lifts_the_refusal(writer: Person) -> None:
    without_answer(writer)
    lineup = writer.desk.teardown.lineup
    first = replace(lineup.specimens[0], paid=Paid.LENT)
    save_plan(writer.shelf, replace(lineup, specimens=(first, *lineup.specimens[1:])))
    writer.desk.reload()
    writer.until(lambda: not writer.place.watch.standing.block)
    writer.place.enter()
    assert not writer.place.panel.refusal.isVisible()
    assert writer.focus is writer.place.panel.write


def test_written_sheet_is_shown_with_digest_and_revision(reader: Person) -> None:
    pages = reader.place.pages
    count = pages.document.pageCount()
    assert count > 1
    assert pages.number.text() == f"Page 1 of {count}"
    record = reader.place.written.record
    facts = reader.place.panel.facts
    assert f"revision {record.revision}, draft" in facts.text()
    assert record.digest[:12] in facts.text()
    assert record.digest in facts.toolTip()
    assert reader.told == []


def test_sums_go_out_when_ticked(writer: Person) -> None:
    box = writer.place.panel.outputs.sums
    assert not box.isChecked()
    box.setFocus()
    writer.press(Qt.Key.Key_Space)
    write(writer)
    pages = PdfReader(writer.place.written.path).pages
    assert any("The sums" in page.extract_text() for page in pages)


def test_sheet_takes_the_units_of_the_settings(writer: Person) -> None:
    writer.desk.change_settings(units=INCH)
    write(writer)
    text = "".join(page.extract_text() for page in PdfReader(writer.place.written.path).pages)
    assert "The sums" not in text
    assert "2.813" in text  # the first gasket's outside, 71.45 mm


def test_pages_turn_by_keys(reader: Person) -> None:
    pages = reader.place.pages
    pages.view.setFocus()
    reader.press(Qt.Key.Key_PageDown)
    assert pages.page == 1
    assert pages.number.text().startswith("Page 2 of")
    reader.press(Qt.Key.Key_PageUp)
    reader.press(Qt.Key.Key_PageUp)
    assert pages.page == 0
    assert not pages.buttons["Page before"].isEnabled()


def test_pages_turn_from_anywhere_in_the_place(reader: Person) -> None:
    pages, panel = reader.place.pages, reader.place.panel
    assert reader.focus is panel.save
    reader.press(Qt.Key.Key_PageDown)
    assert pages.page == 1
    panel.outputs.paper.setFocus()
    reader.press(Qt.Key.Key_PageUp)
    assert pages.page == 0
    panel.write.setFocus()
    reader.press(Qt.Key.Key_Plus, CONTROL)
    assert pages.view.zoomMode() is QPdfView.ZoomMode.Custom


def test_writing_takes_no_focus_from_another_place(sample_desk, qtbot) -> None:
    window, elsewhere = QStackedWidget(), QLineEdit()
    place = SheetPlace(sample_desk)
    window.addWidget(place)
    window.addWidget(elsewhere)
    qtbot.addWidget(window)
    with qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    with qtbot.waitSignal(place.work.written, timeout=60_000):
        place.write()
        window.setCurrentWidget(elsewhere)
        elsewhere.setFocus()
    settle()
    assert place.written is not None
    assert QApplication.focusWidget() is elsewhere


def test_looking_closer_and_fitting(reader: Person) -> None:
    pages, view = reader.place.pages, reader.place.pages.view
    view.setFocus()
    reader.press(Qt.Key.Key_Plus, CONTROL)
    assert view.zoomMode() is QPdfView.ZoomMode.Custom
    near = view.zoomFactor()
    reader.press(Qt.Key.Key_Minus, CONTROL)
    assert view.zoomFactor() == pytest.approx(near / 1.25)
    reader.press(Qt.Key.Key_0, CONTROL)
    assert view.zoomMode() is QPdfView.ZoomMode.FitToWidth
    pages.buttons["Whole page"].click()
    assert view.zoomMode() is QPdfView.ZoomMode.FitInView


def test_paper_is_chosen_and_kept(writer: Person) -> None:
    writer.place.panel.outputs.paper.setFocus()
    writer.press(Qt.Key.Key_Down)
    assert writer.desk.settings.paper == "Letter"
    write(writer)
    size = writer.place.pages.document.pagePointSize(0)
    assert (size.width(), size.height()) == (612, 792)


def test_saved_sheet_is_the_one_shown(reader: Person, tmp_path: Path, monkeypatch) -> None:
    asked: list[str] = []

    def answer(name: str) -> Path:
        asked.append(name)
        return tmp_path / name

    monkeypatch.setattr(reader.place, "ask_path", answer)
    assert reader.focus is reader.place.panel.save
    assert not reader.place.panel.folder.isEnabled()
    reader.press(Qt.Key.Key_Space)
    assert asked == ["three-for-one-mount-sheet.pdf"]
    saved = tmp_path / asked[0]
    assert saved.read_bytes() == reader.place.written.path.read_bytes()
    assert reader.place.panel.folder.isEnabled()
    document = QPdfDocument()
    assert document.load(str(saved)) is QPdfDocument.Error.None_


def test_sheet_that_cannot_be_saved_is_told(reader: Person, tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(reader.place, "ask_path", lambda name: tmp_path / "gone" / name)
    reader.place.panel.save.click()
    assert len(reader.told) == 1
    assert not reader.told[0].ours


def test_stopping_leaves_nothing_written(writer: Person) -> None:
    place = writer.place
    with writer.qtbot.waitSignal(place.work.stopped, timeout=30_000):
        place.write()
        assert writer.focus is place.panel.stop
        writer.press(Qt.Key.Key_Space)
    assert place.written is None
    assert not place.panel.progress.isVisible()
    assert "nothing was written" in place.panel.state.text()
    assert writer.focus is place.panel.write


def test_change_is_shown_without_being_asked(reader: Person) -> None:
    ready(reader)
    before = reader.place.written
    height = next(r for r in reader.desk.teardown.readings if r.attribute == "can_height")
    with reader.qtbot.waitSignal(reader.place.work.written, timeout=60_000):
        correct(
            reader.shelf, reader.desk.workshop.clock, reader.desk.teardown.sequence,
            reader.desk.lineup_id, height.id, "88.8 mm", "digits swapped", sure=True,
        )  # fmt: skip
        reader.desk.reload()
        assert "recorded since" in reader.place.panel.state.text()
    settle()
    after = reader.place.written
    assert after.path != before.path
    assert after.record.digest != before.record.digest
    text = "".join(page.extract_text() for page in PdfReader(after.path).pages)
    assert "88.8" in text
    assert reader.focus is reader.place.panel.save


def test_other_line_up_shows_no_old_sheet(reader: Person) -> None:
    reader.desk.open_lineup(reader.desk.lineup_id)
    assert reader.place.written is None
    assert reader.place.pages.number.text() == "No pages yet"
    assert not reader.place.panel.save.isEnabled()


def test_no_line_up_says_so(desk, sit) -> None:
    person = sit(SheetPlace, desk)
    assert "Nothing to publish yet" in person.place.nothing.words.text()
    assert person.focus is person.place.nothing.go


def test_rehearsal_is_marked_as_invented(writer: Person) -> None:
    assert writer.place.panel.rehearsal.isVisible()
