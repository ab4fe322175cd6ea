"""The plain record of a line-up: all that the verdict shows and that goes out to viewers.

Everything in it is worked out; whoever draws it rounds and lays out, and computes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.derive.figure import Figure
from benchlog.judge.rules import Rules
from benchlog.judge.verdict import Verdict
from benchlog.measure.check import Check, GroupCorrection
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading
from benchlog.tasks.ports import Moment, Photo, Remark
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup


@dataclass(frozen=True)
class Record:
    """One line-up, worked out.

    `findings` and `figures` are keyed by (attribute or figure key, specimen id). `readings` are
    all of them, superseded ones included, oldest first. `remarks` are the latest per component
    and specimen. `digest` is the SHA-256 of the canonical form of readings, line-up and rules:
    the same record has the same digest on every machine. `revision` counts from 1. `checks` and
    `corrections` are all of them, oldest first; `in_doubt` are the ids of the readings that a
    failed check speaks against and that no group correction has dealt with.
    """

    lineup: Lineup
    sequence: Sequence
    rules: Rules
    readings: tuple[Reading, ...]
    findings: dict[tuple[str, str], Finding]
    figures: dict[tuple[str, str], Figure]
    verdict: Verdict
    instruments: tuple[Instrument, ...]
    photos: tuple[Photo, ...]
    moments: tuple[Moment, ...]
    remarks: dict[tuple[str, str], Remark]
    digest: str
    revision: int = 1
    checks: tuple[Check, ...] = ()
    corrections: tuple[GroupCorrection, ...] = ()
    in_doubt: frozenset[str] = frozenset()
