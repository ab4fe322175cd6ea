"""What would change an award: the smallest change that would flip it."""

from __future__ import annotations

from collections.abc import Sequence

from benchlog.judge.award_words import called, pair_score, points
from benchlog.judge.comparisons import Comparison, Ring, nominals
from benchlog.judge.evidence import Evidence
from benchlog.judge.groups import expanded_between
from benchlog.judge.rules import AttributeRule, Rules
from benchlog.judge.single_changes import TOP, Change, Wanted, smallest_change
from benchlog.judge.value_functions import uncertainty


def flip_of_lead(pairs: Sequence[Comparison], ring: Ring, rules: Rules, evidence: Evidence) -> str:
    """Say what would bring the narrowest of some leads inside its limits.

    That may be more for the one behind or less for the one ahead, whichever is less of a change.
    """
    pair = min(pairs, key=lambda p: abs(p.gap) - p.needed)
    spare = abs(pair.gap) - pair.needed
    name = called(ring.party(pair.behind), evidence)
    change = _smaller(
        (Wanted(pair, pair.behind, spare), Wanted(pair, pair.ahead, spare, worse=True)),
        (ring, rules, evidence),
    )
    alone = f"{change.words}, or " if change else ""
    return (
        f"{alone}{_so_many_points(spare)} more for {name} would make "
        f"{called(ring.party(pair.ahead), evidence)} and {name} too close to call."
    )


def flip_of_tie(pairs: Sequence[Comparison], ring: Ring, rules: Rules, evidence: Evidence) -> str:
    """Say what would put one of a tie clearly ahead of another."""
    pair = min(pairs, key=lambda p: p.needed - abs(p.gap))
    leader, other = (pair.first, pair.second) if pair.gap >= 0 else (pair.second, pair.first)
    short = max(pair.needed - abs(pair.gap), 0.0)
    change = _smaller(
        (
            Wanted(pair, leader, short, apart=True),
            Wanted(pair, other, short, apart=True, worse=True),
        ),
        (ring, rules, evidence),
    )
    ahead, behind = (called(ring.party(one), evidence) for one in (leader, other))
    beaten = f"would put {ahead} clearly ahead of {behind}"
    if change:
        return f"{change.words} {beaten}."
    several = any(len(ring.party(one)) > 1 for one in (leader, other))
    alone = "" if several else "; no single value of this component could do it"
    wanted = f"{_so_many_points(short)} more for {ahead}"
    if pair_score(leader, pair, ring) + short > TOP:
        wanted = f"{_so_many_points(short)} less for {behind}"
    return f"{wanted} {beaten}{alone}."


def _smaller(both: tuple[Wanted, Wanted], where: tuple[Ring, Rules, Evidence]) -> Change | None:
    """Return the smaller change of two ways to the same, the first where they are alike."""
    first, second = both
    one = smallest_change(first, *where)
    other = smallest_change(second, *where, one.size if one else 1.0)
    if one is None or (other is not None and round(other.size, 9) < round(one.size, 9)):
        return other
    return one


def flip_of_doubt(pair: Comparison, ring: Ring, evidence: Evidence) -> str:
    """Say which readings would have to be surer."""

    def doubt(entry: AttributeRule) -> float:
        mine, yours = (
            nominals(ring.party(s), entry.subject, ring) for s in (pair.first, pair.second)
        )
        if len(mine) == len(yours) == 1:
            return entry.weight * uncertainty(mine[0] - yours[0])
        return entry.weight * expanded_between(mine, yours, len(evidence.parties))

    unsure = max(pair.basis, key=doubt)
    if any(len(ring.party(s)) > 1 for s in (pair.first, pair.second)):
        return (
            "More specimens of the part, or surer readings, above all of "
            f"{evidence.label_within(unsure.subject)}."
        )
    return f"Surer readings, above all of {evidence.label_within(unsure.subject)}."


def _so_many_points(change: float) -> str:
    return f"{points(change)} points" if change >= 0.05 else "Less than 0.1 points"
