"""One recorded observation: never changed, never deleted, only superseded."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from enum import StrEnum

from benchlog.measure.state import State


class Source(StrEnum):
    """Where a reading came from."""

    TYPED = "typed"
    SCALE = "scale"
    CALLIPER = "calliper"
    PEDAL_COUNT = "pedal count"
    PICTURE = "picture"
    REHEARSAL = "rehearsal"


@dataclass(frozen=True)
class Said:
    """A number and its unit exactly as said.

    `value` is the number itself or, for an interval, its middle; `low` and `high` are the
    interval as said, None when a single number was said. `unit` is a name the unit registry
    knows ("inch", "millimeter"). Decimals keep 287.40 apart from 287.4.
    """

    text: str
    value: Decimal
    unit: str
    low: Decimal | None = None
    high: Decimal | None = None
    approximate: bool = False


@dataclass(frozen=True)
class Reading:
    """One observation of one attribute of one specimen.

    Exactly one of `said` (quantities and counts) and `word` (a choice's key, a text, or
    "yes"/"no" for a presence) is set when the state has a value; neither is otherwise.
    `si_*` are in `si_unit`, an interval's ends for estimates and ranges. `ordinal` numbers the
    repeats of one attribute of one specimen from 1. A correction `supersedes` an earlier
    reading and says why in `reason`; `withdrawn` marks a superseding entry that takes the
    earlier one back and puts nothing in its place. `at` is wall time in UTC, `session_s` seconds
    since the bench session began. `group` is the id of the group correction that made this
    reading, "" for any other. `blind` tells that whoever judged knew the part by a code alone.
    """

    id: str
    lineup_id: str
    specimen_id: str
    attribute: str
    ordinal: int
    state: State
    text: str
    at: datetime
    session_s: float
    source: Source = Source.TYPED
    said: Said | None = None
    word: str | None = None
    si_value: float | None = None
    si_low: float | None = None
    si_high: float | None = None
    si_unit: str = ""
    instrument_id: str | None = None
    raw: bytes | None = None
    reason: str = ""
    supersedes: str | None = None
    withdrawn: bool = False
    group: str = ""
    blind: bool = False


def standing(readings: list[Reading]) -> list[Reading]:
    """Return the readings that stand: neither superseded nor withdrawals, in given order."""
    gone = {reading.supersedes for reading in readings if reading.supersedes}
    return [r for r in readings if r.id not in gone and not r.withdrawn]
