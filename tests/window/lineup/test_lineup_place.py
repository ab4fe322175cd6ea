from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt

from benchlog.tasks.draft import fresh_draft, save_draft, with_heading
from benchlog.tasks.plan import usual_attributes
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Paid, Shape
from benchlog.window.desk import Desk
from benchlog.window.lineup.asked_tree import FIXED
from benchlog.window.lineup.lineup_place import LineupPlace
from benchlog.window.shelf.shelf_place import ShelfPlace
from tests.window.place_scenes import Person, settle

ALT = Qt.KeyboardModifier.AltModifier
CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def plan(desk: Desk, sit) -> Person:
    """Someone planning a line-up on an empty shelf."""
    return sit(LineupPlace, desk)


@pytest.fixture
def kept(desk: Desk, sit) -> Person:
    """Someone at the plan of a line-up that is on the shelf, nothing read yet."""
    lineup = save_draft(
        desk.workshop.shelf, with_heading(fresh_draft(desk.workshop.clock), name="Kept")
    )
    desk.open_lineup(lineup.id)
    return sit(LineupPlace, desk)


def on_shelf(person: Person):
    return person.shelf.lineup(person.desk.lineup_id)


def field(person: Person, name: str):
    return person.place.form.fields[name]


def nicknames(person: Person) -> list[str]:
    return [s.nickname for s in on_shelf(person).specimens]


def saved(person: Person):
    return person.qtbot.waitSignal(person.place.planning.saved)


def test_planned_by_keyboard_only(plan: Person) -> None:
    heading = plan.place.heading.fields
    assert plan.focus is heading["name"].editor
    plan.type("Spring pair")
    plan.press(Qt.Key.Key_Tab)
    plan.type("Which for the same mount?")
    plan.tab_to(field(plan, "maker").editor)
    plan.type("Larkfield")
    plan.tab_to(field(plan, "paid").editor)
    plan.press(Qt.Key.Key_Down)
    plan.press(Qt.Key.Key_Tab)
    plan.type("Corner shop")
    plan.press(Qt.Key.Key_Tab)
    plan.type("8,90")
    with saved(plan):
        plan.press(Qt.Key.Key_Tab)
        plan.type("EUR")
    lineup = on_shelf(plan)
    first = lineup.specimens[0]
    assert (lineup.name, lineup.question) == ("Spring pair", "Which for the same mount?")
    assert (first.maker, first.giver, first.currency) == ("Larkfield", "Corner shop", "EUR")
    assert (first.paid, first.price) == (Paid.BOUGHT, Decimal("8.90"))
    assert [s.paid for s in lineup.specimens[1:]] == [Paid.UNANSWERED] * 2
    plan.tab_to(plan.place.to_bench)
    plan.press(Qt.Key.Key_Space)
    assert plan.went == ["bench"]


def test_plan_without_name_stays_off_the_shelf(plan: Person) -> None:
    plan.tab_to(plan.place.to_bench)
    plan.press(Qt.Key.Key_Space)
    assert plan.went == []
    assert plan.shelf.lineups() == []
    name = plan.place.heading.fields["name"]
    assert "no name" in name.fault.text()
    assert name.fault.isVisible()
    assert plan.focus is name.editor


def test_refused_price_is_told_beside_it_and_stays_typed(kept: Person) -> None:
    price = field(kept, "price_text")
    kept.tab_to(price.editor)
    with kept.qtbot.waitSignal(kept.place.planning.refused):
        kept.type("eight")
    assert "'eight' is no price" in price.fault.text()
    assert price.fault.isVisible()
    assert price.editor.text() == "eight"
    assert "is no price" in price.editor.accessibleDescription()
    assert on_shelf(kept).specimens[0].price is None
    kept.press(Qt.Key.Key_A, CONTROL)
    with saved(kept):
        kept.type("8.90")
    assert not price.fault.isVisible()
    assert on_shelf(kept).specimens[0].price == Decimal("8.90")


def test_price_without_currency_is_told_beside_it(kept: Person) -> None:
    currency = field(kept, "currency")
    kept.tab_to(field(kept, "price_text").editor)
    with saved(kept):
        kept.type("8.90")
    assert currency.fault.text() == "Say the currency."
    assert currency.fault.isVisible()
    assert on_shelf(kept).specimens[0].price == Decimal("8.90")
    kept.press(Qt.Key.Key_Tab)
    kept.type("EUR")
    assert not currency.fault.isVisible()


def test_vague_date_is_told_once_it_is_left(kept: Person) -> None:
    bought = field(kept, "bought_on")
    kept.tab_to(bought.editor)
    with saved(kept):
        kept.type("yesterday")
    assert not bought.fault.isVisible()
    kept.press(Qt.Key.Key_Tab)
    assert "as 2026-03-02" in bought.fault.text()
    assert bought.fault.isVisible()
    assert bought.editor.text() == on_shelf(kept).specimens[0].bought_on == "yesterday"


def test_examples_do_not_look_filled_in(kept: Person) -> None:
    for name in ("price_text", "currency", "bought_on"):
        editor = field(kept, name).editor
        assert editor.placeholderText().startswith(("for example ", "as "))
        wide = editor.fontMetrics().horizontalAdvance(editor.placeholderText())
        assert wide < editor.width()


def test_shared_shape_is_refused_beside_the_shape(kept: Person) -> None:
    shape = field(kept, "shape")
    kept.tab_to(shape.editor)
    with kept.qtbot.waitSignal(kept.place.planning.refused):
        kept.press(Qt.Key.Key_Down)
    assert "share the shape 'square'" in kept.place.told.text()
    assert on_shelf(kept).specimens[0].shape is Shape.CIRCLE
    with saved(kept):
        kept.press(Qt.Key.Key_End)
    assert on_shelf(kept).specimens[0].shape is Shape.STAR


