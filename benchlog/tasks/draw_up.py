"""Draw up the record of a line-up: findings, figures, scores and awards from the readings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from benchlog.derive.all_figures import figures_of
from benchlog.derive.figure import Figure
from benchlog.derive.inputs import Common
from benchlog.judge.rules import Rules
from benchlog.judge.rules_file import digest
from benchlog.judge.verdict_of import judge
from benchlog.measure.bracket import brackets
from benchlog.measure.checking import correction_half_widths
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument
from benchlog.measure.observe import Observer
from benchlog.measure.reading import Reading
from benchlog.measure.scatter import Scatters
from benchlog.tasks.checks import in_doubt
from benchlog.tasks.digest import digest_of, photo_marks, scatter_marks
from benchlog.tasks.fairness import fairness_of
from benchlog.tasks.lock import rules_in_force
from benchlog.tasks.pooled import pooled_scatter
from benchlog.tasks.ports import Remark, Shelf
from benchlog.tasks.record import Record
from benchlog.tasks.revision import placed
from benchlog.tasks.revision_lines import published_lines
from benchlog.tasks.slots import Slot, blind_last, by_slot
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup

Findings = dict[tuple[str, str], Finding]
Figures = dict[tuple[str, str], Figure]


def draw_up(shelf: Shelf, lineup_id: str, sequence: Sequence, rules: Rules | None = None) -> Record:
    """Return the record of a line-up as it stands on the shelf now.

    It is judged by the rules in force unless others are given.
    """
    lineup = shelf.lineup(lineup_id)
    rules = rules or rules_in_force(shelf, lineup)
    fairness = fairness_of(shelf, lineup, sequence)
    readings = shelf.readings(lineup_id)
    instruments = shelf.instruments()
    scatter = pooled_scatter(shelf, lineup, sequence, readings)
    checks = shelf.checks(lineup_id)
    corrections = shelf.group_corrections(lineup_id)
    doubted = in_doubt(brackets(readings, checks, corrections, instruments))
    within = correction_half_widths(checks, corrections, instruments)
    unsealed = [reading for reading in readings if reading.id not in fairness.sealed]
    findings = findings_of(lineup, sequence, unsealed, instruments, scatter, within)
    figures = all_figures(lineup, findings)
    remarks = latest_remarks(shelf.remarks(lineup_id))
    photos = tuple(shelf.photos(lineup_id))
    used = {r.instrument_id for r in readings} | {c.instrument_id for c in checks}
    record = Record(
        lineup=lineup,
        sequence=sequence,
        rules=rules,
        readings=tuple(readings),
        findings=findings,
        figures=figures,
        verdict=judge(lineup.specimens, findings, figures, rules, sequence, in_doubt=doubted),
        instruments=tuple(i for i in instruments if i.id in used),
        photos=photos,
        moments=tuple(shelf.moments(lineup_id)),
        remarks=remarks,
        digest=digest_of(
            lineup,
            readings,
            [i for i in instruments if i.id in used],
            photo_marks(photos),
            {f"{c}/{s}": remark.text for (c, s), remark in remarks.items()},
            digest(rules),
            checks,
            corrections,
            fairness.fingerprint(),
            scatter_marks(scatter),
        ),
        checks=tuple(checks),
        corrections=tuple(corrections),
        in_doubt=doubted,
        locks=fairness.locks,
        overrulings=fairness.overrulings,
        blind_runs=fairness.blind_runs,
        reveals=fairness.reveals,
        polls=fairness.polls,
        plan_changes=fairness.plan_changes,
        cut_made=fairness.cut_made,
        scatters=dict(scatter),
        sealed=fairness.sealed,
    )
    return _among_published(shelf, record)


def _among_published(shelf: Shelf, record: Record) -> Record:
    """Return the record with where it stands among what was published, and what that corrected."""
    published = shelf.publications(record.lineup.id)
    record = placed(record, published)
    return replace(record, revision_lines=published_lines(shelf, published, record.revision))


def findings_of(
    lineup: Lineup,
    sequence: Sequence,
    readings: list[Reading],
    instruments: Iterable[Instrument],
    scatter: Scatters | None = None,
    corrections: Mapping[str, float] | None = None,
) -> Findings:
    """Return what the readings of every asked slot come to; an open slot is 'not measured'.

    `corrections` are the half-widths within which group corrections are known, by their ids.
    """
    copied = frozenset(a.key for a in sequence.attributes if a.copied)
    observer = Observer(instruments, scatter=scatter, corrections=corrections, as_said=copied)
    slots = by_slot(readings)
    read = {r.attribute for r in readings}
    return {
        (attribute.key, specimen.id): observer.observe(
            attribute.key,
            specimen.id,
            blind_last(slots.get(Slot(attribute.key, specimen.id), [])),
            attribute.unit,
        )
        for attribute in sequence.attributes
        if attribute.key in lineup.attributes or attribute.key in read
        for specimen in lineup.specimens
    }


def all_figures(lineup: Lineup, findings: Findings) -> Figures:
    """Return every derived figure of every specimen, refusals included."""
    common = Common()
    return {
        (key, specimen.id): figure
        for specimen in lineup.specimens
        for key, figure in figures_of(
            {a: f for (a, s), f in findings.items() if s == specimen.id},
            specimen,
            lineup.conditions,
            common,
        ).items()
    }


def latest_remarks(remarks: Iterable[Remark]) -> dict[tuple[str, str], Remark]:
    """Return the latest remark of every component and specimen; an emptied one is left out."""
    latest = {(r.component, r.specimen_id): r for r in sorted(remarks, key=lambda r: r.at)}
    return {key: remark for key, remark in latest.items() if remark.text}
