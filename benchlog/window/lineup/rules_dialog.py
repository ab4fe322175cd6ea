"""The rules of a line-up: looked at, edited before the cut, locked, and changed with a reason."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QDialog, QPushButton, QWidget

from benchlog.errors import PlanRefused, WorldError
from benchlog.judge.rules_changes import number_text
from benchlog.tasks.edit_rules import rule_about
from benchlog.tasks.lock import rightly_named
from benchlog.tasks.lock_view import (
    COVERAGE,
    POINTS,
    LockState,
    comparing,
    counting,
    edited,
    latest_step,
    lock_state,
    put_in_force,
    with_limit,
)
from benchlog.tasks.own_sets import save_own_set
from benchlog.tasks.rules_draft import RulesDraft, draft_of
from benchlog.tasks.rules_view import rule_rows
from benchlog.tasks.sets_view import named, sets_offered
from benchlog.window.desk import Desk
from benchlog.window.lineup.field import focus_into, show_text
from benchlog.window.lineup.rules_compare import CompareDialog
from benchlog.window.lineup.rules_layout import RulesParts, lay_out

AFTER = "Changed now, it is printed on the sheet with its reason, as a change {} the cut."
DROP = "These edits are not in force. Close again to leave them so; they wait here."


class RulesDialog(QDialog):
    """Edits a draft of the rules.

    `drafted` carries it when the dialog closes, `locked` follows rules that came into force.
    """

    drafted = Signal(object)
    locked = Signal()

    def __init__(self, desk: Desk, draft: RulesDraft, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle("Rules of this line-up")
        self._desk, self.draft = desk, draft
        self._warned = False
        self.parts: RulesParts = lay_out(self)
        self.table, self.form = self.parts.table, self.parts.form
        self._offers = sets_offered(desk.workshop.shelf)
        self._connect()
        self.show_draft()
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_draft(self) -> None:
        """Show the draft as it is now, and what may be done with it."""
        p, rules = self.parts, self.draft.now
        self.table.show_rows(rule_rows(rules, self._desk.teardown.sequence))
        self._show_rule(self.table.subject)
        show_text(p.coverage.editor, f"{number_text(rules.smallest_coverage, 100)} %")
        show_text(p.points.editor, number_text(rules.meaningful_score))
        state = self._state()
        p.state.setText(state.words)
        p.state.setProperty("tone", "good" if state.locked else "dim")
        p.state.style().polish(p.state)
        p.undo.setEnabled(bool(self.draft.past))
        p.redo.setEnabled(bool(self.draft.future))
        p.undo.setToolTip(latest_step(self.draft))
        p.lock.setText(f"&{state.act}")
        p.lock.setAccessibleName(state.act)
        p.lock.setEnabled(state.may)
        p.reason.setVisible(state.needs_reason)
        p.reason.show_note(AFTER.format("after" if state.after_cut else "before"))
        self._show_sets()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
        elif isinstance(self.focusWidget(), QPushButton):  # no other button answers to Enter
            self.focusWidget().click()

    def reject(self) -> None:
        """Close; edits that are not in force are told of first, and wait."""
        if not self._take_typed() and not self._warned:
            self._warned = True
            return
        if self._state().changed and not self._warned:
            self._warned = True
            self._say(DROP)
            return
        self.drafted.emit(self.draft)
        super().reject()

    # --- inside ------------------------------------------------------------------------------

    def _connect(self) -> None:
        p = self.parts
        self.table.chosen.connect(self._show_rule)
        self.table.toggled.connect(self._toggle)
        self.table.opened.connect(lambda _row, _column: self._to_form())
        self.form.typed.connect(
            lambda subject, field, text: self._try(
                lambda: edited(self.draft, subject, field, text), field
            )
        )
        self.form.counting.connect(
            lambda subject, counts: self._try(
                lambda: counting(self.draft, subject, counts=counts), ""
            )
        )
        self.form.comparing.connect(
            lambda subject, compared: self._try(
                lambda: comparing(self.draft, subject, compared=compared), ""
            )
        )
        for key, field in ((COVERAGE, p.coverage), (POINTS, p.points)):
            field.editor.editingFinished.connect(
                lambda key=key, field=field: self._try(
                    lambda: with_limit(self.draft, key, field.editor.text()), key
                )
            )
        p.sets.activated.connect(self._take_set)
        p.undo.clicked.connect(self._undo)
        p.redo.clicked.connect(lambda: self._take(self.draft.redo()))
        for keys, button in (
            (QKeySequence.StandardKey.Undo, p.undo),
            (QKeySequence.StandardKey.Redo, p.redo),
        ):
            QShortcut(keys, self).activated.connect(button.click)
        p.compare.clicked.connect(self._compare)
        p.save.clicked.connect(self._save)
        p.lock.clicked.connect(self._lock)
        p.close.clicked.connect(self.reject)

    def _state(self) -> LockState:
        shelf, teardown = self._desk.workshop.shelf, self._desk.teardown
        return lock_state(shelf, teardown.lineup, self.draft, teardown.sequence)

    def _show_rule(self, subject: str) -> None:
        rows = rule_rows(self.draft.now, self._desk.teardown.sequence)
        row = next((row for row in rows if row.subject == subject), None)
        if row is not None:
            self.form.show_rule(row, rule_about(self.draft.now, subject))

    def _show_sets(self) -> None:
        """Name the set that the draft is, as long as it is one."""
        with QSignalBlocker(self.parts.sets):
            self.parts.sets.clear()
            in_hand = rightly_named(self._desk.workshop.shelf, self.draft.now)
            self.parts.sets.addItem(f"in hand: {named(in_hand)}")
            self.parts.sets.addItems([offer.label for offer in self._offers])

    def _try(self, step: Callable[[], RulesDraft], field: str) -> None:
        """Take a step if it can stand, else say at its field why not."""
        try:
            self._take(step(), field)
        except PlanRefused as refusal:
            words = f"{refusal.what} {refusal.do}".strip()
            if field:
                self._show_fault(field, words)
            else:
                self._say(words)
                self._show_rule(self.table.subject)

    def _show_fault(self, field: str, words: str) -> None:
        """Say beside a field why it cannot stand, or nothing where it can."""
        limits = {COVERAGE: self.parts.coverage, POINTS: self.parts.points}
        if field in limits:
            limits[field].show_fault(words)
        else:
            self.form.show_fault(field, words)

    def _take(self, draft: RulesDraft, field: str = "") -> None:
        """Show a draft; one that says the same leaves what is refused elsewhere as it is."""
        self._warned = False
        self._say("")
        if draft is self.draft:
            self._show_fault(field, "")
            return
        for limit in (self.parts.coverage, self.parts.points):
            limit.show_fault("")
        self.draft = draft
        self.show_draft()

    def _toggle(self, subject: str) -> None:
        row = next(
            r for r in rule_rows(self.draft.now, self._desk.teardown.sequence)
            if r.subject == subject
        )  # fmt: skip
        self._try(lambda: counting(self.draft, subject, counts=not row.counts), "")

    def _to_form(self) -> None:
        first = self.form.fields["weight"].editor
        (first if first.isVisible() else self.form.counts).setFocus()

    def _undo(self) -> None:
        self._take(self.draft.undo())

    def _take_set(self, place: int) -> None:
        if place > 0:
            offer = self._offers[place - 1]
            self._take(self.draft.step(offer.rules))

    def _compare(self) -> None:
        if not self._take_typed():
            return
        self.compare_dialog = CompareDialog(self.draft.now, self._offers, self)
        self.compare_dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.compare_dialog.finished.connect(lambda _result: self.parts.compare.setFocus())
        self.compare_dialog.open()

    def _save(self) -> None:
        if not self._take_typed():
            return
        workshop, name = self._desk.workshop, self.parts.own_name
        try:
            kept = save_own_set(workshop.shelf, workshop.clock, self.draft.now, name.editor.text())
        except WorldError as refusal:
            name.show_fault(f"{refusal.what} {refusal.do}".strip())
            name.editor.setFocus()
            return
        name.show_fault("")
        self._offers = sets_offered(workshop.shelf)
        self._take(self.draft.step(kept))
        self._say(f"Kept as {named(kept)}.")

    def _lock(self) -> None:
        if not self._take_typed():
            return
        workshop, teardown, reason = self._desk.workshop, self._desk.teardown, self.parts.reason
        try:
            lock = put_in_force(
                workshop.shelf, workshop.clock, teardown.lineup, self.draft,
                reason.editor.text(), teardown.sequence,
            )  # fmt: skip
        except WorldError as refusal:
            words = f"{refusal.what} {refusal.do}".strip()
            at_reason = isinstance(refusal, PlanRefused) and refusal.field == "reason"
            reason.show_fault(words if at_reason else "")
            self._say("" if at_reason else words)
            if at_reason:
                reason.editor.setFocus()
            return
        reason.show_fault("")
        reason.editor.clear()
        self.draft = draft_of(lock.rules)
        self._warned = False
        self.show_draft()
        self._say(f"In force: {named(lock.rules)}.")
        self.locked.emit()
        self.parts.close.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take_typed(self) -> bool:
        """Let a field that is being typed in tell what it holds; False while one is refused."""
        typing = QApplication.focusWidget()
        if typing is not None and self.isAncestorOf(typing):
            typing.clearFocus()
            typing.setFocus()
        fields = (*self.form.fields.values(), self.parts.coverage, self.parts.points)
        refused = next((field for field in fields if field.fault.isVisible()), None)
        if refused is not None:
            focus_into(refused)
        return refused is None

    def _say(self, words: str) -> None:
        self.parts.told.setText(words)
        self.parts.told.setVisible(bool(words))
