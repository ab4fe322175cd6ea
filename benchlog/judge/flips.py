"""What would change an award: the smallest change that would flip it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, fsum

from benchlog.judge.award_words import called, pair_score, points
from benchlog.judge.comparisons import Comparison, Ring, nominals
from benchlog.judge.differences import Difference, difference
from benchlog.judge.evidence import Evidence
from benchlog.judge.groups import expanded_between
from benchlog.judge.piecewise import place_of, value_at
from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.judge.value_functions import Worth, in_unit, middle, uncertainty
from benchlog.measure.units import unit_symbol

TOP = 10.0


@dataclass(frozen=True)
class Change:
    """One value that would do it: in words, and how big a change that is (0 to 1)."""

    words: str
    size: float


def flip_of_lead(pairs: Sequence[Comparison], ring: Ring, evidence: Evidence) -> str:
    """Say what would bring the narrowest of some leads inside its limits."""
    pair = min(pairs, key=lambda p: abs(p.gap) - p.needed)
    spare = abs(pair.gap) - pair.needed
    name = called(ring.party(pair.behind), evidence)
    change = _smallest_change(_Wanted(pair, pair.behind, spare), ring, evidence)
    alone = f"{change.words}, or " if change else ""
    return (
        f"{alone}{_so_many_points(spare)} more for {name} would make "
        f"{called(ring.party(pair.ahead), evidence)} and {name} too close to call."
    )


def flip_of_tie(pairs: Sequence[Comparison], ring: Ring, evidence: Evidence) -> str:
    """Say what would put one of a tie clearly ahead of another."""
    pair = min(pairs, key=lambda p: p.needed - abs(p.gap))
    leader, other = (pair.first, pair.second) if pair.gap >= 0 else (pair.second, pair.first)
    short = max(pair.needed - abs(pair.gap), 0.0)
    changes = (
        _smallest_change(_Wanted(pair, one, short, apart=True, worse=one == other), ring, evidence)
        for one in (leader, other)
    )
    change = min(filter(None, changes), key=lambda one: round(one.size, 9), default=None)
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


@dataclass(frozen=True)
class _Wanted:
    """A gain of `points` in the score of `specimen` within a pair; a loss with `worse`.

    With `apart`, the changed value has to differ clearly from the other's as well; without, it
    is enough that the only value that decided no longer does.
    """

    pair: Comparison
    specimen: str
    points: float
    apart: bool = False
    worse: bool = False

    def reached(self, value: float, target: float) -> bool:
        """Whether a value is worth what was wanted of it, or goes beyond."""
        return value <= target + 1e-9 if self.worse else value >= target - 1e-9

    @property
    def other(self) -> str:
        """The one that it is compared with."""
        return self.pair.second if self.specimen == self.pair.first else self.pair.first


def _smallest_change(wanted: _Wanted, ring: Ring, evidence: Evidence) -> Change | None:
    """Return the smallest change of a single value that does what is wanted, None if none can."""
    if len(ring.party(wanted.specimen)) > 1:
        return None  # no single reading stands for several specimens
    total = fsum(entry.weight for entry in wanted.pair.basis)
    found = []
    for entry in wanted.pair.basis:
        worth = ring.worths[wanted.specimen][entry.subject]
        if not isinstance(worth, Worth):
            continue
        now = middle(worth.nominal)
        step = wanted.points * total / entry.weight
        target = now - step if wanted.worse else now + step
        change = _change(entry, now, target, wanted, evidence)
        if change is not None:
            found.append(change)
    return min(found, key=lambda change: change.size, default=None)


def _change(
    entry: AttributeRule, now: float, target: float, wanted: _Wanted, evidence: Evidence
) -> Change | None:
    outcome = evidence.outcome(entry.subject, wanted.specimen)
    whose = f"{evidence.nickname(wanted.specimen)}'s {evidence.label_within(entry.subject)}"
    if entry.kind is not ValueKind.PIECEWISE:
        moved = [r for r in entry.ranks if wanted.reached(r.value, target)]
        moved = [r for r in moved if (r.value < now if wanted.worse else r.value > now)]
        rank = min(moved, key=lambda r: abs(r.value - now), default=None)
        if rank is None or outcome.word is None:
            return None
        new, old = (evidence.word_label(entry.subject, w) for w in (rank.key, outcome.word))
        return Change(f"{whose} '{new}' instead of '{old}'", abs(rank.value - now) / TOP)
    if outcome.quantity is None:
        return None
    at = middle(in_unit(outcome.quantity, entry.unit))
    place = _place(entry, at, target, wanted, evidence)
    if place is None:
        return None
    if evidence.is_count(entry.subject):
        place = float(ceil(place - 1e-9) if place > at else floor(place + 1e-9))
    span = entry.anchors[-1].at - entry.anchors[0].at
    return Change(f"{whose} {_moved(entry, at, place)}", abs(place - at) / span)


def _moved(entry: AttributeRule, at: float, place: float) -> str:
    """Say from where to where a number has to move, to four digits."""
    symbol = unit_symbol(entry.unit)
    now, then, sign = f"{at:.4g}", f"{place:.4g}", f" {symbol}" if symbol else ""
    if now != then:
        return f"at {then} instead of {now}{sign}"
    hair = 1e-6 * (entry.anchors[-1].at - entry.anchors[0].at)
    rises = value_at(entry.anchors, at + hair) > value_at(entry.anchors, at - hair)
    return f"a hair {'above' if rises else 'below'} {now}{sign}"


def _place(
    entry: AttributeRule, at: float, target: float, wanted: _Wanted, evidence: Evidence
) -> float | None:
    """Return the nearest number that does what is wanted, None where the anchors end before."""
    place = place_of(entry.anchors, target, at) if target <= TOP else None
    gap = difference(entry, wanted.specimen, wanted.other, evidence)
    if wanted.apart:
        return None if place is None else _moved_apart(wanted, entry, at, (place, target), gap)
    if wanted.pair.deciding != (entry,) or gap.gap is None:
        return place
    limit = max(gap.expanded, gap.meaningful)
    nearer = at - gap.gap + (limit if gap.gap > 0 else -limit)
    return nearer if place is None or abs(nearer - at) < abs(place - at) else place


def _moved_apart(
    wanted: _Wanted,
    entry: AttributeRule,
    at: float,
    aim: tuple[float, float],
    gap: Difference,
) -> float | None:
    """Move a place on until it differs clearly from the other's, if it is worth as much there."""
    if gap.gap is None:
        return None
    place, target = aim
    limit = max(gap.expanded, gap.meaningful)
    other = at - gap.gap
    if abs(place - other) > limit:
        return place
    further = [other + side * limit for side in (1, -1)]
    good = [p for p in further if wanted.reached(value_at(entry.anchors, p), target)]
    return min(good, key=lambda p: abs(p - at), default=None)
