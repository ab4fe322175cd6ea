"""What would change an award: the smallest change of the rules that would flip it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum
from math import ceil, floor, fsum, log10

from benchlog.judge.award_words import called_all
from benchlog.judge.comparisons import Ring, ring_of
from benchlog.judge.evidence import Evidence
from benchlog.judge.outcomes import Outlook, Result, asked_of
from benchlog.judge.rules import AttributeRule, Rules
from benchlog.judge.verdict import Award, AwardKind, Score
from benchlog.measure.units import unit_symbol

TOP = 10.0
STEPS, HALVINGS = 12, 10
LARGEST_SHARE = 0.95
SMALLEST_SHARE = 0.01


class Knob(StrEnum):
    """What of the rules is changed."""

    SCORE = "difference in score"
    MEANINGFUL = "difference in a value"
    WEIGHT = "weight"


@dataclass(frozen=True)
class RuleChange:
    """One change of one number of the rules, and what the award would be then.

    `now` and `then` are points for SCORE, the rule's unit or share for MEANINGFUL, and the share
    of the component's weight for WEIGHT. `size` is how big a change that is, 0 to 1.
    """

    knob: Knob
    entry: AttributeRule | None
    now: float
    then: float
    size: float
    result: Result


def award_under_rules(
    award: Award, scores: Iterable[Score], rules: Rules, evidence: Evidence
) -> str:
    """Say the smallest changes of the rules that would change an award, "" where none was scored.

    `scores` are those of all components, `rules` as they are asked in the sequence.
    """
    own = [score for score in scores if score.component is award.component]
    if award.kind in (AwardKind.NOT_JUDGED, AwardKind.DIFFERENT) or not any(s.counted for s in own):
        return ""
    judged = tuple(score.specimen_id for score in own if score.value is not None)
    ring = ring_of(award.component, judged, rules, evidence)
    return rules_sentence(ring, rules, evidence) if ring.compared else ""


def rules_sentence(ring: Ring, rules: Rules, evidence: Evidence) -> str:
    """Say the smallest change of a difference that counts, and of a weight, that would do it."""
    changes = rule_changes(ring, rules, evidence)
    if not changes:
        return "No other difference that counts, and no other weight alone, would change this."
    return " ".join(_said(change, ring, evidence) for change in changes)


def rule_changes(ring: Ring, rules: Rules, evidence: Evidence) -> tuple[RuleChange, ...]:
    """Return the smallest change of a difference that counts and of a weight, those there are.

    Differences that count change exactly where the outcome does. Weights are tried in steps
    between 1 and 95 % of the component, one weight at a time with the others in proportion, as
    long as the same specimens and pairs have values enough to be judged.
    """
    outlook = Outlook(ring, rules, evidence)
    limits = [*_score_changes(outlook), *_value_changes(outlook)]
    weights = [c for entry in ring.entries for c in _weight_changes(entry, outlook)]
    smallest = (min(found, key=lambda c: c.size, default=None) for found in (limits, weights))
    return tuple(change for change in smallest if change is not None)


def _score_changes(outlook: Outlook) -> Iterable[RuleChange]:
    now = outlook.rules.meaningful_score
    places = {abs(pair.gap) for pair in outlook.pairs} | {p.expanded for p in outlook.pairs}
    for place in places:
        then = _past(place, now)
        result = outlook.under_score(then)
        if result != outlook.now and then <= TOP:
            yield RuleChange(Knob.SCORE, None, now, then, abs(then - now) / TOP, result)


def _value_changes(outlook: Outlook) -> Iterable[RuleChange]:
    for entry in outlook.ring.entries:
        for pair in outlook.pairs:
            for lead in pair.leads:
                gap = lead.difference
                if lead.entry != entry or gap is None or gap.gap is None:
                    continue
                unit = asked_of(entry, gap)
                if not unit:
                    continue
                then = _past(abs(gap.gap) / unit, entry.meaningful)
                result = outlook.under_meaningful(entry, then)
                if result != outlook.now:
                    size = abs(then - entry.meaningful) / _span(entry)
                    yield RuleChange(Knob.MEANINGFUL, entry, entry.meaningful, then, size, result)


def _span(entry: AttributeRule) -> float:
    if entry.meaningful_is_share or len(entry.anchors) < 2:
        return 1.0
    return entry.anchors[-1].at - entry.anchors[0].at


def _weight_changes(entry: AttributeRule, outlook: Outlook) -> Iterable[RuleChange]:
    others = fsum(e.weight for e in outlook.ring.entries if e != entry)
    if not others:
        return
    now = entry.weight / (entry.weight + others)

    def under(share: float) -> Result | None:
        return outlook.under_weight(entry, others * share / (1.0 - share))

    for end in (SMALLEST_SHARE, LARGEST_SHARE):
        found = _first_change(now, end, under, outlook.now)
        if found is not None:
            then, result = found
            yield RuleChange(Knob.WEIGHT, entry, now, then, abs(then - now), result)


def _first_change(
    now: float, end: float, under: Callable[[float], Result | None], same: Result
) -> tuple[float, Result] | None:
    """Return the nearest share towards `end` under which the outcome is another."""
    before = now
    for step in range(1, STEPS + 1):
        share = now + (end - now) * step / STEPS
        result = under(share)
        if result is None:
            return None
        if result != same:
            break
        before = share
    else:
        return None
    for _ in range(HALVINGS):
        between = (before + share) / 2
        if under(between) == same:
            before = between
        else:
            share = between
    # As it is printed: whole tenths of a per cent, on the far side.
    shown = (ceil if end > now else floor)(1000.0 * share) / 1000.0
    result = under(shown)
    return (shown, result) if result is not None and result != same else None


def _past(place: float, now: float) -> float:
    """Return the nearest number of three digits on the other side of a place than `now`.

    At the place itself nothing is beyond it, so that a limit raised to it is high enough and one
    lowered to it is not yet low enough.
    """
    if place <= 0.0:
        return 0.0
    step = 10.0 ** (floor(log10(place)) - 2)
    if place >= now:
        return ceil(place / step - 1e-9) * step
    steps = floor(place / step)
    return (steps - 1 if place - steps * step <= 1e-6 * place else steps) * step


def _said(change: RuleChange, ring: Ring, evidence: Evidence) -> str:
    outcome = _outcome_said(change.result, ring, evidence)
    if change.knob is Knob.WEIGHT and change.entry is not None:
        label = evidence.label(change.entry.subject)
        shares = f"{100 * change.then:.1f} % of the weight, instead of {100 * change.now:.1f} %"
        return f"{label} at {shares}, would make {outcome}."
    what, factor, sign = "score", 1.0, "points"
    if change.entry is not None:
        what = evidence.label_within(change.entry.subject)
        sign = unit_symbol(change.entry.unit) if change.entry.unit else ""
        if change.entry.meaningful_is_share:
            factor, sign = 100.0, "%"
    then, now = (f"{factor * size:.3g}" for size in (change.then, change.now))
    sizes = f"beyond {then} {sign}".rstrip()
    return f"Counting differences in {what} {sizes}, instead of {now}, would make {outcome}."


def _outcome_said(result: Result, ring: Ring, evidence: Evidence) -> str:
    who = called_all(result.winners, ring, evidence)
    return {
        AwardKind.WINNER: f"{who} the winner",
        AwardKind.JOINT_WINNERS: f"{who} joint winners",
        AwardKind.TIE: "this a tie",
        AwardKind.CANNOT_SEPARATE: "this one that the readings cannot separate",
        AwardKind.NOT_JUDGED: "this one in which nobody stands ahead",
    }[result.kind]
