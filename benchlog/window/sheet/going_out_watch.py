"""Keeps what is about to go out in step with the shelf and with the reviewer's choices."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from benchlog.tasks.going_out import GoingOut, going_out
from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.tasks.record import Record
from benchlog.tasks.revision_rows import RevisionRow, revision_rows
from benchlog.window.desk import Desk
from benchlog.window.verdict.record_watch import RecordWatch
from benchlog.window.work import Work, begin

Found = tuple[Record, GoingOut, tuple[RevisionRow, ...]]


class GoingOutWatch(QObject):
    """Works out how things stand, off the main thread, while somebody looks.

    `told` follows each time; `record`, `standing` and `rows` belong together, and are None and
    nothing until all of them are known.
    """

    told = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._records = RecordWatch(desk)
        self._wishes = PublishWishes()
        self._under_way = False
        self._again = False
        self._forget()
        self._records.worked_out.connect(lambda _record: self._begin())
        desk.lineup_changed.connect(self._forget)
        desk.settings_changed.connect(self._begin)

    def look(self) -> None:
        """Tell how things stand now, and after each change."""
        self._records.look()

    def look_away(self) -> None:
        """Let changes wait until somebody looks again."""
        self._records.look_away()

    def wish(self, wishes: PublishWishes) -> None:
        """Tell how things stand with other choices."""
        self._wishes = wishes
        if self.record is not None:
            self._begin()

    def published(self) -> None:
        """Work everything out anew: a revision was added."""
        self._records.judge_by(None)

    def _forget(self) -> None:
        self.record: Record | None = None
        self.standing: GoingOut | None = None
        self.rows: tuple[RevisionRow, ...] = ()

    def _begin(self) -> None:
        record = self._records.record
        if record is None:
            return
        if self._under_way:
            self._again = True
            return
        self._under_way, self._again = True, False
        shelf, wishes = self._desk.workshop.shelf, self._wishes
        paper, units = self._desk.settings.paper, self._desk.settings.units

        def job(_work: Work) -> Found:
            standing = going_out(shelf, record, wishes, paper, units)
            return record, standing, revision_rows(shelf, record)

        begin(job, self._done, self._failed)

    def _done(self, found: Found) -> None:
        self._under_way = False
        if found[0].lineup.id == self._desk.lineup_id:
            self.record, self.standing, self.rows = found
            self.told.emit()
        if self._again:
            self._begin()

    def _failed(self, fault: BaseException) -> None:
        self._under_way = False
        self._desk.faults.handle(fault)
