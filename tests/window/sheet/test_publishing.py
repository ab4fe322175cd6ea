"""Publishing from the Sheet with real keys: what goes out, what is owed, and the revisions."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.window.sheet.sheet_place import PAGES, REVISIONS
from benchlog.window.sheet.wishes_kept import wishes_of
from benchlog.window.theme import rescale
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed
from tests.window.sheet.publish_scenes import (
    QUICK,
    ask_another_question,
    at_the_sheet,
    publish,
    put_right,
)

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def publisher(sample_desk, sit, tmp_path: Path) -> Person:
    return at_the_sheet(sit, sample_desk, tmp_path / "out")


def test_draft_is_called_a_draft_until_published(publisher: Person) -> None:
    panel = publisher.place.panel
    assert panel.standing.text() == "Draft of revision 1, not published"
    assert panel.publish.text() == "Publish revision 1"
    publish(publisher)
    assert panel.standing.text() == "Revision 1 is published; nothing changed since"
    assert not panel.publish.isEnabled()
    assert panel.publish.text() == "Publish revision 2"
    assert publisher.told == []


def test_published_line_up_is_not_called_a_draft_when_opened_again(publisher: Person) -> None:
    place, lineup_id = publisher.place, publisher.desk.lineup_id
    assert "draft" in place.panel.state.text()
    publish(publisher)
    publisher.desk.open_lineup(lineup_id)
    publisher.until(lambda: "is published" in place.panel.standing.text())
    assert "draft" not in place.panel.state.text()


def test_published_files_are_told_and_opened(publisher: Person, tmp_path: Path) -> None:
    made = publish(publisher)
    panel = publisher.place.panel
    folder = tmp_path / "out" / "three-for-one-mount" / "revision-1"
    assert str(folder) in panel.state.text()
    assert {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()} == {
        output.name for output in made.outputs
    }
    assert {output.kind for output in made.outputs} <= {"chapters", "description"}
    assert publisher.focus is panel.folder
    publisher.press(Qt.Key.Key_Return)
    assert publisher.opened == [folder]


def test_unticked_output_stays_out_and_is_remembered(publisher: Person) -> None:
    rows = publisher.place.panel.outputs.rows
    assert rows["description"].box.isChecked()
    rows["chapters"].box.setFocus()
    publisher.press(Qt.Key.Key_Space)
    kept = wishes_of(publisher.desk)
    assert kept == replace(QUICK, kinds=("description",))
    made = publish(publisher)
    assert {o.name for o in made.outputs} == {"description.txt", "description.md"}


def test_output_ticked_later_goes_out(publisher: Person) -> None:
    place, panel = publisher.place, publisher.place.panel
    publish(publisher)
    publisher.until(lambda: not panel.publish.isEnabled())
    panel.outputs.rows["sheet"].box.setFocus()
    publisher.press(Qt.Key.Key_Space)
    publisher.until(panel.publish.isEnabled)
    said = "the sheet was added"
    assert panel.standing.text().endswith(f"the record is the same, but {said}")
    assert panel.publish.text() == "Publish revision 2"
    assert panel.reason.placeholderText() == f"left empty: {said}"
    made = publish(publisher)
    assert (made.revision, made.reason) == (2, said)
    publisher.until(lambda: not panel.publish.isEnabled())
    place.views.setCurrentIndex(REVISIONS)
    page = place.revisions
    publisher.until(page.changes.count)
    assert page.table.item(0, 5).text() == said
    assert page.changes.item(0).text() == "The sheet was added"


def test_other_units_may_follow(sample_desk, sit, tmp_path: Path) -> None:
    wishes = replace(QUICK, kinds=("sheet",))
    publisher = at_the_sheet(sit, sample_desk, tmp_path / "out", wishes)
    publish(publisher)
    panel = publisher.place.panel
    publisher.until(lambda: not panel.publish.isEnabled())
    publisher.desk.change_settings(paper="Letter", units="both")
    publisher.until(panel.publish.isEnabled)
    assert panel.reason.placeholderText() == "left empty: paper: A4 → Letter; units: metric → both"


def test_licence_lets_the_data_out(publisher: Person) -> None:
    outputs = publisher.place.panel.outputs
    row = outputs.rows["data"]
    row.box.setFocus()
    publisher.press(Qt.Key.Key_Space)
    publisher.until(lambda: row.note.property("tone") == "warn")
    assert "No licence chosen" in row.note.text()
    assert row.box.accessibleDescription() == row.note.text()
    outputs.licence.setFocus()
    publisher.press(Qt.Key.Key_Down)
    publisher.until(lambda: row.note.text().startswith("with "))
    assert row.note.property("tone") == "dim"
    assert wishes_of(publisher.desk).licence == "CC0-1.0"
    assert wishes_of(publisher.desk).goes_out("data")


def test_licence_is_kept_for_the_next_line_up(publisher: Person) -> None:
    outputs = publisher.place.panel.outputs
    outputs.licence.setFocus()
    publisher.press(Qt.Key.Key_Down)
    lineup = publisher.desk.teardown.lineup
    specimens = tuple(replace(one, id=f"another {one.id}") for one in lineup.specimens)
    publisher.shelf.save_lineup(replace(lineup, id="another", specimens=specimens))
    publisher.desk.open_lineup("another")
    assert wishes_of(publisher.desk) == PublishWishes(licence="CC0-1.0")
    assert outputs.wishes == PublishWishes(licence="CC0-1.0")


def test_correction_lends_its_reason(publisher: Person) -> None:
    publish(publisher)
    put_right(publisher)
    panel = publisher.place.panel
    assert panel.publish.text() == "Publish revision 2"
    assert panel.reason.isVisible()
    assert panel.reason.placeholderText() == "left empty: digits swapped"
    panel.publish.setFocus()
    assert publish(publisher).reason == "digits swapped"


def test_owed_reason_is_asked_for(publisher: Person) -> None:
    publish(publisher)
    ask_another_question(publisher)
    place, panel = publisher.place, publisher.place.panel
    panel.publish.setFocus()
    publisher.press(Qt.Key.Key_Space)
    assert not place.work.under_way
    assert publisher.focus is panel.reason
    assert "Viewers read it" in panel.reason_field.fault.text()
    publisher.type("the question was unclear")
    assert not panel.reason_field.fault.isVisible()
    with publisher.qtbot.waitSignal(place.work.published, timeout=120_000):
        publisher.press(Qt.Key.Key_Return)
    assert publisher.shelf.publications(publisher.desk.lineup_id)[-1].reason == (
        "the question was unclear"
    )


def test_stopped_publishing_leaves_nothing(publisher: Person, tmp_path: Path) -> None:
    place = publisher.place
    with publisher.qtbot.waitSignal(place.work.stopped, timeout=60_000):
        publisher.press(Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
        assert publisher.focus is place.panel.stop
        publisher.press(Qt.Key.Key_Space)
    assert publisher.shelf.publications(publisher.desk.lineup_id) == []
    assert not (tmp_path / "out").exists()
    assert "nothing was written" in place.panel.state.text()
    publish(publisher)


def test_refused_publishing_is_told_in_the_panel(publisher: Person) -> None:
    rows = publisher.place.panel.outputs.rows
    for kind in ("chapters", "description"):
        rows[kind].box.click()
    with publisher.qtbot.waitSignal(publisher.place.work.failed, timeout=60_000):
        publisher.press(Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    settle()
    assert "nothing to publish" in publisher.place.panel.state.text()
    assert publisher.told == []


def test_revisions_tell_what_changed(publisher: Person) -> None:
    publish(publisher)
    put_right(publisher)
    place, page = publisher.place, publisher.place.revisions
    assert place.views.currentIndex() == PAGES
    place.views.setCurrentIndex(REVISIONS)
    page.table.setFocus()
    assert [page.table.item(r, 2).text() for r in range(page.table.rowCount())] == [
        "draft, not published",
        "published",
    ]
    assert not page.files.isEnabled()
    publisher.until(page.changes.count)
    assert page.head.text().endswith("to the draft of revision 2")
    said = [page.changes.item(n).text() for n in range(page.changes.count())]
    assert any("88.8 mm, because digits swapped" in line for line in said)
    publisher.press(Qt.Key.Key_Down)
    publisher.until(lambda: "first revision" in page.head.text())
    assert page.changes.count() == 0


def test_files_of_an_old_revision_open_again(publisher: Person, tmp_path: Path) -> None:
    publish(publisher)
    put_right(publisher)
    publish(publisher)
    page = publisher.place.revisions
    publisher.place.views.setCurrentIndex(REVISIONS)
    page.table.setFocus()
    publisher.press(Qt.Key.Key_Down)
    assert page.row.status == "superseded by revision 2"
    publisher.press(Qt.Key.Key_Return)
    publisher.until(lambda: publisher.opened)
    folder = tmp_path / "out" / "three-for-one-mount" / "revision-1"
    assert publisher.opened == [folder]
    assert str(folder) in publisher.place.panel.state.text()


def test_folder_for_the_files_is_chosen_and_kept(publisher: Person, tmp_path: Path) -> None:
    publisher.place.ask_folder = lambda: tmp_path / "elsewhere"
    publisher.place.panel.elsewhere.setFocus()
    publisher.press(Qt.Key.Key_Space)
    assert publisher.desk.settings.publish_to == str(tmp_path / "elsewhere")
    publish(publisher)
    assert (tmp_path / "elsewhere" / "three-for-one-mount" / "revision-1").is_dir()


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_off_with_revisions(publisher: Person, themed, size: str) -> None:
    publish(publisher)
    ask_another_question(publisher)
    place = publisher.place
    width, height, unit = SIZES[size]
    place.resize(width, height)
    rescale(themed, place, unit)
    place.rescaled()
    place.panel.ask_reason()
    for view in (PAGES, REVISIONS):
        place.views.setCurrentIndex(view)
        settle()
        assert cut_off(place) == []
        assert unnamed(place) == []


def test_newest_revision_is_in_hand_until_another_is_chosen(publisher: Person) -> None:
    publish(publisher)
    page = publisher.place.revisions
    assert page.row.revision == 1
    ask_another_question(publisher)
    assert (page.row.revision, page.row.draft) == (2, True)
    publisher.place.views.setCurrentIndex(REVISIONS)
    page.table.setFocus()
    publisher.press(Qt.Key.Key_Down)
    publisher.place.panel.reason.setText("the question was unclear")
    publisher.place.panel.publish.setFocus()
    publish(publisher)
    assert (page.row.revision, page.row.draft) == (1, False)
