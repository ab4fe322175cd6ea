"""The smallest change of one value that would bring a pair of a component out otherwise.

Places are proposed in closed form and then tried: the pair is compared anew with the changed
value, so that a flat piece of a value function, an uncertainty that changes with the slope, or a
limit that goes with the value never makes the sentence untrue.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import ceil, floor, fsum
from typing import Any

from benchlog.judge.comparisons import Comparison, Ring, compare_pair
from benchlog.judge.differences import difference
from benchlog.judge.evidence import Evidence, Outcome
from benchlog.judge.piecewise import places_of, value_at
from benchlog.judge.rules import AttributeRule, Rules, ValueKind
from benchlog.judge.value_functions import Worth, in_unit, middle, worth_of
from benchlog.measure.units import registry, unit_symbol

TOP = 10.0
HAIR = 1e-4
"""How far beyond a place a value is tried, as a share of the anchors' span: no reader sees it."""

HALVINGS = 12


@dataclass(frozen=True)
class Change:
    """One value that would do it: in words, and how big a change that is (0 to 1)."""

    words: str
    size: float


@dataclass(frozen=True)
class Wanted:
    """What one value of `specimen` is to do to a pair, by its gain of so many `points` or more.

    With `worse` it is a loss. With `apart`, the better of the two is to come clearly ahead;
    without it, the one behind is to be clearly behind nobody any longer.
    """

    pair: Comparison
    specimen: str
    points: float
    apart: bool = False
    worse: bool = False

    @property
    def other(self) -> str:
        """The one that it is compared with."""
        return self.pair.second if self.specimen == self.pair.first else self.pair.first


@dataclass(frozen=True)
class Trial:
    """All that a changed value is tried in."""

    wanted: Wanted
    ring: Ring
    rules: Rules
    evidence: Evidence

    def does(self, entry: AttributeRule, outcome: Outcome) -> bool:
        """Whether another outcome of the specimen does what is wanted."""
        wanted = self.wanted
        worth = worth_of(entry, outcome)
        if not isinstance(worth, Worth):
            return False
        evidence = self.evidence.with_outcome(entry.subject, wanted.specimen, outcome)
        own = {**self.ring.worths[wanted.specimen], entry.subject: worth}
        ring = replace(self.ring, worths={**self.ring.worths, wanted.specimen: own})

        def ahead(pair: Comparison) -> str:
            both = pair.first, pair.second
            if wanted.specimen not in both:
                return pair.ahead
            return compare_pair(ring, pair.basis, both, self.rules, evidence).ahead

        if wanted.apart:
            return ahead(wanted.pair) == (wanted.other if wanted.worse else wanted.specimen)
        beating = [p for p in self.ring.compared if p.behind == wanted.pair.behind]
        return all(ahead(pair) in ("", pair.behind) for pair in beating)


def smallest_change(
    wanted: Wanted, ring: Ring, rules: Rules, evidence: Evidence, most: float = 1.0
) -> Change | None:
    """Return the smallest change of a single value that does what is wanted, None if none can.

    None larger than `most` is looked for.
    """
    if len(ring.party(wanted.specimen)) > 1:
        return None  # no single reading stands for several specimens
    trial = Trial(wanted, ring, rules, evidence)
    best = None
    for entry in wanted.pair.basis:
        change = _change(entry, trial, most)
        if change is not None and (best is None or change.size < best.size):
            best, most = change, change.size
    return best


def _change(entry: AttributeRule, trial: Trial, most: float) -> Change | None:
    outcome = trial.evidence.outcome(entry.subject, trial.wanted.specimen)
    if entry.kind is ValueKind.PIECEWISE:
        return _of_number(entry, outcome, trial, most)
    return _of_word(entry, outcome, trial, most)


def _of_word(entry: AttributeRule, outcome: Outcome, trial: Trial, most: float) -> Change | None:
    worth = trial.ring.worths[trial.wanted.specimen][entry.subject]
    if outcome.word is None or not isinstance(worth, Worth):
        return None
    now, worse = middle(worth.nominal), trial.wanted.worse
    moved = [r for r in entry.ranks if (r.value < now if worse else r.value > now)]
    moved = [r for r in moved if abs(r.value - now) / TOP <= most]
    for rank in sorted(moved, key=lambda r: abs(r.value - now)):
        if trial.does(entry, replace(outcome, word=rank.key)):
            words = (trial.evidence.word_label(entry.subject, w) for w in (rank.key, outcome.word))
            new, old = words
            said = f"{_whose(entry, trial)} '{new}' instead of '{old}'"
            return Change(said, abs(rank.value - now) / TOP)
    return None


