"""The rehearsal's scale at the bench: whenever a weight is asked, it arrives by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from benchlog.tasks.ports import Capture, Scale, ScaleListener, ScaleState, Weight
from benchlog.tasks.rehearsed_weight import rehearsed_weight
from benchlog.tasks.sample import Sample, load_sample
from benchlog.tasks.slots import Slot
from benchlog.wiring import rehearsal_scale

if TYPE_CHECKING:
    from benchlog.window.bench.bench import Bench

PACE_S = 0.09
"""Seconds between two lines; 0 plays each placing at once."""


class RehearsalFeed(QObject):
    """A Scale that weighs what the sample has for the slot that is asked.

    `attend` makes it look at every move of the bench and put the part on the pan by itself.
    """

    def __init__(self, bench: Bench, sample: Sample | None = None) -> None:
        super().__init__(bench)
        self._bench = bench
        self._sample = sample or load_sample()
        self._listener: ScaleListener | None = None
        self._playing: Scale | None = None
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self.poll)

    def attend(self) -> None:
        """Weigh what is asked now, and from now on whatever is asked next."""
        self._bench.hands.changed.connect(self._look)
        self._look()

    def start(self, listener: ScaleListener) -> None:
        """Begin to answer to the listener."""
        self._listener = listener
        listener.scale_state(ScaleState.CONNECTED, "(rehearsal: invented weights)")

    def poll(self) -> None:
        """Put the part of the asked slot on the pan; nothing happens where no weight is asked."""
        asked = self._bench.view.asked
        if self._listener is None or asked is None or self._bench.view.yes_wanted:
            return
        slot = Slot(asked.attribute.key, asked.specimen.id)
        teardown = self._bench.hands.teardown
        said = rehearsed_weight(
            self._sample, teardown.sequence, teardown.lineup, slot, len(asked.taken)
        )
        if said is None:
            return
        self._end_playing()
        self._playing = rehearsal_scale(said.value, said.unit, pace=PACE_S)
        self._playing.start(_Passed(self._listener))
        self._playing.poll()

    def close(self) -> None:
        """Let the pan go."""
        self._soon.stop()
        self._end_playing()
        listener, self._listener = self._listener, None
        if listener is not None:
            listener.scale_state(ScaleState.CLOSED, "")

    def _look(self, _view: object = None) -> None:
        self._end_playing()
        asked = self._bench.view.asked
        if asked is not None and asked.takes_weight and len(asked.taken) < asked.wanted:
            self._soon.start()

    def _end_playing(self) -> None:
        playing, self._playing = self._playing, None
        if playing is not None:
            playing.close()


class _Passed:
    """Passes on what a placing says; coming and going of the single placings stays hidden."""

    def __init__(self, listener: ScaleListener) -> None:
        self._listener = listener

    def scale_line(self, weight: Weight, capture: Capture) -> None:
        self._listener.scale_line(weight, capture)

    def scale_caught(self, weight: Weight) -> None:
        self._listener.scale_caught(weight)

    def scale_garbage(self, raw: bytes, why: str) -> None:
        self._listener.scale_garbage(raw, why)

    def scale_state(self, state: ScaleState, detail: str) -> None:
        """The feed itself stays connected."""
