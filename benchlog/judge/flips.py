"""What would change an award: the smallest change that would flip it."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum

from benchlog.judge.award_words import points
from benchlog.judge.comparisons import Comparison, Ring
from benchlog.judge.evidence import Evidence
from benchlog.judge.piecewise import place_of
from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.judge.value_functions import Worth, in_unit, middle
from benchlog.measure.units import registry

TOP = 10.0


def flip_of_lead(pairs: Sequence[Comparison], ring: Ring, evidence: Evidence) -> str:
    """Say what would bring the narrowest of some leads inside its limits."""
    pair = min(pairs, key=lambda p: abs(p.gap) - p.needed)
    spare = abs(pair.gap) - pair.needed
    sentence = (
        f"{points_more(spare)} for {evidence.nickname(pair.behind)} would make "
        f"{evidence.nickname(pair.ahead)} and {evidence.nickname(pair.behind)} too close to call"
    )
    return _with_example(sentence, pair, pair.behind, spare, ring, evidence)


def flip_of_tie(pairs: Sequence[Comparison], ring: Ring, evidence: Evidence) -> str:
    """Say what would put one of a tie clearly ahead."""
    pair = min(pairs, key=lambda p: p.needed - abs(p.gap))
    leader = pair.first if pair.gap >= 0 else pair.second
    other = pair.second if leader == pair.first else pair.first
    short = pair.needed - abs(pair.gap)
    sentence = (
        f"{points_more(short)} for {evidence.nickname(leader)} would put it clearly ahead of "
        f"{evidence.nickname(other)}"
    )
    return _with_example(sentence, pair, leader, short, ring, evidence)


def points_more(change: float) -> str:
    """Return a change of score in words; below a tenth of a point it is 'hardly anything'."""
    return f"{points(change)} points more" if change >= 0.05 else "Less than 0.1 points more"


def _with_example(
    sentence: str,
    pair: Comparison,
    specimen: str,
    change: float,
    ring: Ring,
    evidence: Evidence,
) -> str:
    """Add the first single value of the specimen that would bring that change about."""
    total = fsum(entry.weight for entry in pair.basis)
    for entry in sorted(pair.basis, key=lambda e: (e not in pair.deciding, -e.weight, e.subject)):
        worth = ring.worths[specimen][entry.subject]
        if not isinstance(worth, Worth):
            continue
        target = middle(worth.nominal) + change * total / entry.weight
        example = _example(entry, specimen, target, evidence) if target <= TOP else ""
        if example:
            return f"{sentence}, for example {example}."
    return f"{sentence}; no single value of this component could do it."


def _example(entry: AttributeRule, specimen: str, target: float, evidence: Evidence) -> str:
    """Say which value of one entry is worth as much as the target, "" when none is."""
    outcome = evidence.outcome(entry.subject, specimen)
    label = evidence.label(entry.subject).lower()
    if entry.kind is not ValueKind.PIECEWISE:
        better = [rank for rank in entry.ranks if rank.value >= target]
        nearest = min(better, key=lambda rank: rank.value, default=None)
        if nearest is None or outcome.word is None:
            return ""
        shown = (evidence.word_label(entry.subject, w) for w in (nearest.key, outcome.word))
        return f"{label}: '{next(shown)}' instead of '{next(shown)}'"
    if outcome.quantity is None:
        return ""
    now = middle(in_unit(outcome.quantity, entry.unit))
    place = place_of(entry.anchors, target, now)
    if place is None:
        return ""
    unit = f" {unit_sign(entry.unit)}" if entry.unit else ""
    return f"{label}: {place:.3g}{unit} instead of {now:.3g}{unit}"


def unit_sign(unit: str) -> str:
    """Return a unit's short sign, as it is printed."""
    return f"{registry().Unit(unit):~P}"
