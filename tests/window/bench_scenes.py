"""A small line-up on a real shelf, and hands that press real keys at a bench over it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from decimal import Decimal
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from benchlog.measure.reading import Reading, Said
from benchlog.settings import Settings
from benchlog.tasks import plan
from benchlog.tasks.clock import SystemClock
from benchlog.tasks.ports import Capture, ScaleListener, ScaleState, Steadiness, Weight
from benchlog.trade.sequence_file import load_sequence
from benchlog.window.bench.bench_place import BenchPlace
from benchlog.window.desk import Desk
from benchlog.window.faults import Faults
from benchlog.wiring import Workshop, open_workshop
from tests.made_shelves import fresh_shelf

ASKED = (
    "whole_mass",
    "dents",
    "can_diameter",
    "can_height",
    "gasket_lubed",
    "rattle",
    "cutting_tool",
    "media_mass",
    "thread_code",
)
PAD = Qt.KeyboardModifier.KeypadModifier


@dataclass
class SteppingClock(SystemClock):
    """A clock whose steady seconds are moved by hand."""

    at_s: float = 100.0

    def seconds(self) -> float:
        return self.at_s


@dataclass
class PlainScale:
    """A Scale that says what a test tells it to."""

    listener: ScaleListener | None = None
    polled: int = 0
    closed: bool = False
    saids: list[str] = field(default_factory=list)

    def start(self, listener: ScaleListener) -> None:
        self.listener = listener
        listener.scale_state(ScaleState.CONNECTED, "on the test's bench")

    def poll(self) -> None:
        self.polled += 1

    def close(self) -> None:
        self.closed = True

    def says(self, grams: str, capture: Capture = Capture.SETTLING) -> Weight:
        weight = weight_of(grams)
        self.listener.scale_line(weight, capture)
        return weight

    def catches(self, grams: str) -> None:
        weight = self.says(grams, Capture.CAUGHT)
        self.listener.scale_caught(weight)


def weight_of(grams: str) -> Weight:
    said = Said(f"{grams} g", Decimal(grams), "gram")
    return Weight(said, Steadiness.STABLE, None, f"ST,GS,+{grams}  g".encode())


@dataclass
class Seat:
    """Someone sitting at the bench, with the keyboard only."""

    qtbot: object
    desk: Desk
    place: BenchPlace
    clock: SteppingClock

    @property
    def bench(self):
        return self.place.bench

    @property
    def entry(self):
        return self.bench.parts.entry.field

    @property
    def view(self):
        return self.bench.view

    @property
    def strip(self) -> str:
        return self.bench.parts.strip.words.text()

    @property
    def asked(self) -> tuple[str, str]:
        """The attribute's key and the specimen's nickname that are asked now."""
        return self.view.asked.attribute.key, self.view.asked.specimen.nickname

    def pause(self) -> None:
        """Let the lock-out of keys pass."""
        self.clock.at_s += 1

    def press(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = PAD) -> None:
        """Press one key, by default on the number pad, where the focus is."""
        self.pause()
        QTest.keyClick(QApplication.focusWidget(), key, modifiers)

    def type(self, text: str) -> None:
        self.pause()
        QTest.keyClicks(QApplication.focusWidget(), text)

    def enter(self) -> None:
        self.press(Qt.Key.Key_Enter)

    def answer(self, text: str) -> None:
        self.type(text)
        self.enter()

    def go_to(self, attribute: str, specimen: int = 0) -> None:
        self.bench.hands.go_to(attribute, self.view.lineup.specimens[specimen].id)

    def readings(self) -> list[Reading]:
        """What is on the shelf, read from it."""
        return self.desk.workshop.shelf.readings(self.desk.lineup_id)

    def cells(self, attribute: str) -> list[str]:
        row = next(row for row in self.view.table if row.attribute.key == attribute)
        return [cell.text for cell in row.cells]


def planned(workshop: Workshop, specimens: int = 3) -> str:
    """Put a line-up on the shelf; returns its id."""
    sequence = load_sequence("spin_on")
    ordered = tuple(a.key for a in sequence.attributes if a.key in ASKED)
    lineup = plan.new_lineup(
        workshop.clock,
        sequence,
        name="Three for one mount",
        specimens=tuple(
            replace(plan.fresh_specimen(n), maker="Larkfield", part_number=f"LF-{n}")
            for n in range(specimens)
        ),
        attributes=ordered,
    )
    plan.save_plan(workshop.shelf, lineup)
    return lineup.id


def workshop_in(folder: Path) -> Workshop:
    """Open a shelf, new where there is none, with a clock that only a test moves."""
    workshop = open_workshop(folder if folder.exists() else fresh_shelf(folder))
    workshop.clock = SteppingClock()
    return workshop


def desk_over(workshop: Workshop, settings: Settings | None = None) -> Desk:
    """A desk with the last line-up in hand, if there is one."""
    desk = Desk(workshop, settings or Settings(sounds=False), Faults())
    desk.take_last_lineup()
    return desk
