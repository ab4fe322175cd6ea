"""Gather past awards from the shelf and see whether they lean."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from benchlog.judge.bias import (
    BiasCheck,
    Lean,
    PastAward,
    PastLineup,
    PastSpecimen,
    Side,
    bias_check,
)
from benchlog.judge.scores import scoring
from benchlog.judge.verdict import Award, AwardKind
from benchlog.measure.reading import standing
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.judge_blind import judged_by_eye
from benchlog.tasks.ports import Progress, Shelf
from benchlog.tasks.record import Record
from benchlog.trade.sequence_file import load_sequence
from benchlog.trade.specimen import Paid

GIVEN = (Paid.GIVEN_BY_MAKER, Paid.GIVEN_BY_SELLER)
"""Given by somebody who gains by a win; a viewer's or lent filter is neither given nor bought."""


def check_bias(shelf: Shelf, progress: Progress | None = None) -> BiasCheck:
    """Return how the awards of every line-up on the shelf lean; rehearsals are left out."""
    briefs = [b for b in shelf.lineups() if not b.rehearsal and b.readings]
    past = []
    for done, brief in enumerate(briefs):
        if progress:
            progress.step(done, len(briefs), brief.name)
        sequence = load_sequence(shelf.lineup(brief.id).sequence)
        past.append(past_lineup(draw_up(shelf, brief.id, sequence)))
    if progress:
        progress.step(len(briefs), len(briefs), "")
    return bias_check(past)


def past_lineup(record: Record) -> PastLineup:
    """Return a record's awards as they were published, with who was given and who stood first."""
    lineup = record.lineup
    ends = (lineup.specimens[0].id, lineup.specimens[-1].id) if lineup.specimens else ("", "")
    ordered = not lineup.balanced and ends[0] != ends[1]
    specimens = tuple(
        PastSpecimen(s.id, _given(s.paid), ordered and s.id == ends[0], ordered and s.id == ends[1])
        for s in lineup.specimens
    )
    return PastLineup(lineup.id, specimens, tuple(_past(record, a) for a in record.verdict.awards))


def told(check: BiasCheck) -> dict[str, Any]:
    """Return a check as JSON takes it."""
    return {
        "lineups": check.lineups,
        "checks": [_lean_told(lean) for lean in check.leans],
        "limits": check.limits,
    }


def spoken(check: BiasCheck) -> str:
    """Return a check in sentences."""
    said = [f"{lean.question}. {lean.sentence}" for lean in check.leans]
    return "\n".join([*said, check.limits])


def _lean_told(lean: Lean) -> dict[str, Any]:
    return {
        "key": lean.key,
        "question": lean.question,
        lean.one.label: _side_told(lean.one),
        lean.other.label: _side_told(lean.other),
        "difference": asdict(lean.gap) if lean.gap else None,
        "method": lean.method,
        "enough": lean.enough,
        "leans": lean.leans,
        "sentence": lean.sentence,
    }


def _side_told(side: Side) -> dict[str, Any] | None:
    return asdict(side.share) if side.share else None


def _given(paid: Paid) -> bool | None:
    if paid in GIVEN:
        return True
    return False if paid is Paid.BOUGHT else None


def _past(record: Record, award: Award) -> PastAward:
    """Return an award as published: what the reviewer said instead stands before the rules."""
    blind = _judged_blind(record, award)
    said = record.overrulings.get(award.component)
    if said is None:
        won = award.kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS)
        return PastAward(award.winners if won else (), award.behind if won else (), blind)
    if said.kind not in (AwardKind.WINNER, AwardKind.JOINT_WINNERS):
        return PastAward((), (), blind)
    behind = tuple(s.id for s in record.lineup.specimens if s.id not in said.winners)
    return PastAward(said.winners, behind, blind)


def _judged_blind(record: Record, award: Award) -> bool | None:
    """Whether all that the eye judged of what counts was judged blind, or none of it."""
    if award.kind in (AwardKind.NOT_JUDGED, AwardKind.DIFFERENT):
        return None
    scored = {rule.subject for rule in scoring(record.rules, award.component)}
    by_eye = {a.key for a in judged_by_eye(record.lineup, record.sequence)} & scored
    ways: dict[tuple[str, str], bool] = {}
    for r in standing(list(record.readings)):
        if r.attribute in by_eye and r.word is not None and r.id not in record.sealed:
            # Of one opinion given blind and one with open eyes, the blind one counts.
            place = r.attribute, r.specimen_id
            ways[place] = ways.get(place, False) or r.blind
    found = set(ways.values())
    return found.pop() if len(found) == 1 else None
