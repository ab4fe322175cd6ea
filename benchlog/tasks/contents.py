"""What a record is made from, and the record made again from it: no shelf is needed."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.judge.rules import Rules
from benchlog.judge.rules_file import digest
from benchlog.judge.verdict_of import judge
from benchlog.measure.bracket import brackets
from benchlog.measure.check import Check, GroupCorrection
from benchlog.measure.checking import correction_half_widths
from benchlog.measure.instrument import Instrument
from benchlog.measure.pooled import PooledScatter
from benchlog.measure.reading import Reading
from benchlog.tasks.checks import in_doubt
from benchlog.tasks.digest import digest_of, photo_marks, scatter_marks
from benchlog.tasks.draw_up import all_figures, findings_of
from benchlog.tasks.fairness import Fairness, standing_overrulings
from benchlog.tasks.plan_changes import PlanChange
from benchlog.tasks.ports import Moment, Photo, Remark
from benchlog.tasks.record import Record
from benchlog.tasks.sealed import sealed_readings
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
        tuple(record.overrulings.values()),
        record.blind_runs,
        record.reveals,
        record.polls,
        record.plan_changes,
        record.cut_made,
        record.revision,
        record.draft,
        record.revision_reason,
        record.revision_lines,
    )


def worked_out(contents: Contents) -> Record:
    """Return the record that contents come to: the very same as was drawn up from the shelf.

    Raises OurFault when a reading names an instrument that is not among the contents.
    """
    lineup, readings = contents.lineup, list(contents.readings)
    instruments, checks = list(contents.instruments), list(contents.checks)
    corrections, fairness = list(contents.corrections), _fairness(contents)
    scatters = {(k.attribute, k.instrument_id): k.pooled for k in contents.scatters}
    doubted = in_doubt(brackets(readings, checks, corrections, instruments))
    within = correction_half_widths(checks, corrections, instruments)
    unsealed = [reading for reading in readings if reading.id not in fairness.sealed]
    findings = findings_of(lineup, contents.sequence, unsealed, instruments, scatters, within)
    figures = all_figures(lineup, findings)
    remarks = {(r.component, r.specimen_id): r for r in contents.remarks}
    return Record(
        lineup=lineup,
        sequence=contents.sequence,
        rules=contents.rules,
        readings=contents.readings,
        findings=findings,
        figures=figures,
        verdict=judge(
            lineup.specimens,
            findings,
            figures,
            contents.rules,
            contents.sequence,
            in_doubt=doubted,
        ),
        instruments=contents.instruments,
        photos=contents.photos,
        moments=contents.moments,
        remarks=remarks,
        digest=_digest(contents, remarks, fairness),
        revision=contents.revision,
        draft=contents.draft,
        revision_reason=contents.revision_reason,
        revision_lines=contents.revision_lines,
        checks=contents.checks,
        corrections=contents.corrections,
        in_doubt=doubted,
        locks=fairness.locks,
        overrulings=fairness.overrulings,
        blind_runs=fairness.blind_runs,
        reveals=fairness.reveals,
        polls=fairness.polls,
        plan_changes=fairness.plan_changes,
        cut_made=fairness.cut_made,
        sealed=fairness.sealed,
        scatters=scatters,
    )


def _fairness(contents: Contents) -> Fairness:
    return Fairness(
        locks=contents.locks,
        overrulings=standing_overrulings(contents.overrulings),
        blind_runs=contents.blind_runs,
        reveals=contents.reveals,
        polls=contents.polls,
        plan_changes=contents.plan_changes,
        cut_made=contents.cut_made,
        sealed=sealed_readings(contents.blind_runs, contents.reveals, contents.readings),
    )


def _digest(contents: Contents, remarks: dict[tuple[str, str], Remark], fairness: Fairness) -> str:
    """Return the digest as `draw_up` makes it."""
    return digest_of(
        contents.lineup,
        contents.readings,
        contents.instruments,
        photo_marks(contents.photos),
        {f"{c}/{s}": remark.text for (c, s), remark in remarks.items()},
        digest(contents.rules),
        contents.checks,
        contents.corrections,
        fairness.fingerprint(),
        scatter_marks({(k.attribute, k.instrument_id): k.pooled for k in contents.scatters}),
    )
