"""What the tasks need from outside: a shelf, a clock, a scale, progress, a writer of sheets."""

from __future__ import annotations

from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.declared import Declaration
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.rules import Rules
from benchlog.measure.check import Check, GroupCorrection
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading, Said
from benchlog.tasks.picture_ports import PictureShelf
from benchlog.tasks.publication import Publication
from benchlog.tasks.sheet_wishes import USUAL, SheetWishes
from benchlog.trade.specimen import Lineup, Specimen

if TYPE_CHECKING:
    from benchlog.tasks.record import Record


class Clock(Protocol):
    """Wall time in UTC and a steady count of seconds."""

    def now(self) -> datetime: ...
    def seconds(self) -> float: ...


class Progress(Protocol):
    """Told how far long work has come; `done` of `total`, and what is at hand."""

    def step(self, done: int, total: int, what: str) -> None: ...


@dataclass(frozen=True)
class Photo:
    """One picture on the shelf; `id` is the SHA-256 of its bytes in hexadecimal."""

    id: str
    lineup_id: str
    specimen_id: str
    station: str
    name: str
    media_type: str
    width: int
    height: int
    at: datetime
    caption: str = ""


@dataclass(frozen=True)
class Moment:
    """A flagged moment of the session, for the editor."""

    id: str
    lineup_id: str
    at: datetime
    session_s: float
    label: str


@dataclass(frozen=True)
class Place:
    """Where the bench stood: station, attribute, specimen, way of the round, half-typed text."""

    lineup_id: str
    station: str
    attribute: str
    specimen_id: str
    by_specimen: bool = False
    half_typed: str = ""
    passed: tuple[str, ...] = ()
    """Keys of the one-way stations that were deliberately passed."""
    tools: tuple[tuple[str, str], ...] = ()
    """Instrument kind to the id of the instrument in hand."""


@dataclass(frozen=True)
class Remark:
    """A sentence of the reviewer's: on a component's verdict, or on one specimen's component."""

    id: str
    lineup_id: str
    component: str
    specimen_id: str
    """"" for the comparison as a whole."""
    text: str
    at: datetime


@dataclass(frozen=True)
class LineupBrief:
    """One row of the shelf's list."""

    id: str
    name: str
    created_at: datetime
    specimens: tuple[Specimen, ...]
    readings: int
    rehearsal: bool


@dataclass(frozen=True)
class Change:
    """One field that changed: text as it lies on the shelf; None where there was or is nothing.

    `entity` is "lineup", "specimen" (its `entity_id` is "line-up id/specimen id"), "instrument"
    or "photo".
    """

    entity: str
    entity_id: str
    field: str
    old: str | None
    new: str | None
    at: datetime


