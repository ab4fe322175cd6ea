"""The way of every byte, whatever sent it: lines, weights, captures, and on to the listener."""

from __future__ import annotations

from benchlog.instruments.line_reader import LineReader
from benchlog.instruments.lines import Lines
from benchlog.instruments.steady import PanWatch, PressWatch
from benchlog.instruments.telegram import NotAWeight
from benchlog.tasks.ports import ScaleListener, Weight


class Listening:
    """Feeds bytes through to a listener; a lost connection starts the lines anew, not the pan."""

    def __init__(
        self, reader: LineReader, watch: PanWatch | PressWatch, listener: ScaleListener
    ) -> None:
        self._reader = reader
        self._watch = watch
        self._listener = listener
        self._lines = Lines()

    def begin(self, *, mid_stream: bool) -> None:
        """Forget a line that was cut off; `mid_stream` when one may be on its way already."""
        self._lines = Lines(mid_stream=mid_stream)

    def feed(self, data: bytes, at_s: float) -> list[Weight]:
        """Take bytes that came in at `at_s`, tell the listener, return what was caught."""
        caught = []
        for raw in self._lines.feed(data):
            read = self._reader.read(raw)
            if isinstance(read, NotAWeight):
                self._listener.scale_garbage(read.raw, read.why)
                continue
            step = self._watch.feed(read, at_s)
            self._listener.scale_line(read, step.capture)
            if step.caught is not None:
                caught.append(step.caught)
                self._listener.scale_caught(step.caught)
        return caught
