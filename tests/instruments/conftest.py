"""What the tests of this room share: the shipped shapes, and a listener that remembers."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass, field

import pytest

from benchlog.instruments.template import Templates
from benchlog.instruments.template_file import load_templates
from benchlog.tasks.ports import Capture, ScaleState, Weight

PATIENCE_S = 20


@dataclass
class Heard:
    """A ScaleListener that keeps what it is told and can be waited on."""

    lines: list[tuple[Weight, Capture]] = field(default_factory=list)
    caught: list[Weight] = field(default_factory=list)
    garbage: list[tuple[bytes, str]] = field(default_factory=list)
    states: list[tuple[ScaleState, str]] = field(default_factory=list)
    change: threading.Condition = field(default_factory=threading.Condition)

    def scale_line(self, weight: Weight, capture: Capture) -> None:
        self._keep(self.lines, (weight, capture))

    def scale_caught(self, weight: Weight) -> None:
        self._keep(self.caught, weight)

    def scale_garbage(self, raw: bytes, why: str) -> None:
        self._keep(self.garbage, (raw, why))

    def scale_state(self, state: ScaleState, detail: str) -> None:
        self._keep(self.states, (state, detail))

    def _keep(self, where: list, what: object) -> None:
        with self.change:
            where.append(what)
            self.change.notify_all()

    def wait(self, until: Callable[[], bool], what: str) -> None:
        """Wait until something has been told; fails, naming it, when it never is."""
        with self.change:
            assert self.change.wait_for(until, PATIENCE_S), f"never told: {what}"

    def wait_state(self, state: ScaleState) -> None:
        """Wait until this is the latest state."""
        self.wait(lambda: bool(self.states) and self.states[-1][0] is state, state)

    @property
    def captures(self) -> list[Capture]:
        return [capture for _, capture in self.lines]


@pytest.fixture
def heard() -> Heard:
    return Heard()


@pytest.fixture(scope="session")
def templates() -> Templates:
    return load_templates()
