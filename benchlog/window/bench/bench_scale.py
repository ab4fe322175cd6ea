"""The bench's scale: attaching it, showing what it says, and handing on what it caught."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from PySide6.QtCore import QObject, Signal

from benchlog.errors import ScaleFault
from benchlog.settings import Settings
from benchlog.tasks.ports import Scale, ScaleState, Weight
from benchlog.window.bench.scale_link import ScaleLink
from benchlog.window.bench.scale_panel import ScalePanel
from benchlog.window.faults import Faults
from benchlog.window.work import Work, begin
from benchlog.wiring import serial_scale


class BenchScale(QObject):
    """One attached scale, or none. `caught` carries a weight; `line_told` every raw line."""

    caught = Signal(object)
    line_told = Signal(str)
    state_changed = Signal(object)

    def __init__(self, panel: ScalePanel, faults: Faults) -> None:
        super().__init__()
        self._panel = panel
        self._faults = faults
        self._link: ScaleLink | None = None
        self._borrower: Callable[[Weight], None] | None = None
        self.state = ScaleState.CLOSED

    @property
    def attached(self) -> bool:
        """Whether there is a scale, plugged in or not."""
        return self._link is not None

    def attach(self, scale: Scale) -> None:
        """Listen to a scale in place of the one before; raises ScaleFault."""
        self.detach()
        link = self._new_link(scale)
        try:
            link.begin()
        except ScaleFault:
            self.detach()
            raise

    def attach_from(self, settings: Settings) -> None:
        """Open the port of the settings off the main thread; failures are told by the handler."""
        self.detach()
        if not settings.scale.port:
            return
        try:
            link = self._new_link(serial_scale(settings.scale))
        except ScaleFault as fault:
            self._faults.handle(fault)
            return

        def job(_work: Work) -> None:
            link.begin()

        def failed(fault: BaseException) -> None:
            if self._link is link:
                self.detach()
            self._faults.handle(fault)

        begin(job, lambda _none: None, failed)

    def detach(self) -> None:
        """Let the scale go."""
        if self._link is not None:
            link, self._link = self._link, None
            link.end()
        self._show_state(ScaleState.CLOSED, "")

    def borrow(self, taker: Callable[[Weight], None] | None) -> None:
        """Hand every caught weight to `taker` alone, until None gives the scale back."""
        self._borrower = taker

    def poll(self) -> None:
        """Ask the scale for one weight."""
        if self._link is not None:
            with self._faults.guarded():
                self._link.scale.poll()

    def _new_link(self, scale: Scale) -> ScaleLink:
        link = ScaleLink(scale)
        self._link = link
        link.line.connect(self._panel.show_line)
        link.line.connect(lambda weight, _capture: self.line_told.emit(readable(weight.raw)))
        link.garbage.connect(self._show_garbage)
        link.state.connect(self._show_state)
        link.caught.connect(self._hand_on)
        return link

    def _hand_on(self, weight: Weight) -> None:
        if self._borrower is not None:
            self._borrower(weight)
        else:
            self.caught.emit(weight)

    def _show_garbage(self, raw: bytes, why: str) -> None:
        self._panel.show_garbage(why)
        self.line_told.emit(f"{readable(raw)}   not understood: {why}")

    def _show_state(self, state: ScaleState, detail: str) -> None:
        self.state = state
        self._panel.show_state(state, detail)
        self.state_changed.emit(state)


def readable(raw: bytes) -> str:
    """Return a raw line with every byte that is no plain sign written out."""
    text = raw.decode("ascii", errors="backslashreplace")
    return "".join(sign if sign.isprintable() else f"\\x{ord(sign):02x}" for sign in text)


def weight_words(weight: Weight, symbol: Callable[[str], str]) -> str:
    """Return a weight as one says it: "287.4 g"."""
    if weight.said is None:
        return weight.steadiness.value
    value: Decimal = weight.said.value
    return f"{value:f} {symbol(weight.said.unit)}".strip()
