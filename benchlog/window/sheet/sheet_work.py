"""Writing the sheet, or all that goes out, off the main thread, so that it can be stopped."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QTemporaryDir, Signal

from benchlog.tasks.changed import DATA
from benchlog.tasks.ports import Progress, SheetWriter
from benchlog.tasks.publication import Publication
from benchlog.tasks.publish import write_sheet
from benchlog.tasks.publish_revision import next_revision, publish_revision
from benchlog.tasks.publish_wishes import PublishWishes
from benchlog.tasks.published_folder import revision_folder
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from benchlog.tasks.wanted import wanted_of
from benchlog.window.desk import Desk
from benchlog.window.work import Work, begin
from benchlog.wiring import publishing_writers, record_of, sheet_writer

WORKING_OUT = "working the record out"


@dataclass(frozen=True)
class Written:
    """A sheet as it was written: where it lies, on what paper, and from which record."""

    path: Path
    paper: str
    record: Record
    whole: bool = True
    """False where the sums, which take longest, are still to come."""


@dataclass(frozen=True)
class Published:
    """A revision that went out, and where its files are."""

    publication: Publication
    folder: Path


class _Stopped(Exception):
    """The reviewer does not want to wait any longer."""


class _Steps:
    """Passes progress on, until it is told to stop."""

    def __init__(self, work: Work, stop: threading.Event) -> None:
        self._work = work
        self._stop = stop

    def step(self, done: int, total: int, what: str) -> None:
        """Pass one step on; raises _Stopped when nobody waits any longer."""
        if self._stop.is_set():
            raise _Stopped
        self._work.step(done, total, what)


@dataclass(frozen=True)
class _Job:
    """Work to begin: what makes the outcome, who hears of it, and whether it is done quietly."""

    make: Callable[[Progress], Any]
    done: Callable[[Any], None]
    quiet: bool = False


class SheetWork(QObject):
    """Writes sheets into a folder of its own, and revisions, one at a time.

    `begun`, then any number of `progressed`, then one of `written`, `published`, `stopped` and
    `failed`. What is quiet only brings the pages up to date: it tells `written` alone, and gives
    way to whatever is wanted meanwhile.
    """

    begun = Signal()
    progressed = Signal(int, int, str)
    written = Signal(object)
    published = Signal(object)
    stopped = Signal()
    failed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._folder = QTemporaryDir()
        self._writer: SheetWriter | None = None
        self._number = count(1)
        self._stop = threading.Event()
        self._now: _Job | None = None
        self._next: _Job | None = None

    @property
    def under_way(self) -> bool:
        """Whether something that was asked for is being written."""
        return any(job is not None and not job.quiet for job in (self._now, self._next))

    def write(self, paper: str, wishes: SheetWishes = USUAL) -> None:
        """Write the sheet of the line-up in hand, as it stands on the shelf now."""
        self._write(None, paper, wishes, quiet=False)

    def refresh(
        self, record: Record, paper: str, wishes: SheetWishes, *, hurry: bool = False
    ) -> None:
        """Bring the pages up to date with a record, quietly.

        In a hurry the sums are left out: what is written is not the whole then.
        """
        self._write(record, paper, wishes, quiet=True, hurry=hurry and wishes.sums)

    def publish(
        self, paper: str, units: str, wishes: PublishWishes, base: Path, reason: str
    ) -> None:
        """Publish the next revision of the line-up in hand; its files go in a folder of `base`."""
        workshop, lineup_id = self._desk.workshop, self._desk.lineup_id

        def make(steps: Progress) -> Published:
            steps.step(0, 1, WORKING_OUT)
            record = record_of(workshop, lineup_id)
            writers = publishing_writers(paper, units, wishes)
            licence = wishes.licence if wishes.goes_out(DATA) else ""
            wanted = wanted_of(record, wishes, paper, units)
            fresh = next_revision(workshop.shelf, record, reason, licence, wanted)
            folder = revision_folder(base, record.lineup, fresh.revision)
            made = publish_revision(
                workshop.shelf, workshop.clock, record, writers, folder, steps, reason, licence,
                wanted,
            )  # fmt: skip
            return Published(made, folder)

        self._want(_Job(make, self.published.emit))

    def stop(self) -> None:
        """Stop at the next step; nothing is left of what is unfinished."""
        waiting, self._next = self._next, None
        self._stop.set()
        if waiting is not None:
            self.stopped.emit()

    # --- inside ------------------------------------------------------------------------------

    def _write(
        self,
        known: Record | None,
        paper: str,
        wishes: SheetWishes,
        *,
        quiet: bool,
        hurry: bool = False,
    ) -> None:
        workshop, lineup_id = self._desk.workshop, self._desk.lineup_id
        path = Path(self._folder.path()) / f"sheet-{next(self._number)}.pdf"

        def make(steps: Progress) -> Written:
            steps.step(0, 1, WORKING_OUT)
            record = known or record_of(workshop, lineup_id)
            # One writer for all: it does not make the photos small anew.
            self._writer = self._writer or sheet_writer()
            wanted = replace(wishes, mapped=True, sums=wishes.sums and not hurry)
            write_sheet(workshop.shelf, record, self._writer, path, paper, steps, wanted)
            return Written(path, paper, record, whole=not hurry)

        self._want(_Job(make, self.written.emit, quiet))

    def _want(self, job: _Job) -> None:
        if self.under_way or not self._desk.lineup_id:
            return
        if not job.quiet:
            self.begun.emit()
        if self._now is None:
            self._begin(job)
            return
        self._next = job
        self._stop.set()

    def _begin(self, job: _Job) -> None:
        self._now = job
        self._stop = stop = threading.Event()

        def run(work: Work) -> Any:
            return job.make(_Steps(work, stop))

        begin(run, self._done, self._failed, self._progress)

    def _progress(self, done: int, total: int, what: str) -> None:
        if self._now is not None and not self._now.quiet:
            self.progressed.emit(done, total, what)

    def _done(self, outcome: Any) -> None:
        job = self._end()
        if job is not None and not (job.quiet and self.under_way):
            job.done(outcome)

    def _failed(self, fault: BaseException) -> None:
        job = self._end()
        if not isinstance(fault, _Stopped):
            self.failed.emit(fault)
        elif job is not None and not job.quiet:
            self.stopped.emit()

    def _end(self) -> _Job | None:
        """Let go of what has ended, and begin what waits; return what has ended."""
        job, self._now = self._now, None
        following, self._next = self._next, None
        if following is not None:
            self._begin(following)
        return job
