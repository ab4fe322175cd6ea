"""The rules of a line-up in their dialog, by keys: looked at, edited, locked, changed, kept."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor

from benchlog.tasks.draft import fresh_draft, save_draft, with_heading
from benchlog.tasks.edit_rules import rule_about
from benchlog.tasks.lock import change_rules, rules_in_force
from benchlog.window.desk import Desk
from benchlog.window.lineup.lineup_place import LineupPlace
from benchlog.window.lineup.rules_dialog import DROP, RulesDialog
from benchlog.window.lineup.rules_layout import RulesParts
from benchlog.window.lineup.value_curve import ValueCurve
from benchlog.window.theme import colours
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed

ALT = Qt.KeyboardModifier.AltModifier
CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def planner(desk: Desk, sit) -> Person:
    """Someone at a line-up that is planned and not yet cut."""
    draft = with_heading(fresh_draft(desk.workshop.clock), name="Spring trial")
    desk.open_lineup(save_draft(desk.workshop.shelf, draft).id)
    return sit(LineupPlace, desk)


def open_rules(person: Person) -> RulesDialog:
    person.place.activateWindow()
    person.until(lambda: person.focus is not None)
    person.press(Qt.Key.Key_U, ALT)
    person.until(lambda: person.place.rules_opener.dialog is not None)
    dialog = person.place.rules_opener.dialog
    person.until(lambda: person.focus is dialog.table)
    return dialog


def parts(person: Person) -> RulesParts:
    return person.place.rules_opener.dialog.parts


def choose(person: Person, label: str) -> None:
    """Walk down the rules with the arrow keys."""
    table = person.place.rules_opener.dialog.table
    table.setFocus()
    for row in range(table.rowCount()):
        if table.item(row, 1).text() == label:
            table.setCurrentCell(max(row - 1, 0), 1)
            person.press(Qt.Key.Key_Down)
            return
    raise AssertionError(label)


def retype(person: Person, field: str, text: str) -> None:
    """Type a field of the chosen rule anew and leave it by Tab."""
    dialog = person.place.rules_opener.dialog
    person.tab_to(dialog.form.fields[field].editor)
    person.press(Qt.Key.Key_A, CTRL)
    person.type(text)
    person.press(Qt.Key.Key_Tab)


def press_button(person: Person, button) -> None:
    person.tab_to(button)
    person.press(Qt.Key.Key_Return)


def weight_of(person: Person, subject: str = "can_wall") -> float:
    return rule_about(person.place.rules_opener.dialog.draft.now, subject).weight


def in_force(person: Person):
    return rules_in_force(person.shelf, person.shelf.lineup(person.desk.lineup_id))


def locked_and_heavier(person: Person) -> RulesDialog:
    dialog = open_rules(person)
    press_button(person, dialog.parts.lock)
    choose(person, "Can wall thickness")
    retype(person, "weight", "5")
    return dialog


def test_rules_are_not_locked_at_first(planner: Person) -> None:
    assert planner.place.rules.text().replace("&", "") == "Rules not locked…"
    open_rules(planner)
    assert parts(planner).state.text() == "“Bench rules”, version 3: not locked."
    assert not parts(planner).reason.isVisible()


def test_rule_is_shown_in_full(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    form = dialog.form
    rule = rule_about(dialog.draft.now, "can_wall")
    assert form.label.text() == "Can wall thickness"
    assert form.counts.isChecked()
    assert form.fields["weight"].editor.text() == f"{rule.weight:g}"
    assert form.fields["meaningful"].editor.text() == "0.05 mm"
    assert rule.reason in form.about.text()
    assert rule.source in form.about.text()
    assert form.curve.isVisible()


def test_conditions_of_comparing_are_told(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Media thickness")
    assert "the gauge's foot pressure" in dialog.form.about.text()
    assert not dialog.form.curve.isVisible()


def test_weight_is_typed_and_shares_follow(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    row = dialog.table.currentRow()
    before = dialog.table.item(row, 4).text()
    retype(planner, "weight", "5")
    assert weight_of(planner) == 5
    assert dialog.table.item(row, 3).text() == "5"
    assert dialog.table.item(row, 4).text() != before
    assert dialog.parts.undo.isEnabled()


def test_what_cannot_stand_is_refused_at_its_field(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    before = weight_of(planner)
    retype(planner, "weight", "much")
    field = dialog.form.fields["weight"]
    assert field.fault.isVisible()
    assert field.editor.text() == "much"
    assert weight_of(planner) == before
    press_button(planner, dialog.parts.lock)
    assert planner.shelf.rules_locks(planner.desk.lineup_id) == []
    assert planner.focus is field.editor


def test_value_function_is_typed(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    planner.tab_to(dialog.form.worth)
    planner.press(Qt.Key.Key_A, CTRL)
    planner.type("0.2 mm = 0")
    planner.press(Qt.Key.Key_Return)
    planner.type("0.5 mm = 10")
    planner.press(Qt.Key.Key_Tab)
    anchors = rule_about(dialog.draft.now, "can_wall").anchors
    assert [(a.at, a.value) for a in anchors] == [(0.2, 0.0), (0.5, 10.0)]


def test_space_lets_a_rule_count_or_not(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    planner.press(Qt.Key.Key_Space)
    row = dialog.table.currentRow()
    assert dialog.table.subject == "can_wall"
    assert dialog.table.item(row, 2).text() == "no"
    assert not dialog.form.fields["weight"].isVisible()
    planner.press(Qt.Key.Key_Space)
    assert dialog.table.item(dialog.table.currentRow(), 2).text() == "yes"


def test_box_lets_a_rule_count_or_not(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    planner.tab_to(dialog.form.counts)
    planner.press(Qt.Key.Key_Space)
    assert weight_of(planner) == 0


def test_box_lets_a_rule_compare_or_not(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    planner.tab_to(dialog.form.compared)
    planner.press(Qt.Key.Key_Space)
    assert not rule_about(dialog.draft.now, "can_wall").compared
    row = dialog.table.currentRow()
    assert [dialog.table.item(row, c).text() for c in (2, 3, 5)] == ["no", "", "not compared"]
    assert "not compared by the rules" in dialog.form.how.text()
    assert not any(field.isVisible() for field in dialog.form.fields.values())
    assert not dialog.form.curve.isVisible()
    assert planner.focus is dialog.form.compared
    planner.press(Qt.Key.Key_Space)
    assert rule_about(dialog.draft.now, "can_wall").compared
    assert weight_of(planner) > 0
    assert dialog.form.fields["weight"].isVisible()


def test_what_is_never_scored_stays_so(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Whole weight, as received")
    planner.press(Qt.Key.Key_Space)
    assert "not scored" in dialog.parts.told.text()
    assert not dialog.form.counts.isChecked()


def test_undo_and_redo_walk_the_steps(planner: Person) -> None:
    open_rules(planner)
    choose(planner, "Can wall thickness")
    before = weight_of(planner)
    retype(planner, "weight", "5")
    choose(planner, "Can wall thickness")
    planner.press(Qt.Key.Key_Z, CTRL)
    assert weight_of(planner) == before
    press_button(planner, parts(planner).redo)
    assert weight_of(planner) == 5


def test_limits_of_the_set_are_typed(planner: Person) -> None:
    dialog = open_rules(planner)
    planner.tab_to(dialog.parts.coverage.editor)
    planner.press(Qt.Key.Key_A, CTRL)
    planner.type("60 %")
    planner.press(Qt.Key.Key_Tab)
    assert dialog.draft.now.smallest_coverage == pytest.approx(0.6)
    planner.press(Qt.Key.Key_A, CTRL)
    planner.type("eleven")
    planner.press(Qt.Key.Key_Tab)
    assert dialog.parts.points.fault.isVisible()
    assert dialog.draft.now.meaningful_score == 0.5


def test_lock_stamps_and_says_so(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    retype(planner, "weight", "5")
    wanted = dialog.draft.now
    press_button(planner, dialog.parts.lock)
    (lock,) = planner.shelf.rules_locks(planner.desk.lineup_id)
    assert (lock.rules, lock.after_cut) == (wanted, False)
    assert lock.digest[:12] in dialog.parts.state.text()
    assert not dialog.parts.lock.isEnabled()
    assert planner.focus is dialog.parts.close
    planner.press(Qt.Key.Key_Return)
    assert planner.place.rules.text().replace("&", "") == "Rules locked…"
    assert planner.place.focusWidget() is planner.place.rules


def test_change_of_locked_rules_wants_its_reason(planner: Person) -> None:
    dialog = locked_and_heavier(planner)
    assert dialog.parts.lock.accessibleName() == "Change the rules"
    assert dialog.parts.reason.isVisible()
    assert "before the cut" in dialog.parts.reason.note.text()
    press_button(planner, dialog.parts.lock)
    assert dialog.parts.reason.fault.isVisible()
    assert planner.focus is dialog.parts.reason.editor
    planner.type("the wall is what dents")
    press_button(planner, dialog.parts.lock)
    locks = planner.shelf.rules_locks(planner.desk.lineup_id)
    assert locks[-1].reason == "the wall is what dents"
    assert not dialog.parts.reason.isVisible()


def test_locking_is_told_to_the_desk(planner: Person) -> None:
    told: list[str] = []
    planner.desk.rules_changed.connect(lambda: told.append("rules"))
    planner.desk.recorded.connect(lambda: told.append("recorded"))
    press_button(planner, open_rules(planner).parts.lock)
    assert told == ["recorded", "rules"]


def test_enter_in_a_field_locks_nothing(planner: Person) -> None:
    dialog = open_rules(planner)
    planner.tab_to(dialog.parts.own_name.editor)
    planner.press(Qt.Key.Key_Return)
    assert planner.shelf.rules_locks(planner.desk.lineup_id) == []
    assert dialog.isVisible()


def test_edits_wait_when_the_dialog_closes(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    retype(planner, "weight", "5")
    planner.press(Qt.Key.Key_Escape)
    assert dialog.parts.told.text() == DROP
    planner.press(Qt.Key.Key_Escape)
    assert planner.place.rules_opener.dialog is None
    open_rules(planner)
    assert weight_of(planner) == 5
    assert in_force(planner) != planner.place.rules_opener.dialog.draft.now


def test_own_set_is_kept_by_name_and_version(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    retype(planner, "weight", "5")
    press_button(planner, dialog.parts.save)
    assert "no name" in dialog.parts.own_name.fault.text()
    planner.type("Long trips")
    press_button(planner, dialog.parts.save)
    (kept,) = planner.shelf.own_rules()
    assert (kept.label, kept.version) == ("Long trips", "1")
    assert rule_about(kept, "can_wall").weight == 5
    assert "“Long trips”, version 1" in dialog.parts.told.text()
    assert dialog.draft.now == kept


def test_named_set_is_taken_and_compared(planner: Person) -> None:
    dialog = open_rules(planner)
    choose(planner, "Can wall thickness")
    retype(planner, "weight", "5")
    press_button(planner, dialog.parts.compare)
    compare = dialog.compare_dialog
    planner.until(lambda: planner.focus is compare.sets)
    assert [compare.changes.item(n).text() for n in range(compare.changes.count())] == [
        "Can wall thickness: weight 2 → 5"
    ]
    assert unnamed(compare) == []
    planner.press(Qt.Key.Key_Escape)
    dialog.activateWindow()
    dialog.parts.sets.setFocus()
    planner.until(lambda: planner.focus is dialog.parts.sets)
    planner.press(Qt.Key.Key_Down)
    assert weight_of(planner) == 2
    press_button(planner, dialog.parts.compare)
    assert dialog.compare_dialog.changes.item(0).text() == "They say the same."


def test_draft_of_another_line_up_is_its_own(planner: Person) -> None:
    open_rules(planner)
    choose(planner, "Can wall thickness")
    retype(planner, "weight", "5")
    planner.press(Qt.Key.Key_Escape)
    planner.press(Qt.Key.Key_Escape)
    draft = with_heading(fresh_draft(planner.desk.workshop.clock), name="Second")
    planner.desk.open_lineup(save_draft(planner.shelf, draft).id)
    open_rules(planner)
    assert weight_of(planner) == 2


def test_unnamed_plan_leads_to_its_name(desk: Desk, sit) -> None:
    person = sit(LineupPlace, desk)
    person.place.rules.click()
    assert person.place.rules_opener.dialog is None
    assert person.focus is person.place.heading.fields["name"].editor


def test_bench_asks_for_the_rules(planner: Person) -> None:
    planner.desk.rules_wanted.emit()
    assert planner.place.rules_opener.dialog is not None


def test_rules_changed_elsewhere_show_on_the_button(sample_desk, sit) -> None:
    person = sit(LineupPlace, sample_desk)
    softer = in_force(person)
    from benchlog.tasks.edit_rules import set_weight

    change_rules(
        person.shelf, sample_desk.workshop.clock, sample_desk.lineup_id,
        set_weight(softer, "can_wall", "7"), "it was a slip",
    )  # fmt: skip
    sample_desk.rules_changed.emit()
    assert "changed after the cut" in person.place.rules.accessibleName()


def test_curve_runs_through_its_corners(qtbot, themed, planner: Person) -> None:
    rule = rule_about(in_force(planner), "can_wall")
    curve = ValueCurve()
    qtbot.addWidget(curve)
    curve.resize(300, 80)
    curve.show_rule(rule)
    image = curve.grab().toImage()
    accent = QColor(colours().accent)
    inked = [
        QPoint(x, y) for x in range(300) for y in range(80) if image.pixelColor(x, y) == accent
    ]
    first = [p.y() for p in inked if p.x() < 20]
    last = [p.y() for p in inked if p.x() > 280]
    assert min(first) > max(last) or rule.anchors[0].value > rule.anchors[-1].value


@pytest.mark.parametrize("size", SIZES)
def test_rules_are_named_and_not_cut_off(sample_desk, sit, size: str) -> None:
    person = sit(LineupPlace, sample_desk, size)
    dialog = open_rules(person)
    for label in ("Can wall thickness", "Gasket material", "Whole weight, as received"):
        choose(person, label)
        settle()
        assert cut_off(dialog) == [], label
    choose(person, "Can wall thickness")
    retype(person, "weight", "5")
    settle()
    assert cut_off(dialog) == []
    assert unnamed(dialog) == []
