"""Long work off the main thread, with progress, and every failure led to one place."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal

log = logging.getLogger(__name__)

LONGEST_WAIT_MS = 15_000

GONE = "already deleted"
"""How Qt for Python says that a widget is no longer there."""

FEWEST_THREADS = 8
"""However few processors there are: pictures are measured by processes of their own, and threads
that only wait for those must not keep the next picture or the next page waiting."""


class Stopped(Exception):
    """Raised inside a job at its next step once the window closes."""


class Work(QObject):
    """One piece of work under way; lives on the main thread and signals there."""

    done = Signal(object)
    failed = Signal(object)
    progressed = Signal(int, int, str)
    ended = Signal()
    stop_asked = False

    def step(self, done: int, total: int, what: str) -> None:
        """Tell how far it has come; this is the tasks' Progress, called on the work's thread.

        Raises Stopped when the work is to end here.
        """
        if self.stop_asked:
            raise Stopped
        self.progressed.emit(done, total, what)


_under_way: set[Work] = set()  # keeps each signaller alive until its work has ended


class _Run(QRunnable):
    def __init__(self, job: Callable[[Work], Any], work: Work) -> None:
        super().__init__()
        self._job = job
        self._work = work

    def run(self) -> None:
        try:
            outcome = self._job(self._work)
        except Stopped:
            pass
        except BaseException as fault:
            self._work.failed.emit(fault)
        else:
            self._work.done.emit(outcome)
        self._work.ended.emit()


def begin(
    job: Callable[[Work], Any],
    done: Callable[[Any], None],
    failed: Callable[[BaseException], None],
    progressed: Callable[[int, int, str], None] | None = None,
    ended: Callable[[], None] | None = None,
) -> Work:
    """Run `job` on another thread; `done`, `failed` and `progressed` are called on this one.

    `ended` is called last of all, also where the job was stopped and has nothing to tell.
    """
    work = Work()
    _under_way.add(work)
    links = _Links(work, done, failed, progressed, ended)
    work.done.connect(links.on_done)
    work.failed.connect(links.on_failed)
    work.progressed.connect(links.on_progress)
    work.ended.connect(links.on_end)
    pool = QThreadPool.globalInstance()
    pool.setMaxThreadCount(max(FEWEST_THREADS, pool.maxThreadCount()))
    pool.start(_Run(job, work))
    return work


def end_all() -> None:
    """Ask all work to stop at its next step, and wait for it; the window is about to close."""
    for work in tuple(_under_way):
        work.stop_asked = True
    QThreadPool.globalInstance().waitForDone(LONGEST_WAIT_MS)


class _Links(QObject):
    """Receives on the thread that asked: a plain function would be called on the other one."""

    def __init__(
        self,
        work: Work,
        done: Callable[[Any], None],
        failed: Callable[[BaseException], None],
        progressed: Callable[[int, int, str], None] | None,
        ended: Callable[[], None] | None,
    ) -> None:
        super().__init__(work)
        self._work = work
        self._done = done
        self._failed = failed
        self._progressed = progressed
        self._ended = ended

    def on_done(self, outcome: Any) -> None:
        _tell(self._done, outcome)

    def on_failed(self, fault: BaseException) -> None:
        _tell(self._failed, fault)

    def on_progress(self, done: int, total: int, what: str) -> None:
        if self._progressed is not None:
            _tell(self._progressed, done, total, what)

    def on_end(self) -> None:
        _under_way.discard(self._work)
        if self._ended is not None:
            _tell(self._ended)


def _tell(asker: Callable[..., None], *said: object) -> None:
    """Tell who asked, unless its widgets went meanwhile, with their dialog or their line-up."""
    try:
        asker(*said)
    except RuntimeError as fault:
        if GONE not in str(fault):
            raise
        log.info("what was worked out came too late: %s", fault)
