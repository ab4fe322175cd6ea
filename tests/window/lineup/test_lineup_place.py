from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt

from benchlog.tasks.plan import usual_attributes
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Paid, Shape
from benchlog.window.desk import Desk
from benchlog.window.lineup.asked_tree import FIXED
from benchlog.window.lineup.lineup_place import LineupPlace
from tests.window.place_scenes import Person
from tests.window.plan_scenes import field, nicknames, on_shelf, saved

ALT = Qt.KeyboardModifier.AltModifier
CONTROL = Qt.KeyboardModifier.ControlModifier


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
