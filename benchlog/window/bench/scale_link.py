"""Carries what a scale says from its own thread to the window's."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from benchlog.tasks.ports import Capture, Scale, ScaleState, Weight


class ScaleLink(QObject):
    """Listens to one scale at a time; every signal arrives on the window's thread.

    Lines of a scale that was let go may still be on their way: each link is used for one scale
    and muted when the next is attached.
    """

    line = Signal(object, object)
    caught = Signal(object)
    garbage = Signal(bytes, str)
    state = Signal(object, str)

    def __init__(self, scale: Scale) -> None:
        super().__init__()
        self.scale = scale

    def begin(self) -> None:
        """Start the scale; raises ScaleFault when it cannot be reached."""
        self.scale.start(self)

    def end(self) -> None:
        """Mute the link and let the scale go."""
        self.blockSignals(True)
        self.scale.close()

    # --- the tasks' ScaleListener, called on the scale's thread ------------------------------

    def scale_line(self, weight: Weight, capture: Capture) -> None:
        self.line.emit(weight, capture)

    def scale_caught(self, weight: Weight) -> None:
        self.caught.emit(weight)

    def scale_garbage(self, raw: bytes, why: str) -> None:
        self.garbage.emit(raw, why)

    def scale_state(self, state: ScaleState, detail: str) -> None:
        self.state.emit(state, detail)
