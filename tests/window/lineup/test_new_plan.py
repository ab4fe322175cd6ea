from __future__ import annotations

from PySide6.QtCore import Qt

from benchlog.window.desk import Desk
from benchlog.window.lineup.lineup_place import LineupPlace
from benchlog.window.shelf.shelf_place import ShelfPlace
from tests.window.place_scenes import Person, settle
from tests.window.plan_scenes import field, on_shelf, saved

ALT = Qt.KeyboardModifier.AltModifier
CONTROL = Qt.KeyboardModifier.ControlModifier


def test_new_plan_keeps_the_other_on_the_shelf(kept: Person) -> None:
    kept.desk.plan_wanted.emit()
    kept.place.enter()
    kept.type("Second")
    with saved(kept):
        kept.press(Qt.Key.Key_Tab)
    assert [brief.name for brief in kept.shelf.lineups()] == ["Second", "Kept"]
    assert kept.desk.teardown.lineup.name == "Second"


def test_new_plan_from_the_shelf_is_a_fresh_one(kept: Person, sit) -> None:
    shelf = sit(ShelfPlace, kept.desk)
    shelf.press(Qt.Key.Key_N, CONTROL)
    assert shelf.went == ["lineup"]
    kept.place.enter()
    heading = kept.place.heading.fields["name"].editor
    assert heading.text() == ""
    kept.place.enter()
    assert heading.text() == ""
    assert on_shelf(kept).name == "Kept"


def test_unnamed_plan_waits_while_other_places_are_shown(kept: Person) -> None:
    kept.place.new.click()
    kept.tab_to(field(kept, "maker").editor)
    kept.type("Larkfield")
    kept.desk.recorded.emit()
    kept.place.enter()
    assert kept.place.heading.fields["name"].editor.text() == ""
    assert field(kept, "maker").editor.text() == "Larkfield"


def test_way_back_from_a_new_plan_and_to_it_again(kept: Person) -> None:
    new, name = kept.place.new, kept.place.heading.fields["name"].editor
    new.click()
    assert (name.text(), new.text()) == ("", "&Not now")
    kept.tab_to(field(kept, "maker").editor)
    kept.type("Larkfield")
    new.click()
    assert (name.text(), new.text()) == ("Kept", "&New line-up")
    assert field(kept, "maker").editor.text() == ""
    new.click()
    assert field(kept, "maker").editor.text() == "Larkfield"


def test_named_plan_that_waited_reaches_the_shelf(kept: Person) -> None:
    kept.place.new.click()
    kept.type("Second")
    kept.place.new.click()
    with saved(kept):
        kept.place.new.click()
    assert on_shelf(kept).name == "Second"


def test_new_plan_keeps_what_was_just_typed(kept: Person) -> None:
    kept.tab_to(field(kept, "maker").editor)
    kept.type("Larkfield")
    kept.desk.plan_wanted.emit()
    assert on_shelf(kept).specimens[0].maker == "Larkfield"
    assert kept.place.heading.fields["name"].editor.text() == ""


def test_new_plan_does_not_drop_a_refused_word(kept: Person) -> None:
    kept.tab_to(field(kept, "price_text").editor)
    kept.type("eight")
    kept.desk.plan_wanted.emit()
    kept.place.enter()
    assert field(kept, "price_text").editor.text() == "eight"
    assert "is no price" in kept.place.told.text()


def test_unfinished_plan_waits_while_another_is_opened(kept: Person) -> None:
    kept.desk.plan_wanted.emit()
    kept.place.enter()
    kept.tab_to(field(kept, "maker").editor)
    kept.type("Larkfield")
    kept.desk.open_lineup(kept.shelf.lineups()[0].id)
    assert kept.place.planning.draft.lineup.name == "Kept"
    kept.desk.plan_wanted.emit()
    assert field(kept, "maker").editor.text() == "Larkfield"


def test_refusal_elsewhere_leaves_typing_in_peace(kept: Person) -> None:
    kept.tab_to(field(kept, "price_text").editor)
    with kept.qtbot.waitSignal(kept.place.planning.refused):
        kept.type("eight")
    kept.place.specimens.list.setFocus()
    kept.press(Qt.Key.Key_Down)
    kept.tab_to(field(kept, "maker").editor)
    with kept.qtbot.waitSignal(kept.place.planning.refused):
        kept.type("Quill")
    assert kept.focus is field(kept, "maker").editor
    assert "Amber: 'eight' is no price" in kept.place.told.text()
    assert not field(kept, "price_text").fault.isVisible()
    kept.place.to_bench.setFocus()
    kept.press(Qt.Key.Key_Space)
    assert kept.went == []
    assert kept.focus is field(kept, "price_text").editor
    assert kept.focus.text() == "eight"


def test_typed_plan_is_kept_when_the_window_closes(plan: Person) -> None:
    plan.type("Half a plan")
    plan.place.leave()
    assert [brief.name for brief in plan.shelf.lineups()] == ["Half a plan"]


def test_photo_of_a_specimen_is_added_and_shown(kept: Person, tmp_path, monkeypatch) -> None:
    from PIL import Image

    picture = tmp_path / "can.png"
    Image.new("RGB", (40, 30), "#886644").save(picture)
    monkeypatch.setattr(kept.place.photo, "ask_files", lambda: (picture,))
    kept.tab_to(kept.place.photo.add)
    with kept.qtbot.waitSignal(kept.desk.recorded):
        kept.press(Qt.Key.Key_Space)
    settle()
    photos = kept.shelf.photos(kept.desk.lineup_id)
    assert [p.specimen_id for p in photos] == [on_shelf(kept).specimens[0].id]
    assert kept.place.photo.words.text() == "1 photo"
    assert not kept.place.photo.picture.pixmap().isNull()


def test_question_promises_no_lock(sample_desk: Desk, sit) -> None:
    person = sit(LineupPlace, sample_desk)
    question = person.place.heading.fields["question"]
    assert question.editor.isEnabled()
    assert question.caption.text() == "Question"


def test_rehearsal_is_marked_as_invented(kept: Person, sample_desk: Desk, sit) -> None:
    assert not kept.place.rehearsal.isVisible()
    assert sit(LineupPlace, sample_desk).place.rehearsal.isVisible()
