"""Draw up the record of a line-up: gather what the shelf holds of it, and work it out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from benchlog.judge.rules import Rules
from benchlog.tasks.contents import Contents, KnownScatter
from benchlog.tasks.fairness import fairness_of
from benchlog.tasks.lock import rules_in_force
from benchlog.tasks.pooled import pooled_scatter
from benchlog.tasks.ports import Remark, Shelf
from benchlog.tasks.record import Record
from benchlog.tasks.revision import placed
from benchlog.tasks.revision_lines import published_lines
from benchlog.tasks.work_out import worked_out
from benchlog.trade.attribute import Sequence


def draw_up(shelf: Shelf, lineup_id: str, sequence: Sequence, rules: Rules | None = None) -> Record:
    """Return the record of a line-up as it stands on the shelf now.

    It is judged by the rules in force unless others are given.
    """
    lineup = shelf.lineup(lineup_id)
    fairness = fairness_of(shelf, lineup, sequence)
    readings, checks = shelf.readings(lineup_id), shelf.checks(lineup_id)
    used = {r.instrument_id for r in readings} | {c.instrument_id for c in checks}
    micrographs = tuple(shelf.micrographs(lineup_id))
    taken_with = {micrograph.set_up_id for micrograph in micrographs}
    scatters = pooled_scatter(shelf, lineup, sequence, readings)
    contents = Contents(
        lineup=lineup,
        sequence=sequence,
        rules=rules or rules_in_force(shelf, lineup),
        readings=tuple(readings),
        instruments=tuple(i for i in shelf.instruments() if i.id in used),
        checks=tuple(checks),
        corrections=tuple(shelf.group_corrections(lineup_id)),
        photos=tuple(shelf.photos(lineup_id)),
        moments=tuple(shelf.moments(lineup_id)),
        remarks=tuple(latest_remarks(shelf.remarks(lineup_id)).values()),
        scatters=tuple(KnownScatter(*key, pooled) for key, pooled in scatters.items()),
        locks=fairness.locks,
        overrulings=fairness.overruling_log,
        blind_runs=fairness.blind_runs,
        reveals=fairness.reveals,
        polls=fairness.polls,
        plan_changes=fairness.plan_changes,
        cut_made=fairness.cut_made,
        declarations=fairness.declarations,
        set_ups=tuple(s for s in shelf.set_ups() if s.id in taken_with),
        micrographs=micrographs,
        answers=tuple(shelf.picture_answers(lineup_id)),
    )
    return _among_published(shelf, worked_out(contents))


def _among_published(shelf: Shelf, record: Record) -> Record:
    """Return the record with where it stands among what was published, and what that corrected."""
    published = shelf.publications(record.lineup.id)
    record = placed(record, published)
    return replace(record, revision_lines=published_lines(shelf, published, record.revision))


def latest_remarks(remarks: Iterable[Remark]) -> dict[tuple[str, str], Remark]:
    """Return the latest remark of every component and specimen; an emptied one is left out."""
    latest = {(r.component, r.specimen_id): r for r in sorted(remarks, key=lambda r: r.at)}
    return {key: remark for key, remark in latest.items() if remark.text}