def _of_number(entry: AttributeRule, outcome: Outcome, trial: Trial, most: float) -> Change | None:
    if outcome.quantity is None:
        return None
    at = middle(in_unit(outcome.quantity, entry.unit))
    span = entry.anchors[-1].at - entry.anchors[0].at
    place = _nearest(entry, outcome, at, trial, most * span)
    if place is None:
        return None
    return Change(f"{_whose(entry, trial)} {_moved(entry, at, place)}", abs(place - at) / span)


def _nearest(
    entry: AttributeRule, outcome: Outcome, at: float, trial: Trial, reach: float
) -> float | None:
    """Return the nearest place within `reach` that does it.

    Where scores or values come to a limit by closed form is proposed first of all; where that
    fails, as an uncertainty went with the slope, the ends of the straight pieces are, and what
    does it there is brought as near as it still does.
    """
    exact = tuple(_by_closed_form(entry, at, trial))
    span = entry.anchors[-1].at - entry.anchors[0].at
    ends = (at - span, at + span, *(anchor.at for anchor in entry.anchors))

    def does(place: float) -> bool:
        beyond = _beyond(place, at, entry, trial)
        return trial.does(entry, _outcome_at(entry, outcome, at, beyond))

    within = (one for one in (*exact, *ends) if abs(one - at) <= reach * (1.0 + 1e-9))
    for place in sorted(within, key=lambda one: abs(one - at)):
        whole = _whole(place, at) if trial.evidence.is_count(entry.subject) else place
        if whole != at and does(whole):
            return whole if place in exact else _brought_near(whole, at, entry, trial, does)
    return None


def _by_closed_form(entry: AttributeRule, at: float, trial: Trial) -> Iterator[float]:
    """Yield where the score, and where the values, come to a limit of the pair."""
    wanted = trial.wanted
    step = wanted.points * fsum(one.weight for one in wanted.pair.basis) / entry.weight
    yield from places_of(
        entry.anchors, value_at(entry.anchors, at) + (-step if wanted.worse else step)
    )
    gap = difference(entry, wanted.specimen, wanted.other, trial.evidence)
    if gap.gap is not None:
        limit = max(gap.expanded, gap.meaningful)
        yield from (at - gap.gap + limit, at - gap.gap - limit)


def _brought_near(
    place: float, at: float, entry: AttributeRule, trial: Trial, does: Callable[[float], bool]
) -> float:
    if trial.evidence.is_count(entry.subject):
        return place
    fails = at
    for _ in range(HALVINGS):
        between = (fails + place) / 2
        if does(between):
            place = between
        else:
            fails = between
    return place


def _beyond(place: float, at: float, entry: AttributeRule, trial: Trial) -> float:
    """Return a place a hair further on: on a limit nothing is beyond it. Counts stay whole."""
    if trial.evidence.is_count(entry.subject):
        return place
    hair = HAIR * (entry.anchors[-1].at - entry.anchors[0].at)
    return place + (hair if place > at else -hair)


def _whole(place: float, at: float) -> float:
    return float(ceil(place - 1e-9) if place > at else floor(place + 1e-9))


def _outcome_at(entry: AttributeRule, outcome: Outcome, at: float, place: float) -> Outcome:
    """Return an outcome moved to another place, as sure as before."""
    quantity: Any = outcome.quantity
    moved = registry().Quantity(in_unit(quantity, entry.unit) + (place - at), entry.unit)
    moved = moved.to(quantity.units)
    shift = middle(moved.magnitude) - middle(quantity.magnitude)
    ends = (None if end is None else end + shift for end in (outcome.low, outcome.high))
    low, high = ends
    return replace(outcome, quantity=moved, low=low, high=high)


def _moved(entry: AttributeRule, at: float, place: float) -> str:
    """Say from where to where a number has to move, to four digits."""
    symbol = unit_symbol(entry.unit)
    now, then, sign = f"{at:.4g}", f"{place:.4g}", f" {symbol}" if symbol else ""
    if now != then:
        return f"at {then} instead of {now}{sign}"
    return f"a hair {'above' if place >= at else 'below'} {now}{sign}"


def _whose(entry: AttributeRule, trial: Trial) -> str:
    evidence = trial.evidence
    return f"{evidence.nickname(trial.wanted.specimen)}'s {evidence.label_within(entry.subject)}"
