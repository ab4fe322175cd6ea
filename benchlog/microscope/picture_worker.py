"""What runs in the process that measures: it reads questions from a pipe and answers them.

A question is a verb of the measurer with its arguments. What goes back is "begun", "step"s, and
one of "done", "refused" (the world's fault, in words) or "failed" (ours, with its trace).
"""

from __future__ import annotations

import os
import signal
import traceback
from contextlib import suppress
from multiprocessing.connection import Connection
from typing import Any

from benchlog.errors import EntryRefused, PictureRefused, ScaleRefused, WorldError

REFUSALS: dict[str, type[WorldError]] = {
    kind.__name__: kind for kind in (PictureRefused, ScaleRefused, EntryRefused)
}

WITH_PROGRESS = ("measure", "marks")
GENTLER = 5
"""So far the process stands back behind the window on a busy machine (nice)."""


class PipeProgress:
    """Tells the other end of the pipe how far the work is."""

    def __init__(self, pipe: Connection) -> None:
        self._pipe = pipe

    def step(self, done: int, total: int, what: str) -> None:
        """Tell it."""
        self._pipe.send(("step", done, total, what))


def serve(pipe: Connection, idle_s: float) -> None:
    """Answer until the pipe closes or nothing was asked for `idle_s` seconds."""
    _stand_back()
    from benchlog.microscope.measured_pictures import PicturesHere  # noqa: PLC0415 - after _stand_back

    here = PicturesHere()
    with suppress(EOFError, OSError):  # whoever asked has gone
        while pipe.poll(idle_s):
            verb, arguments = pipe.recv()
            pipe.send(("begun",))
            if verb in WITH_PROGRESS:
                arguments = (*arguments, PipeProgress(pipe))
            pipe.send(_answered(here, verb, arguments))


def _answered(here: object, verb: str, arguments: tuple[Any, ...]) -> tuple[Any, ...]:
    try:
        return "done", getattr(here, verb)(*arguments)
    except WorldError as fault:
        kind = type(fault).__name__
        return "refused", kind if kind in REFUSALS else "PictureRefused", fault.what, fault.do
    except MemoryError:
        what = "The picture does not fit into this computer's memory."
        return "refused", "PictureRefused", what, "Save it smaller."
    except OSError:
        raise  # the pipe: nobody is there to be told
    except Exception:
        return "failed", traceback.format_exc()


def _stand_back() -> None:
    """Leave the keyboard's interrupt to who asked, and the processor to the window."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # read when numpy is loaded, not before
    if hasattr(os, "nice"):
        with suppress(OSError):
            os.nice(GENTLER)
