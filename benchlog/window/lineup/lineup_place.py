"""The Line-up as a place: the plan of one line-up, kept on the shelf as it is typed."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from benchlog.errors import PlanRefused
from benchlog.tasks.draft import Draft, at_fault, owed
from benchlog.tasks.lock_view import NOT_LOCKED
from benchlog.tasks.stated import conditions_of
from benchlog.window.bench.pictures_in import Incoming, Where, bring_in
from benchlog.window.desk import Desk
from benchlog.window.enter_clicks import let_enter_click
from benchlog.window.lineup.asked_tree import AskedTree
from benchlog.window.lineup.conditions_dialog import ConditionsDialog
from benchlog.window.lineup.field import focus_into
from benchlog.window.lineup.heading import Heading
from benchlog.window.lineup.photo_row import PhotoRow
from benchlog.window.lineup.planning import Planning
from benchlog.window.lineup.rules_open import RulesOpener
from benchlog.window.lineup.specimen_form import SpecimenForm
from benchlog.window.lineup.specimen_list import SpecimenList
from benchlog.window.theme import px, sized

REHEARSAL = "REHEARSAL: an invented line-up"


class LineupPlace(QWidget):
    """Shows the plan and forwards what is typed; the plan decides what can stand."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._refused: tuple[PlanRefused, str] | None = None
        self._refused_draft: Draft | None = None
        self.planning = Planning(desk)
        self.heading = Heading()
        self.specimens = SpecimenList()
        self.form = SpecimenForm()
        self.photo = PhotoRow()
        self.tree = AskedTree()
        self.told = QLabel(wordWrap=True)
        self.rehearsal = QLabel(REHEARSAL)
        self.rehearsal.setProperty("tone", "warn")
        self.undo = _button("Undo", "Take the latest change back")
        self.stated = _button("Stated &conditions…", "Stated conditions: flow, oil, pressure")
        self.rules = _button("R&ules…", "The rules that this line-up is judged by")
        self.rules_opener = RulesOpener(desk, self)
        self.new = _button("&New line-up", "Begin a new line-up")
        self.to_bench = _button("To the &bench", "Keep the plan and go to the bench")
        sized(self.told, 15)
        sized(self.rehearsal, 15, bold=True)
        self._lay_out()
        self._connect()
        let_enter_click(self)
        self.planning.take_in_hand()
        self.show_plan()

    def enter(self) -> None:
        """Show the plan as it is, with the focus on what is owed first."""
        self.planning.take_in_hand()
        self.planning.refresh_begun()
        self.show_plan()
        owing = owed(self.planning.draft.lineup)
        if not self.planning.draft.lineup.name:
            focus_into(self.heading.fields["name"])
        elif owing:
            self.planning.choose(owing[0].id)
            focus_into(self.form.fields["paid"])
        else:
            self.specimens.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Keep what can be kept; the window closes."""
        if self.planning.pending and self.planning.draft.lineup.name.strip():
            self.planning.save()

    def rescaled(self) -> None:
        """Follow the window's size."""
        self.tree.rescaled()
        self._column.setContentsMargins(px(20), px(8), px(20), px(10))
        self._column.setSpacing(px(8))
        self.specimens.setFixedWidth(px(218))
        self.tree.setMinimumWidth(px(500))
        planning = self.planning
        self.specimens.show_lineup(planning.draft.lineup, planning.current)  # marks of a new size
        self.form.show_specimen(planning.draft, planning.current)

    def show_plan(self) -> None:
        """Show the draft and the specimen that is chosen."""
        planning = self.planning
        lineup = planning.draft.lineup
        self.heading.show_lineup(lineup, begun=planning.begun)
        self.specimens.show_lineup(lineup, planning.current)
        self.form.show_specimen(planning.draft, planning.current)
        self.tree.show_asked(planning.sequence, lineup.attributes)
        self.rehearsal.setVisible(lineup.rehearsal)
        latest = planning.history.latest
        self.undo.setEnabled(bool(latest))
        self.undo.setToolTip(f"Take back: {latest}  (Ctrl+Z)" if latest else "")
        self.undo.setAccessibleName(f"Undo: {latest}" if latest else "Undo")
        self._show_photo()
        self._show_rules()
        self._show_way_back()
        if planning.pending:
            self._show_pending()
        elif not planning.on_shelf:
            self._tell("A new line-up. It is kept on the shelf as soon as it has a name.")
        else:
            self._show_saved()

    # --- inside ------------------------------------------------------------------------------

    def _connect(self) -> None:
        planning = self.planning
        planning.changed.connect(self.show_plan)
        planning.refused.connect(self._show_refusal)
        planning.saved.connect(self._show_saved)
        self.heading.edited.connect(planning.edit_heading)
        self.form.edited.connect(planning.edit_specimen)
        self.tree.asked.connect(planning.ask)
        self.specimens.chosen.connect(planning.choose)
        self.specimens.add_wanted.connect(self._add)
        self.specimens.remove_wanted.connect(lambda: planning.guarded(planning.remove))
        self.specimens.move_wanted.connect(planning.move)
        self.photo.wanted.connect(self._bring)
        self.undo.clicked.connect(planning.take_back)
        self.stated.clicked.connect(self._state_conditions)
        self.rules.clicked.connect(self._open_rules)
        self.rules_opener.closed.connect(self._rules_closed)
        self._desk.rules_wanted.connect(self._open_rules)
        self._desk.rules_changed.connect(self._show_rules)
        self.new.clicked.connect(self._begin_new)
        self.to_bench.clicked.connect(self._go_to_bench)
        self._desk.plan_wanted.connect(planning.begin_new)
        self._desk.lineup_changed.connect(planning.take_other)
        self._desk.settings_changed.connect(self.tree.rescaled)
        shortcut = QShortcut(QKeySequence.StandardKey.Undo, self)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(planning.take_back)

    def _add(self) -> None:
        self.planning.guarded(self.planning.add)
        focus_into(self.form.fields["nickname"])

    def _begin_new(self) -> None:
        if not self.planning.on_shelf and self._desk.teardown is not None:
            self.planning.take_other()
        elif self.planning.save_pending():
            self.planning.begin_new()
            focus_into(self.heading.fields["name"])
        else:
            self._lead_to_fault()

    def _state_conditions(self) -> None:
        dialog = ConditionsDialog(conditions_of(self.planning.draft.lineup), self)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.stated.connect(lambda stated: self.planning.edit_heading("conditions", stated))
        dialog.finished.connect(lambda: self.stated.setFocus(Qt.FocusReason.OtherFocusReason))
        dialog.open()

    def _go_to_bench(self) -> None:
        if self._in_hand():
            self._desk.go_to.emit("bench")

    def _in_hand(self) -> bool:
        """Take the plan in hand as it is shown; where it cannot be kept, lead to why."""
        if self.planning.on_shelf and not self.planning.pending:
            if self._desk.lineup_id != self.planning.draft.lineup.id:
                self._desk.open_lineup(self.planning.draft.lineup.id)
            return True
        if self.planning.save():
            return True
        self._lead_to_fault()
        return False

    def _open_rules(self) -> None:
        if self._in_hand():
            self.rules_opener.open()

    def _rules_closed(self) -> None:
        self.rules.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_rules(self) -> None:
        """Say on the button how the rules stand."""
        here = self.planning.on_shelf and self._desk.lineup_id == self.planning.draft.lineup.id
        state = self.rules_opener.state() if here else NOT_LOCKED
        self.rules.setText(f"R&{state[1:]}…")  # Alt+R removes a specimen
        self.rules.setAccessibleName(f"The rules of this line-up: {state}")

    def _bring(self, pictures: tuple[Incoming, ...]) -> None:
        if not (self.planning.on_shelf or self.planning.save()):
            return
        workshop = self._desk.workshop
        first = self.planning.sequence.stations[0].key
        where = Where(self.planning.draft.lineup.id, self.planning.current, first)

        def done(_number: int) -> None:
            self._show_photo()
            self._desk.recorded.emit()

        def failed(fault: BaseException) -> None:
            self._show_photo()
            self._desk.faults.handle(fault)

        bring_in(workshop.shelf, workshop.clock, where, pictures, done, failed, _no_progress)

    def _show_photo(self) -> None:
        shelf = self._desk.workshop.shelf
        photos = []
        if self.planning.on_shelf:
            photos = [
                p
                for p in shelf.photos(self.planning.draft.lineup.id)
                if p.specimen_id == self.planning.current
            ]
        with self._desk.faults.guarded():
            first = photos[0].id if photos else ""
            data = shelf.photo_bytes(first) if first and first != self.photo.shown else b""
            self.photo.show_photo(first, data, len(photos))

    def _show_refusal(self, refusal: PlanRefused) -> None:
        """Tell a refusal, and beside its field when that is in sight; typing goes on in peace."""
        words = f"{refusal.what} {refusal.do}".strip()
        whose = at_fault(self.planning.draft, refusal, self.planning.current)
        self._tell(f"Not kept yet: {words}" if self.planning.pending else words, warn=True)
        self.heading.show_fault(refusal.field if not whose else "", words)
        self.form.show_fault(refusal.field if whose == self.planning.current else "", words)
        self._refused, self._refused_draft = (refusal, whose), self.planning.draft

    def _show_way_back(self) -> None:
        """While a new plan is shown and a line-up is in hand, the button leads back to that."""
        teardown = self._desk.teardown
        back = not self.planning.on_shelf and teardown is not None
        self.new.setText("&Not now" if back else "&New line-up")
        said = "Back to the line-up in hand; the new one waits" if back else "Begin a new line-up"
        self.new.setAccessibleName(said)
        self.new.setToolTip(said)

    def _show_pending(self) -> None:
        if self.planning.keeping:
            self._tell("Keeping…")
        elif self._refused is not None and self._refused_draft is self.planning.draft:
            self._show_refusal(self._refused[0])
        else:
            self._tell("Not on the shelf yet: it needs a name.")

    def _lead_to_fault(self) -> None:
        """Show the specimen and the field that stand in the way."""
        if self._refused is None:
            return
        refusal, whose = self._refused
        if whose:
            self.planning.choose(whose)
            self._show_refusal(refusal)
        fields = self.form.fields if whose else self.heading.fields
        field = fields.get("price_text" if refusal.field == "price" else refusal.field)
        if field is not None:
            focus_into(field)

    def _show_saved(self) -> None:
        self._refused = None
        self.heading.show_fault("", "")
        self.form.show_fault("", "")
        left = owed(self.planning.draft.lineup)
        names = ", ".join(s.nickname for s in left)
        self._tell(f"On the shelf. Still owed: who paid for {names}." if left else "On the shelf.")

    def _tell(self, words: str, *, warn: bool = False) -> None:
        self.told.setText(words)
        self.told.setProperty("tone", "warn" if warn else "dim")
        self.told.style().polish(self.told)

    def _lay_out(self) -> None:
        card = QFrame()
        card.setProperty("card", "true")
        inside = QVBoxLayout(card)
        inside.addWidget(self.form)
        inside.addWidget(self.photo)
        inside.addStretch(1)
        middle = QHBoxLayout()
        middle.addWidget(self.specimens)
        middle.addWidget(card, 1)
        middle.addWidget(self.tree, 1)
        foot = QHBoxLayout()
        foot.addWidget(self.rehearsal)
        foot.addWidget(self.told, 1)
        for button in (self.undo, self.stated, self.rules, self.new, self.to_bench):
            foot.addWidget(button)
        self._column = QVBoxLayout(self)
        self._column.addWidget(self.heading)
        self._column.addLayout(middle, 1)
        self._column.addLayout(foot)


def _no_progress(_done: int, _total: int, _what: str) -> None:
    """Photos of one specimen are in before a bar could be drawn."""


def _button(name: str, spoken: str) -> QPushButton:
    button = QPushButton(name)
    button.setAccessibleName(spoken)
    sized(button, 16)
    return button
