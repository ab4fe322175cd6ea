"""Works the record out anew, off the main thread, whenever something was recorded."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from benchlog.judge.rules import Rules
from benchlog.tasks.own_sets import rescore
from benchlog.tasks.record import Record
from benchlog.window.desk import Desk
from benchlog.window.work import Work, begin
from benchlog.wiring import record_of


class RecordWatch(QObject):
    """Keeps the latest record of the line-up in hand.

    `working` follows the start and the end of working it out, `worked_out` each new record.
    Nothing is worked out before somebody looked: `look` says that the record is wanted now,
    `look_away` that it can wait. `judge_by` looks at it under rules that are not in force, till
    another line-up is taken in hand; nothing on the shelf is touched by that.
    """

    working = Signal(bool)
    worked_out = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.record: Record | None = None
        self.rules: Rules | None = None
        self._stale = True
        self._looked_at = False
        self._under_way = False
        desk.recorded.connect(self._note)
        desk.lineup_changed.connect(self._forget)

    def look(self) -> None:
        """Work the record out now if it is not known or has changed."""
        self._looked_at = True
        if self._stale:
            self._begin()

    def judge_by(self, rules: Rules | None) -> None:
        """Look under these rules from now on, None for those in force."""
        self.rules = rules
        self._note()

    def look_away(self) -> None:
        """Let changes wait until somebody looks again."""
        self._looked_at = False

    def _note(self) -> None:
        self._stale = True
        if self._looked_at:
            self._begin()

    def _forget(self) -> None:
        self.record = None
        self.rules = None
        self._note()

    def _begin(self) -> None:
        lineup_id = self._desk.lineup_id
        if self._under_way or not lineup_id:
            return
        self._stale = False
        self._under_way = True
        self.working.emit(True)
        workshop, rules = self._desk.workshop, self.rules

        def job(_work: Work) -> Record:
            if rules is not None:
                return rescore(workshop.shelf, lineup_id, rules)
            return record_of(workshop, lineup_id)

        begin(job, self._done, self._failed)

    def _done(self, record: Record) -> None:
        self._end()
        if record.lineup.id == self._desk.lineup_id:
            self.record = record
            self.worked_out.emit(record)
        else:
            self._stale = True
        if self._stale and self._looked_at:
            self._begin()

    def _failed(self, fault: BaseException) -> None:
        self._end()
        self._desk.faults.handle(fault)

    def _end(self) -> None:
        self._under_way = False
        self.working.emit(False)
