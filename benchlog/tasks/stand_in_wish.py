"""A stand-in check as the reviewer asks for it: which two specimens, and what was looked up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from benchlog.errors import PlanRefused
from benchlog.measure.finding import Finding
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in import Side, StandInCheck, Told, check_stand_in
from benchlog.trade.specimen import Lineup
from benchlog.trade.stand_in import Compare, StandInLine, load_stand_in


@dataclass(frozen=True)
class StandInWish:
    """Two specimens by their ids, the handbook's part number, and answers by hand, by subject.

    `on_cards` says whether its cards go out with the others, `on_sheet` whether it has a page.
    """

    candidate: str = ""
    specified: str = ""
    handbook: str = ""
    told: Mapping[str, Told] | None = None
    on_cards: bool = False
    on_sheet: bool = False

    def answered(self, key: str, told: Told | None) -> StandInWish:
        """Return the wish with a subject answered by hand, or left open again."""
        others = {k: one for k, one in (self.told or {}).items() if k != key}
        return replace(self, told=others if told is None else {**others, key: told})


def first_wish(lineup: Lineup) -> StandInWish:
    """Return the wish to begin with: the second specimen in the place of the first.

    Raises PlanRefused where there are no two to hold against each other.
    """
    if len(lineup.specimens) < 2:
        raise PlanRefused(
            "A stand-in check needs two specimens.",
            "Put the candidate and the specified filter into one line-up.",
        )
    one, other = lineup.specimens[:2]
    return StandInWish(candidate=other.id, specified=one.id)


def wish_for(lineup: Lineup, kept: StandInWish | None) -> StandInWish:
    """Return what was asked before, as far as its specimens are still there; else the first."""
    here = {one.id for one in lineup.specimens}
    if kept is not None and {kept.candidate, kept.specified} <= here:
        return kept
    return first_wish(lineup)


def by_hand(record: Record) -> tuple[StandInLine, ...]:
    """Return the lines of this kind of filter that no reading answers."""
    return tuple(
        line
        for line in load_stand_in(record.sequence.key)
        if any(one.compare is Compare.BY_HAND for one in line.subjects)
    )


def sides_of(record: Record, wish: StandInWish) -> tuple[Side, Side]:
    """Return candidate and specified filter with what was found of them.

    Raises PlanRefused for a specimen held against itself, and for one that is not there.
    """
    if wish.candidate == wish.specified:
        raise PlanRefused("A filter cannot stand in for itself.", "Choose two different specimens.")
    return _side(record, wish.candidate), _side(record, wish.specified)


def stand_in_of(record: Record, wish: StandInWish) -> StandInCheck:
    """Hold the candidate against the specified filter; raises PlanRefused as its parts do."""
    candidate, specified = sides_of(record, wish)
    return check_stand_in(candidate, specified, record.sequence, wish.handbook, wish.told)


def _side(record: Record, specimen_id: str) -> Side:
    specimen = next((s for s in record.lineup.specimens if s.id == specimen_id), None)
    if specimen is None:
        raise PlanRefused("One of the two specimens is gone.", "Choose two of the line-up.")
    found: dict[str, Finding] = {
        key: one for (key, whose), one in record.findings.items() if whose == specimen_id
    }
    return Side(specimen.nickname, found)
