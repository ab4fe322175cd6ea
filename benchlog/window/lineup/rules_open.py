"""Opens the rules of the line-up in hand, and keeps edits that are not in force till then."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QWidget

from benchlog.tasks.lock import rules_in_force
from benchlog.tasks.lock_view import short_state
from benchlog.tasks.rules_draft import RulesDraft, draft_of
from benchlog.window.desk import Desk
from benchlog.window.lineup.rules_dialog import RulesDialog


class RulesOpener(QObject):
    """One dialog at a time over a place; `closed` follows when it has gone."""

    closed = Signal()

    def __init__(self, desk: Desk, over: QWidget) -> None:
        super().__init__(over)
        self._desk, self._over = desk, over
        self._drafts: dict[str, RulesDraft] = {}
        self.dialog: RulesDialog | None = None

    def open(self) -> None:
        """Open the rules of the line-up in hand, with the edits that wait."""
        teardown = self._desk.teardown
        if teardown is None or self.dialog is not None:
            return
        lineup_id = teardown.lineup.id
        with self._desk.faults.guarded():
            force = rules_in_force(self._desk.workshop.shelf, teardown.lineup)
            draft = self._drafts.get(lineup_id) or draft_of(force)
            self.dialog = RulesDialog(self._desk, draft, self._over)
            self.dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            self.dialog.drafted.connect(lambda kept: self._keep(lineup_id, kept))
            self.dialog.locked.connect(self._locked)
            self.dialog.finished.connect(lambda _result: self._gone())
            self.dialog.open()

    def state(self) -> str:
        """Return in a few words how the rules of the line-up in hand stand."""
        locks = self._desk.workshop.shelf.rules_locks(self._desk.lineup_id)
        return short_state(locks)

    def _keep(self, lineup_id: str, draft: RulesDraft) -> None:
        self._drafts.pop(lineup_id, None)
        if draft.past or draft.future:
            self._drafts[lineup_id] = draft

    def _locked(self) -> None:
        self._desk.reload()
        self._desk.rules_changed.emit()

    def _gone(self) -> None:
        self.dialog = None
        self.closed.emit()
