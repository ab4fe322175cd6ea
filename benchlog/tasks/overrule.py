"""Overrule an award by hand, with a reason that is printed beside what the rules gave."""

from __future__ import annotations

from benchlog.errors import PlanRefused
from benchlog.judge.overruling import Overruling
from benchlog.judge.parties import parties_of
from benchlog.judge.verdict import Award, AwardKind
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf
from benchlog.tasks.record import Record
from benchlog.trade.component import Component

ONE, SOME, ALL, NONE = "one specimen", "two or more, not all", "every specimen", "no specimen"

NAMES = {
    AwardKind.WINNER: ONE,
    AwardKind.JOINT_WINNERS: SOME,
    AwardKind.TIE: ALL,
    AwardKind.DIFFERENT: NONE,
    AwardKind.NOT_JUDGED: NONE,
    AwardKind.CANNOT_SEPARATE: NONE,
}
"""How many specimens each award names."""


def overrule(
    shelf: Shelf,
    clock: Clock,
    record: Record,
    component: Component,
    kind: AwardKind,
    winners: tuple[str, ...],
    reason: str,
) -> Overruling:
    """Set an award of the reviewer's own beside that of the rules, which stays in the verdict.

    `winners` are specimen ids, kept in bench order; of a tie all, whatever is given. Specimens of
    one part stand together: who names one of them names all, and they count as one. Raises
    PlanRefused for winners that do not fit, without a reason in words, and for what the rules, or
    the overruling that stands, say already.
    """
    award = award_of(record, component)
    named = _winners(record, kind, winners)
    said = _reason(reason)
    if (kind, set(named)) == (award.kind, set(award.winners)):
        raise PlanRefused(
            f"The rules gave this {component} just so: {kind}.",
            "Take back what you said before, or leave the award as it is.",
        )
    standing = record.overrulings.get(component)
    if standing and (standing.kind, standing.winners, standing.reason) == (kind, named, said):
        raise PlanRefused("That is what you said already.", "Change the award or the reason.")
    return _keep(shelf, clock, record, component, kind, named, said)


def take_back_overruling(
    shelf: Shelf, clock: Clock, record: Record, component: Component, reason: str = ""
) -> Overruling:
    """Let the rules' award stand again; both stay on the shelf.

    Raises PlanRefused when no overruling of the component stands.
    """
    if component not in record.overrulings:
        raise PlanRefused(f"The award of the {component} was not overruled.", "")
    return _keep(shelf, clock, record, component, None, (), reason.strip())


def award_of(record: Record, component: Component) -> Award:
    """Return what the rules gave a component; raises PlanRefused where they speak of none."""
    for award in record.verdict.awards:
        if award.component is component:
            return award
    raise PlanRefused(
        f"The rules of this line-up say nothing of the {component}.", "Choose another component."
    )


def _winners(record: Record, kind: AwardKind, winners: tuple[str, ...]) -> tuple[str, ...]:
    every = tuple(specimen.id for specimen in record.lineup.specimens)
    if not set(winners) <= set(every):
        raise PlanRefused(
            "One of these specimens is not in the line-up.", "Choose among those that are."
        )
    parties = parties_of(record.lineup.specimens)
    chosen = [p for p in parties if kind is AwardKind.TIE or not set(p).isdisjoint(winners)]
    fits = {
        ONE: len(chosen) == 1,
        SOME: 2 <= len(chosen) < len(parties),
        ALL: len(parties) > 1,
        NONE: not chosen,
    }
    if not fits[NAMES[kind]]:
        as_one = " Specimens of one part count as one." if len(parties) < len(every) else ""
        raise PlanRefused(
            f"'{kind}' names {NAMES[kind]}; {len(chosen)} of {len(parties)} are chosen.{as_one}",
            "Choose again, or another award.",
            field="winners",
        )
    return tuple(one for one in every if any(one in party for party in chosen))


def _reason(reason: str) -> str:
    said = reason.strip()
    bare = said.casefold().strip(" .,;:!?\"'“”")
    if not bare:
        raise PlanRefused(
            "Overruling an award needs its reason.",
            "Say what you saw that the rule does not; viewers will read it.",
            field="reason",
        )
    if bare in {one.value for one in AwardKind} or len(bare.split()) < 2:
        raise PlanRefused(
            f"'{said}' says what, and not why.",
            "Say what you saw that the rule does not, in a few words.",
            field="reason",
        )
    return said


def _keep(
    shelf: Shelf,
    clock: Clock,
    record: Record,
    component: Component,
    kind: AwardKind | None,
    winners: tuple[str, ...],
    reason: str,
) -> Overruling:
    made = Overruling(new_id(), record.lineup.id, component, kind, winners, reason, clock.now())
    shelf.add_overruling(made)
    return made
