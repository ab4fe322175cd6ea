"""What a record is made from, as far as it is not worked out."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.declared import Declaration
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.rules import Rules
from benchlog.measure.check import Check, GroupCorrection
from benchlog.measure.instrument import Instrument
from benchlog.measure.micrograph import Micrograph, MicroscopeSetUp, PictureAnswer
from benchlog.measure.pooled import PooledScatter
from benchlog.measure.reading import Reading
from benchlog.tasks.plan_changes import PlanChange
from benchlog.tasks.ports import Moment, Photo, Remark
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup


@dataclass(frozen=True)
class KnownScatter:
    """The pooled scatter of one attribute with one instrument."""

    attribute: str
    instrument_id: str
    pooled: PooledScatter


@dataclass(frozen=True)
class Contents:
    """Everything in a record that is not worked out; fields as in `Record`.

    `rules` are those that the record was judged by. `remarks` are the latest alone.
    """

    lineup: Lineup
    sequence: Sequence
    rules: Rules
    readings: tuple[Reading, ...]
    instruments: tuple[Instrument, ...]
    checks: tuple[Check, ...] = ()
    corrections: tuple[GroupCorrection, ...] = ()
    photos: tuple[Photo, ...] = ()
    moments: tuple[Moment, ...] = ()
    remarks: tuple[Remark, ...] = ()
    scatters: tuple[KnownScatter, ...] = ()
    locks: tuple[RulesLock, ...] = ()
    overrulings: tuple[Overruling, ...] = ()
    blind_runs: tuple[BlindRun, ...] = ()
    reveals: tuple[Reveal, ...] = ()
    polls: tuple[Poll, ...] = ()
    plan_changes: tuple[PlanChange, ...] = ()
    cut_made: bool = False
    revision: int = 1
    draft: bool = False
    revision_reason: str = ""
    revision_lines: tuple[str, ...] = ()
    declarations: tuple[Declaration, ...] = ()
    set_ups: tuple[MicroscopeSetUp, ...] = ()
    micrographs: tuple[Micrograph, ...] = ()
    answers: tuple[PictureAnswer, ...] = ()


def contents_of(record: Record) -> Contents:
    """Return what a record was made from."""
    return Contents(
        record.lineup,
        record.sequence,
        record.rules,
        record.readings,
        record.instruments,
        record.checks,
        record.corrections,
        record.photos,
        record.moments,
        tuple(record.remarks.values()),
        tuple(KnownScatter(*key, pooled) for key, pooled in record.scatters.items()),
        record.locks,
        record.overruling_log or tuple(record.overrulings.values()),
        record.blind_runs,
        record.reveals,
        record.polls,
        record.plan_changes,
        record.cut_made,
        record.revision,
        record.draft,
        record.revision_reason,
        record.revision_lines,
        record.declarations,
        record.set_ups,
        record.micrographs,
        record.answers,
    )
