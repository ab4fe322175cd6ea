"""Checks of an instrument at the bench, and what is done when one fails."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from benchlog.measure.reading import Said


class CheckMoment(StrEnum):
    """Which end of a bracket of readings a check stands at."""

    OPENING = "opening"
    CLOSING = "closing"


class Remedy(StrEnum):
    """What is done with the readings of a bracket whose closing check failed."""

    SHIFT = "shift"
    SPOILED = "spoiled"


@dataclass(frozen=True)
class Check:
    """What an instrument showed for something known: nothing at all, a check weight, a block.

    `known` is what it should have shown and `tolerance` the half-width within which that is
    known, both in the instrument's unit: 0 and 0 for a zero. `standard` names what was put on
    ("check weight 100 g, class M1"), "" for a zero. `after` is the id of the line-up's latest
    reading when the check was made, "" before the first: with it a check has its place among the
    readings without trusting a clock.
    """

    id: str
    lineup_id: str
    instrument_id: str
    moment: CheckMoment
    known: float
    tolerance: float
    said: Said
    at: datetime
    session_s: float
    after: str = ""
    standard: str = ""
    note: str = ""


@dataclass(frozen=True)
class GroupCorrection:
    """One logged action on all readings of a bracket: each is superseded, none is lost.

    `shift` is what was added to each reading, in the instrument's unit, for `Remedy.SHIFT`, and 0
    otherwise; `check_id` is the check that failed, as a rule the closing one. The new readings
    carry this id.
    `takes_back` is the id of an earlier group correction that this one undoes, "" for any other.
    """

    id: str
    lineup_id: str
    instrument_id: str
    check_id: str
    remedy: Remedy
    shift: float
    reason: str
    at: datetime
    takes_back: str = ""
