"""A scale without a scale: plays placings as bytes through the code that reads a real one."""

from __future__ import annotations

import threading
from collections.abc import Sequence
from decimal import Decimal

from benchlog.errors import OurFault, ScaleFault
from benchlog.instruments.line_reader import LineReader
from benchlog.instruments.line_writer import write_line
from benchlog.instruments.listening import Listening
from benchlog.instruments.placing import Placing, placing_lines
from benchlog.instruments.steady import PanWatch, SteadyRule, last_digit
from benchlog.instruments.template_file import load_templates
from benchlog.tasks.ports import ScaleListener, ScaleState, Weight

LINE_S = 0.1
"""Seconds between two lines of the played scale, as settling sees them."""


class RehearsalScale:
    """A Scale that plays placings; `poll` puts the next part on the pan.

    With a `pace` of 0 a placing is played at once, in `poll` or `play_one`, on the caller's
    thread and in no time. With a pace, in seconds per line, a thread plays an empty pan until a
    placing is asked for. `template` is the shape of the lines. Raises ScaleFault for an unknown
    shape and for a placing that could never be caught.
    """

    def __init__(
        self,
        placings: Sequence[Placing],
        *,
        pace: float = 0.0,
        template: str = "words-before",
        rule: SteadyRule | None = None,
    ) -> None:
        rule = rule or SteadyRule()
        for placing in placings:
            placing.check(rule)
        self._templates = load_templates()
        self._reader = LineReader(self._templates, template)
        if self._reader.shape is None:
            raise ScaleFault("A rehearsal wants one shape of line.", "Choose it by its key.")
        self._shape = self._reader.shape
        self._watch = PanWatch(rule)
        self._script = iter(placings)
        self._last = placings[0] if placings else Placing(Decimal("1.0"))
        self._pace = pace
        self._seconds = 0.0
        self._listener: ScaleListener | None = None
        self._listening: Listening | None = None
        self._change = threading.Condition()
        self._wanted = 0
        self._closing = False
        self._thread: threading.Thread | None = None

    def start(self, listener: ScaleListener) -> None:
        """Begin to play to the listener; on a thread of its own when there is a pace."""
        if self._listener is not None:
            raise OurFault("the scale was started already")
        self._listener = listener
        self._listening = Listening(self._reader, self._watch, listener)
        self._closing = False
        listener.scale_state(ScaleState.CONNECTED, "rehearsal")
        if self._pace > 0:
            self._thread = threading.Thread(target=self._run, name="rehearsal", daemon=True)
            self._thread.start()

    def poll(self) -> None:
        """Put the next part on the pan; nothing happens when the script is over."""
        if self._thread is None:
            self.play_one()
            return
        with self._change:
            self._wanted += 1
            self._change.notify_all()

    def play_one(self) -> Weight | None:
        """Play one placing at once and return the weight caught; None when the script is over."""
        if self._thread is not None:
            raise OurFault("a rehearsal at a pace plays on its own thread")
        placing = next(self._script, None)
        if placing is None:
            return None
        caught: list[Weight] = []
        for line in placing_lines(placing, self._shape, self._templates):
            caught += self._send(line)
        return caught[0] if caught else None

    def close(self) -> None:
        """Stop playing; returns when the thread has ended."""
        with self._change:
            self._closing = True
            self._change.notify_all()
        thread = self._thread
        if thread is not None and thread is not threading.current_thread():
            thread.join()
        self._thread = None
        listener, self._listener = self._listener, None
        if listener is not None:
            listener.scale_state(ScaleState.CLOSED, "rehearsal")

    def _run(self) -> None:
        """Play an empty pan, and a placing whenever one is wanted, until closed."""
        while not self._closing:
            for line in self._next_lines():
                self._send(line)
                with self._change:
                    if self._change.wait_for(lambda: self._closing, timeout=self._pace):
                        return

    def _next_lines(self) -> Sequence[bytes]:
        with self._change:
            wanted = self._wanted > 0
            self._wanted -= wanted
        placing = next(self._script, None) if wanted else None
        if placing is not None:
            self._last = placing
            return tuple(placing_lines(placing, self._shape, self._templates))
        nothing = Decimal(0).quantize(last_digit(self._last.weight))
        return (write_line(self._shape, self._templates, nothing, self._last.unit),)

    def _send(self, line: bytes) -> list[Weight]:
        if self._listening is None:
            raise OurFault("the rehearsal scale was not started")
        self._seconds += LINE_S
        return self._listening.feed(line, self._seconds)
