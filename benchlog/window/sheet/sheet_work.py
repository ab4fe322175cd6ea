"""Writing the sheet off the main thread, with progress, so that it can be stopped."""

from __future__ import annotations

import threading
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from PySide6.QtCore import QObject, QTemporaryDir, Signal

from benchlog.tasks.publish import write_sheet
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from benchlog.window.desk import Desk
from benchlog.window.work import Work, begin
from benchlog.wiring import record_of, sheet_writer


@dataclass(frozen=True)
class Written:
    """A sheet as it was written: where it lies, on what paper, and from which record."""

    path: Path
    paper: str
    record: Record


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


class SheetWork(QObject):
    """Writes sheets into a folder of its own, one at a time.

    `begun`, then any number of `progressed`, then one of `written`, `stopped` and `failed`.
    """

    begun = Signal()
    progressed = Signal(int, int, str)
    written = Signal(object)
    stopped = Signal()
    failed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._folder = QTemporaryDir()
        self._number = count(1)
        self._stop = threading.Event()
        self.under_way = False

    def write(self, paper: str, wishes: SheetWishes = USUAL) -> None:
        """Write the sheet of the line-up in hand, as it stands on the shelf now."""
        lineup_id = self._desk.lineup_id
        if self.under_way or not lineup_id:
            return
        self._stop.clear()
        self.under_way = True
        self.begun.emit()
        workshop, stop = self._desk.workshop, self._stop
        path = Path(self._folder.path()) / f"sheet-{next(self._number)}.pdf"

        def job(work: Work) -> Written:
            steps = _Steps(work, stop)
            steps.step(0, 1, "working the record out")
            record = record_of(workshop, lineup_id)
            write_sheet(workshop.shelf, record, sheet_writer(), path, paper, steps, wishes)
            return Written(path, paper, record)

        begin(job, self._done, self._failed, self.progressed.emit)

    def stop(self) -> None:
        """Stop at the next step; nothing is left of an unfinished sheet."""
        self._stop.set()

    def _done(self, written: Written) -> None:
        self.under_way = False
        self.written.emit(written)

    def _failed(self, fault: BaseException) -> None:
        self.under_way = False
        if isinstance(fault, _Stopped):
            self.stopped.emit()
        else:
            self.failed.emit(fault)
