"""The award that a component shows: the rules' own, or what the reviewer says instead."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.verdict import Award, AwardKind
from benchlog.sheet.words import names
from benchlog.tasks.record import Record

NAMING = (AwardKind.WINNER, AwardKind.JOINT_WINNERS)
"""Outcomes that are told with who it is."""


@dataclass(frozen=True)
class ShownAward:
    """An outcome and the specimens that it names.

    `by_hand` tells that the rules gave another, and `why` what the reviewer says for it.
    """

    kind: AwardKind
    winners: tuple[str, ...]
    by_hand: bool = False
    why: str = ""


def shown_award(record: Record, award: Award) -> ShownAward:
    """Return what the front page shows for an award of the rules."""
    said = record.overrulings.get(award.component)
    if said is None or said.kind is None:
        return ShownAward(award.kind, award.winners)
    return ShownAward(said.kind, said.winners, by_hand=True, why=said.reason)


def outcome_words(record: Record, shown: ShownAward | Award) -> str:
    """Return an outcome with whom it names: "winner: Amber", "tie"."""
    who = names(record, shown.winners) if shown.kind in NAMING else ""
    return f"{shown.kind.value}: {who}" if who else shown.kind.value


def overruled_line(record: Record) -> str:
    """Return how many awards were overruled, "" when none was."""
    awards = record.verdict.awards
    count = sum(shown_award(record, award).by_hand for award in awards)
    if not count:
        return ""
    verb = "was" if count == 1 else "were"
    return (
        f"{count} of {len(awards)} outcomes {verb} overruled by the reviewer; the pages on why "
        "show both, with the reason."
    )
