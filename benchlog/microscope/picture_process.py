"""Pictures measured in processes of their own: the window never waits, and a crash costs nothing.

A process begins with the first question and ends when nothing was asked for a while. One is for
long work, one for what is told at once, so that a look need not wait for a measurement.
"""

from __future__ import annotations

import logging
import math
import multiprocessing
import threading
import time
from multiprocessing.connection import Connection
from typing import TYPE_CHECKING, Any, cast

from benchlog.errors import OurFault, WorkStopped
from benchlog.measure.micrograph import MicroscopeSetUp, PictureAnswer, PictureGate
from benchlog.microscope.picture_worker import REFUSALS, serve
from benchlog.tasks.picture_ports import PictureMarks, StageScale
from benchlog.tasks.ports import Progress

if TYPE_CHECKING:
    from multiprocessing.context import SpawnProcess

log = logging.getLogger(__name__)

IDLE_S = 120.0
"""Seconds without a question after which a process ends and gives its memory back."""

LONGEST_LOOK_S = 180.0
"""Seconds after which a look is given up: nobody can stop one, and no sound picture takes long."""

LOOK_UP_S = 0.1
"""Seconds between two looks whether the work is to be given up."""


class PictureProcess:
    """The PictureMeasurer of the real program; safe to call from any thread.

    Each verb waits for its turn. After `close` every call raises WorkStopped.
    """

    def __init__(self, idle_s: float = IDLE_S, longest_look_s: float = LONGEST_LOOK_S) -> None:
        self._long = _Lane(idle_s)
        self._short = _Lane(idle_s, longest_look_s)

    def look(self, data: bytes, set_up: MicroscopeSetUp) -> tuple[PictureGate, ...]:
        """Return the gates that can be told at once."""
        gates = self._short.ask("look", (data, set_up))
        return cast("tuple[PictureGate, ...]", gates)

    def measure(self, data: bytes, set_up: MicroscopeSetUp, progress: Progress) -> PictureAnswer:
        """Return the answer, with what names it left blank."""
        return cast(PictureAnswer, self._long.ask("measure", (data, set_up), progress))

    def marks(self, data: bytes, set_up: MicroscopeSetUp, progress: Progress) -> PictureMarks:
        """Return what to draw over the picture; soon for the one that was measured last."""
        return cast(PictureMarks, self._long.ask("marks", (data, set_up), progress))

    def stage_scale(self, data: bytes, division_um: float, division_u_um: float) -> StageScale:
        """Return the scale that the lines of a stage micrometer give."""
        arguments = (data, division_um, division_u_um)
        return cast(StageScale, self._short.ask("stage_scale", arguments))

    def close(self) -> None:
        """End the processes at once, whatever they are at."""
        self._long.close()
        self._short.close()

    def process_ids(self) -> tuple[int, ...]:
        """Return the ids of the processes that are there now."""
        return tuple(one for one in (self._long.pid, self._short.pid) if one is not None)


class _Lane:
    """One process at most, and the pipe to it; one question at a time."""

    def __init__(self, idle_s: float, longest_s: float = math.inf) -> None:
        self._idle_s = idle_s
        self._longest_s = longest_s
        self._turn = threading.RLock()  # a step may close us
        self._change = threading.Lock()
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None
        self._closed = False

    @property
    def pid(self) -> int | None:
        with self._change:
            process = self._process
            return process.pid if process is not None and process.is_alive() else None

    def ask(self, verb: str, arguments: tuple[Any, ...], progress: Progress | None = None) -> Any:
        """Return the answer to one question; raises what the measurer's verbs raise."""
        with self._turn:
            old = self._pipe is not None
            try:
                pipe = self._asked(verb, arguments)
                if old and not self._begun(pipe):  # it had just gone for want of questions
                    self._end()
                    pipe = self._asked(verb, arguments)
                kind, *rest = self._answer(pipe, progress)
            except (EOFError, OSError) as gone:
                self._end()
                raise _stopped(closed=self._closed) from gone
            except BaseException:  # given up: the process is in the middle of it
                self._end()
                raise
        if kind == "done":
            return rest[0]
        if kind == "refused":
            raise REFUSALS[rest[0]](rest[1], rest[2])
        raise OurFault(f"measuring a picture failed\n{rest[0]}")

    def close(self) -> None:
        with self._change:
            self._closed = True
            if self._process is not None:
                self._process.kill()  # whoever waits for its answer hears that it is gone
        with self._turn:
            self._end()

    def _asked(self, verb: str, arguments: tuple[Any, ...]) -> Connection:
        """Send the question to the process, beginning one where there is none."""
        if self._pipe is not None:
            try:
                self._pipe.send((verb, arguments))
            except OSError:
                self._end()
            else:
                return self._pipe
        pipe = self._begin()
        pipe.send((verb, arguments))
        return pipe

    def _begun(self, pipe: Connection) -> bool:
        """Whether the process took the question up before it ended."""
        try:
            return bool(pipe.recv() == ("begun",))
        except (EOFError, OSError):
            if self._closed:
                raise
            return False

    def _answer(self, pipe: Connection, progress: Progress | None) -> tuple[Any, ...]:
        """Wait for the answer, telling steps; the last one again while nothing is heard."""
        last = (0, 1, "the picture")
        until = time.monotonic() + self._longest_s
        while True:
            if pipe.poll(LOOK_UP_S):
                kind, *rest = pipe.recv()
                if kind not in ("begun", "step"):
                    return kind, *rest
                last = cast("tuple[int, int, str]", tuple(rest)) if kind == "step" else last
            if progress is not None:
                progress.step(*last)
            if time.monotonic() > until:
                raise WorkStopped(
                    f"A picture was not read within {self._longest_s:.0f} seconds.",
                    "Save it again as JPEG, PNG or TIFF, smaller if it is large, and take that.",
                )

    def _begin(self) -> Connection:
        context = multiprocessing.get_context("spawn")
        here, there = context.Pipe()
        process = context.Process(
            target=serve, args=(there, self._idle_s), name="benchlog pictures", daemon=True
        )
        with self._change:
            if self._closed:
                raise _stopped(closed=True)
            process.start()
            there.close()  # else the end of the process would not be heard
            self._process, self._pipe = process, here
        log.info("a process for pictures began: %s", process.pid)
        return here

    def _end(self) -> None:
        """End the process, if there is one."""
        with self._change:
            process, self._process = self._process, None
            pipe, self._pipe = self._pipe, None
        if process is not None:
            process.kill()  # it holds nothing that must be put away
            process.join()
            log.info("a process for pictures ended: %s, %s", process.pid, process.exitcode)
            process.close()
        if pipe is not None:
            pipe.close()


def _stopped(*, closed: bool) -> WorkStopped:
    if closed:
        return WorkStopped("The measurement of pictures was closed.", "Open the program again.")
    return WorkStopped(
        "The measurement of a picture ended before its answer.",
        "Nothing on the shelf is touched. Measure it again, or take a smaller picture.",
    )