class Shelf(PictureShelf, Protocol):
    """Everything recorded. Each `add_*`/`save_*` is durable before it returns.

    `add_reading` stores the reading and, when given, where the bench goes on: both or neither;
    `add_group_correction` stores the correction and every reading that it makes, all or nothing.

    `own_rules` are the reviewer's own sets in the order in which they were kept, every version;
    `plan_log` holds what changed in a line-up and its specimens, oldest first.

    `publication_draft` gives an empty folder on the shelf, gone at the end unless
    `add_publication` took its files over; that stores them, the publication and the frozen
    `record` (JSON), all or nothing. `publications` are in the order of their revisions.

    All raise ShelfFault kinds; `lineup`, `photo_bytes`, `published_record` and `publication_file`
    raise KeyError for what is not there.
    """

    def lineups(self) -> list[LineupBrief]: ...
    def lineup(self, lineup_id: str) -> Lineup: ...
    def save_lineup(self, lineup: Lineup) -> None: ...
    def instruments(self) -> list[Instrument]: ...
    def save_instrument(self, instrument: Instrument) -> None: ...
    def add_reading(self, reading: Reading, place: Place | None = None) -> None: ...
    def readings(self, lineup_id: str) -> list[Reading]: ...
    def add_check(self, check: Check) -> None: ...
    def checks(self, lineup_id: str) -> list[Check]: ...
    def add_group_correction(
        self, correction: GroupCorrection, readings: list[Reading]
    ) -> None: ...
    def group_corrections(self, lineup_id: str) -> list[GroupCorrection]: ...
    def add_photo(self, photo: Photo, data: bytes) -> None: ...
    def photos(self, lineup_id: str) -> list[Photo]: ...
    def photo_bytes(self, photo_id: str) -> bytes: ...
    def add_moment(self, moment: Moment) -> None: ...
    def moments(self, lineup_id: str) -> list[Moment]: ...
    def add_remark(self, remark: Remark) -> None: ...
    def remarks(self, lineup_id: str) -> list[Remark]: ...
    def add_rules_lock(self, lock: RulesLock) -> None: ...
    def rules_locks(self, lineup_id: str) -> list[RulesLock]: ...
    def add_own_rules(self, rules: Rules, at: datetime) -> None: ...
    def own_rules(self) -> list[Rules]: ...
    def add_overruling(self, overruling: Overruling) -> None: ...
    def overrulings(self, lineup_id: str) -> list[Overruling]: ...
    def add_blind_run(self, run: BlindRun) -> None: ...
    def blind_runs(self, lineup_id: str) -> list[BlindRun]: ...
    def add_reveal(self, reveal: Reveal) -> None: ...
    def reveals(self, lineup_id: str) -> list[Reveal]: ...
    def add_poll(self, poll: Poll) -> None: ...
    def polls(self, lineup_id: str) -> list[Poll]: ...
    def add_declaration(self, declaration: Declaration) -> None: ...
    def declarations(self, lineup_id: str) -> list[Declaration]: ...
    def publication_draft(self) -> AbstractContextManager[Path]: ...
    def add_publication(self, publication: Publication, record: str, draft: Path) -> None: ...
    def publications(self, lineup_id: str) -> list[Publication]: ...
    def published_record(self, lineup_id: str, revision: int) -> str: ...
    def publication_file(self, lineup_id: str, revision: int, name: str) -> bytes: ...
    def plan_log(self, lineup_id: str) -> list[Change]: ...
    def save_place(self, place: Place) -> None: ...
    def place(self, lineup_id: str) -> Place | None: ...
    def last_lineup(self) -> str | None: ...


class Steadiness(StrEnum):
    """What a scale's line says of its weight."""

    STABLE = "stable"
    MOVING = "moving"
    SILENT = "does not say"
    OVERLOAD = "overload"
    UNDERLOAD = "underload"


@dataclass(frozen=True)
class Weight:
    """One line of a scale, understood. `said` is None for overload and underload."""

    said: Said | None
    steadiness: Steadiness
    net: bool | None
    """True when the scale says net, False for gross, None when it does not say."""
    raw: bytes


class Capture(StrEnum):
    """What the capturing of one weight per placing is waiting for."""

    WAITING = "waiting for a load"
    SETTLING = "settling"
    CAUGHT = "caught; clear the pan"


class ScaleState(StrEnum):
    """Whether weights can arrive."""

    CLOSED = "no scale"
    CONNECTED = "connected"
    LOST = "unplugged; looking for it"


class ScaleListener(Protocol):
    """Told what a scale does; called on the scale's own thread."""

    def scale_line(self, weight: Weight, capture: Capture) -> None: ...
    def scale_caught(self, weight: Weight) -> None: ...
    def scale_garbage(self, raw: bytes, why: str) -> None: ...
    def scale_state(self, state: ScaleState, detail: str) -> None: ...


class Scale(Protocol):
    """A scale that is listened to until closed; `poll` asks for one weight where that is needed."""

    def start(self, listener: ScaleListener) -> None: ...
    def poll(self) -> None: ...
    def close(self) -> None: ...


class ScriptedScale(Scale, Protocol):
    """A scale that plays a script of placings.

    `play_one` plays the next from load to cleared pan and returns the weight that was caught,
    None when the script is over.
    """

    def play_one(self) -> Weight | None: ...


class SheetWriter(Protocol):
    """Writes the viewers' sheet; `paper` is "A4" or "Letter"; pictures come from `photo_bytes`."""

    def write(
        self,
        record: Record,
        shelf: Shelf,
        path: Path,
        paper: str,
        progress: Progress,
        wishes: SheetWishes = USUAL,
    ) -> None: ...


class OutputWriter(Protocol):
    """Writes one kind of output into a folder that is empty at first, shared with the others.

    `write` returns the paths of its files in the folder, with "/" between their parts. `kind` is
    as in `Output`.
    """

    @property
    def name(self) -> str: ...
    @property
    def kind(self) -> str: ...
    def write(
        self, record: Record, shelf: Shelf, folder: Path, progress: Progress
    ) -> tuple[str, ...]: ...
