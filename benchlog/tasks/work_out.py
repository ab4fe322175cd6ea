"""From the contents of a record to all that is worked out: findings, figures, scores, awards."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from benchlog.derive.all_figures import figures_of
from benchlog.derive.figure import Figure
from benchlog.derive.inputs import Common
from benchlog.judge.evidence import Evidence
from benchlog.judge.ranked import DeclaredRanks
from benchlog.judge.rules_file import digest
from benchlog.judge.verdict_of import judge
from benchlog.measure.bracket import brackets
from benchlog.measure.checking import correction_half_widths
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument
from benchlog.measure.observe import Observer
from benchlog.measure.picture_doubt import PictureDoubt
from benchlog.measure.reading import Reading
from benchlog.measure.scatter import Scatters
from benchlog.tasks.checks import in_doubt
from benchlog.tasks.contents import Contents
from benchlog.tasks.declare import standing_declaration
from benchlog.tasks.digest import digest_of, photo_marks, picture_marks, scatter_marks
from benchlog.tasks.fairness import Fairness, standing_overrulings
from benchlog.tasks.picture_doubts import picture_doubts, spreads_of
from benchlog.tasks.ports import Remark
from benchlog.tasks.record import Record
from benchlog.tasks.sealed import sealed_readings
from benchlog.tasks.slots import Slot, blind_last, by_slot
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup

Findings = dict[tuple[str, str], Finding]
Figures = dict[tuple[str, str], Figure]


def worked_out(contents: Contents) -> Record:
    """Return the record that contents come to: no shelf is needed.

    Raises OurFault when a reading names an instrument that is not among the contents.
    """
    lineup, readings = contents.lineup, list(contents.readings)
    instruments, checks = list(contents.instruments), list(contents.checks)
    corrections, fairness = list(contents.corrections), _fairness(contents)
    scatters = {(k.attribute, k.instrument_id): k.pooled for k in contents.scatters}
    doubted = in_doubt(brackets(readings, checks, corrections, instruments))
    within = correction_half_widths(checks, corrections, instruments)
    unsealed = [reading for reading in readings if reading.id not in fairness.sealed]
    pictures = picture_doubts(unsealed, contents.micrographs, contents.answers)
    findings = findings_of(
        lineup, contents.sequence, unsealed, instruments, scatters, within, pictures
    )
    figures = all_figures(lineup, findings)
    verdict = judge(
        lineup.specimens, findings, figures, contents.rules, contents.sequence, in_doubt=doubted
    )
    remarks = {(r.component, r.specimen_id): r for r in contents.remarks}
    record = Record(
        lineup=lineup,
        sequence=contents.sequence,
        rules=contents.rules,
        readings=contents.readings,
        findings=findings,
        figures=figures,
        verdict=verdict,
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
        declarations=fairness.declarations,
        overruling_log=fairness.overruling_log,
        set_ups=contents.set_ups,
        micrographs=contents.micrographs,
        answers=contents.answers,
    )
    return _with_ranks(record)


def _with_ranks(record: Record) -> Record:
    """Return a record with the ranks under the purpose that stands declared."""
    standing = standing_declaration(record.declarations)
    if standing is None or standing.purpose is None:
        return record
    from benchlog.judge.ranking import ranking_of  # noqa: PLC0415 - loads numpy, seldom needed

    ranking = ranking_of(standing.purpose, record.rules, evidence_of(record))
    return replace(record, declared=DeclaredRanks(standing, ranking))


def evidence_of(record: Record) -> Evidence:
    """Return what a record knows, as it is judged by."""
    return Evidence(
        record.findings, record.figures, record.sequence, record.lineup.specimens, record.in_doubt
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
        declarations=contents.declarations,
        overruling_log=contents.overrulings,
    )


def _digest(contents: Contents, remarks: dict[tuple[str, str], Remark], fairness: Fairness) -> str:
    """Return the digest of all that the record is made from."""
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
        *picture_marks(contents.set_ups, contents.micrographs, contents.answers),
    )


def findings_of(
    lineup: Lineup,
    sequence: Sequence,
    readings: list[Reading],
    instruments: Iterable[Instrument],
    scatter: Scatters | None = None,
    corrections: Mapping[str, float] | None = None,
    pictures: Mapping[str, PictureDoubt] | None = None,
) -> Findings:
    """Return what the readings of every asked slot come to; an open slot is 'not measured'.

    `corrections` are the half-widths within which group corrections are known, by their ids;
    `pictures` the doubt in every reading that a picture made.
    """
    copied = frozenset(a.key for a in sequence.attributes if a.copied)
    observer = Observer(
        instruments,
        scatter=scatter,
        corrections=corrections,
        as_said=copied,
        pictures=pictures,
        fields=spreads_of(readings, sequence, pictures) if pictures else None,
    )
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
