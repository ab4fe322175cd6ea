"""Pictures measured one after the other in the background, while the reviewer goes on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from benchlog.window.work import Work, begin


@dataclass(frozen=True)
class Task:
    """One picture to measure: whose it is, in words, and the work, run on another thread."""

    micrograph_id: str
    title: str
    job: Callable[[Work], object]


class Measuring(QObject):
    """A queue of tasks. `done` and `failed` carry the task and what came of it.

    `changed` follows whatever is under way or waits. A task that was cancelled tells neither.
    """

    changed = Signal()
    done = Signal(object, object)
    failed = Signal(object, object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._waiting: list[Task] = []
        self._now: tuple[Task, Work] | None = None
        self.step = ""
        self.share = 0.0

    @property
    def now(self) -> Task | None:
        """The task that is worked on."""
        return self._now[0] if self._now else None

    @property
    def waiting(self) -> int:
        """How many tasks wait for their turn."""
        return len(self._waiting)

    def has(self, micrograph_id: str) -> bool:
        """Whether a micrograph is measured now or waits for it."""
        every = [*self._waiting, *([self.now] if self.now else [])]
        return any(task.micrograph_id == micrograph_id for task in every)

    def add(self, task: Task) -> None:
        """Measure one more picture, once; those before it come first."""
        if not self.has(task.micrograph_id):
            self._waiting.append(task)
            self._go_on()

    def drop(self, micrograph_id: str) -> None:
        """Measure one picture no longer."""
        self._waiting = [t for t in self._waiting if t.micrograph_id != micrograph_id]
        if self.now is not None and self.now.micrograph_id == micrograph_id:
            self._now[1].stop_asked = True
        self.changed.emit()

    def cancel(self) -> None:
        """Stop what is under way at its next step, and let nothing more wait."""
        self._waiting = []
        if self._now is not None:
            self._now[1].stop_asked = True
        self.changed.emit()

    # --- inside ------------------------------------------------------------------------------

    def _go_on(self) -> None:
        if self._now is None and self._waiting:
            task = self._waiting.pop(0)
            self.step, self.share = "", 0.0
            work = begin(
                task.job,
                lambda outcome: self.done.emit(task, outcome),
                lambda fault: self.failed.emit(task, fault),
                self._stepped,
                self._ended,
            )
            self._now = (task, work)
        self.changed.emit()

    def _stepped(self, done: int, total: int, what: str) -> None:
        self.step, self.share = what, done / total if total else 0.0
        self.changed.emit()

    def _ended(self) -> None:
        self._now = None
        self._go_on()