def test_specimens_are_added_moved_and_removed_by_keys(kept: Person) -> None:
    kept.place.specimens.list.setFocus()
    with saved(kept):
        kept.press(Qt.Key.Key_Down, ALT)
    assert nicknames(kept) == ["Cobalt", "Amber", "Moss"]
    with saved(kept):
        kept.press(Qt.Key.Key_Delete)
    assert nicknames(kept) == ["Cobalt", "Moss"]
    with saved(kept):
        kept.press(Qt.Key.Key_A, ALT)
    assert nicknames(kept) == ["Cobalt", "Moss", "Amber"]
    assert kept.focus is field(kept, "nickname").editor


def test_six_is_the_most_and_one_the_least(kept: Person) -> None:
    specimens = kept.place.specimens
    for _ in range(3):
        specimens.add.click()
    assert not specimens.add.isEnabled()
    for _ in range(5):
        specimens.remove.click()
    assert not specimens.remove.isEnabled()
    assert len(kept.place.planning.draft.lineup.specimens) == 1


def test_undo_takes_changes_back_one_by_one(kept: Person) -> None:
    with saved(kept):
        kept.tab_to(field(kept, "maker").editor)
        kept.type("Larkfield")
    kept.place.specimens.list.setFocus()
    with saved(kept):
        kept.press(Qt.Key.Key_Delete)
    assert kept.place.undo.accessibleName() == "Undo: Amber removed"
    with saved(kept):
        kept.press(Qt.Key.Key_Z, CONTROL)
    assert on_shelf(kept).specimens[0].maker == "Larkfield"
    with saved(kept):
        kept.press(Qt.Key.Key_Z, CONTROL)
    assert on_shelf(kept).specimens[0].maker == ""
    assert not kept.place.undo.isEnabled()


def test_specimen_with_readings_stays(sample_desk: Desk, sit) -> None:
    person = sit(LineupPlace, sample_desk)
    person.place.specimens.list.setFocus()
    with person.qtbot.waitSignal(person.place.planning.refused):
        person.press(Qt.Key.Key_Delete)
    assert person.place.told.text().startswith("Amber has readings")
    assert person.place.specimens.list.count() == 3
    assert not person.place.planning.pending
    assert not person.place.undo.isEnabled()
    assert person.place.planning.draft.lineup == on_shelf(person)


def test_kind_is_fixed_once_something_is_read(kept: Person, sample_desk: Desk, sit) -> None:
    assert kept.place.heading.kind.isEnabled()
    begun = sit(LineupPlace, sample_desk)
    assert not begun.place.heading.kind.isEnabled()
    assert begun.place.heading.fields["sequence"].note.text() == "fixed"


def test_other_kind_asks_for_what_is_usual_there(kept: Person) -> None:
    kept.tab_to(kept.place.heading.kind)
    with saved(kept):
        kept.press(Qt.Key.Key_Down)
    assert on_shelf(kept).sequence == "cartridge"
    assert on_shelf(kept).attributes == usual_attributes(load_sequence("cartridge"))


def test_who_paid_is_shown_as_owed_until_answered(kept: Person) -> None:
    paid = field(kept, "paid")
    assert kept.focus is paid.editor
    assert paid.note.text() == "viewers are owed this"
    assert "who paid for Amber, Cobalt, Moss" in kept.place.told.text()
    assert "who paid?" in kept.place.specimens.list.item(0).text()
    with saved(kept):
        kept.press(Qt.Key.Key_End)
    assert on_shelf(kept).specimens[0].paid is Paid.LENT
    assert paid.note.text() == ""
    assert "who paid for Cobalt, Moss" in kept.place.told.text()


def test_asking_all_and_usual_only(kept: Person) -> None:
    sequence = load_sequence("spin_on")
    with saved(kept):
        kept.place.tree.all.click()
    assert on_shelf(kept).attributes == tuple(a.key for a in sequence.attributes)
    with saved(kept):
        kept.place.tree.usual.click()
    assert on_shelf(kept).attributes == usual_attributes(sequence)


def test_space_ticks_what_is_asked(kept: Person) -> None:
    tree = kept.place.tree.tree
    kept.tab_to(tree)
    unfold = next(
        tree.topLevelItem(n)
        for n in range(tree.topLevelItemCount())
        if tree.topLevelItem(n).text(0) == "Unfold"
    )
    tree.setCurrentItem(unfold)
    before = set(on_shelf(kept).attributes)
    with saved(kept):
        kept.press(Qt.Key.Key_Space)
    added = set(on_shelf(kept).attributes) - before
    here = {a.key for a in load_sequence("spin_on").at("unfold")}
    assert added == here - before != set()
    kept.press(Qt.Key.Key_Right)
    kept.press(Qt.Key.Key_Down)
    with saved(kept):
        kept.press(Qt.Key.Key_Space)
    assert len(set(on_shelf(kept).attributes) - before) == len(added) - 1


def test_order_of_stations_is_said_to_be_fixed(kept: Person) -> None:
    tree = kept.place.tree.tree
    labels = [tree.topLevelItem(n).text(0) for n in range(tree.topLevelItemCount())]
    assert labels == [s.label for s in load_sequence("spin_on").stations]
    assert "cannot be changed" in FIXED
    assert kept.place.tree.fixed.text() == FIXED


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
