"""The plain record of a line-up: all that the verdict shows and that goes out to viewers.

Everything in it is worked out; whoever draws it rounds and lays out, and computes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from benchlog.derive.figure import Figure
from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.declared import Declaration
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.ranked import DeclaredRanks
from benchlog.judge.rules import Rules
from benchlog.judge.verdict import Verdict
from benchlog.measure.check import Check, GroupCorrection
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument
from benchlog.measure.micrograph import Micrograph, MicroscopeSetUp, PictureAnswer
from benchlog.measure.pooled import PooledScatter
from benchlog.measure.reading import Reading
from benchlog.tasks.plan_changes import PlanChange
from benchlog.tasks.ports import Moment, Photo, Remark
from benchlog.trade.attribute import Sequence
from benchlog.trade.component import Component
from benchlog.trade.specimen import Lineup


@dataclass(frozen=True)
class Record:
    """One line-up, worked out.

    `findings` and `figures` are keyed by (attribute or figure key, specimen id). `readings` are
    all of them, superseded ones included, oldest first. `remarks` are the latest per component
    and specimen. `digest` is the SHA-256 of the canonical form of all that it is made from:
    the same record has the same digest on every machine. `revision` counts what was published from
    1; that of a `draft`, which is not published as it stands, is the number that it would get;
    `revision_reason` says why there is a further one, and `revision_lines` what each of them
    corrected. `checks` and `corrections` are all of them, oldest first; `in_doubt` are the ids of
    the readings that a failed check speaks against and that no group correction has dealt with.
    `rules` are those that it is judged by; `locks` are all locks of the line-up's rules, the latest
    in force.
    `overrulings` hold what the reviewer says of a component instead of the verdict, which stays
    what the rules gave; `overruling_log` are all that were ever made or taken back, oldest first,
    and may be empty where only those stand. `plan_changes` are those after the first lock or
    reading; `cut_made` tells whether there was a cut so far. `sealed` are the ids of blind readings
    whose codes were not opened yet: they are among the readings, and no finding shows them.
    `scatters` are the pooled scatters by attribute key and instrument id: they hold earlier
    line-ups, so that no reading here gives them. `declarations` are all that was declared and taken
    back, oldest first, and `declared` the one that stands with the ranks under it, None while none
    does. `set_ups` are those of the line-up's `micrographs`, which are all of them, retaken ones
    too, as `answers` are all that was measured on them, oldest first.
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
    locks: tuple[RulesLock, ...] = ()
    overrulings: dict[Component, Overruling] = field(default_factory=dict)
    blind_runs: tuple[BlindRun, ...] = ()
    reveals: tuple[Reveal, ...] = ()
    polls: tuple[Poll, ...] = ()
    plan_changes: tuple[PlanChange, ...] = ()
    cut_made: bool = False
    sealed: frozenset[str] = frozenset()
    scatters: dict[tuple[str, str], PooledScatter] = field(default_factory=dict)
    draft: bool = False
    revision_reason: str = ""
    revision_lines: tuple[str, ...] = ()
    declarations: tuple[Declaration, ...] = ()
    declared: DeclaredRanks | None = None
    overruling_log: tuple[Overruling, ...] = ()
    set_ups: tuple[MicroscopeSetUp, ...] = ()
    micrographs: tuple[Micrograph, ...] = ()
    answers: tuple[PictureAnswer, ...] = ()
