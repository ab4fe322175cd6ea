"""Whether two specimens differ in one attribute or figure, and who stands clear in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from benchlog.derive.figure import Figure
from benchlog.judge.comparability import unlike_among
from benchlog.judge.evidence import Evidence, Outcome
from benchlog.judge.groups import expanded_between, mean_of
from benchlog.judge.parties import Party
from benchlog.judge.rules import NOT_COMPARED, AttributeRule, Rules
from benchlog.judge.rules_within import asked_in
from benchlog.judge.value_functions import Number, in_unit, middle
from benchlog.measure.finding import Finding
from benchlog.measure.units import registry
from benchlog.trade.component import Component
from benchlog.trade.specimen import Specimen

if TYPE_CHECKING:
    from benchlog.trade.attribute import Sequence as Stations

ROUNDING_NOISE = 1e-9
"""A gap this close to a limit, relative to it, is on the limit: it does not exceed it."""


@dataclass(frozen=True)
class Difference:
    """How two specimens, or the parties that they stand for, stand to each other in one subject.

    `gap` is first less second, `expanded` the expanded uncertainty of that gap, `meaningful` the
    locked limit, all in `unit`; `gap` is None for words and where the comparison is `refused`.
    """

    subject: str
    first: str
    second: str
    differs: bool
    gap: float | None = None
    expanded: float = 0.0
    meaningful: float = 0.0
    unit: str = ""
    refused: str = ""


@dataclass(frozen=True)
class AttributeStanding:
    """All pairs in one subject, and the specimens that differ from every other compared one.

    Pairs are of parties, each named by its first specimen.
    """

    subject: str
    component: Component
    pairs: tuple[Difference, ...]
    clear: tuple[str, ...]


def exceeds(gap: float, *limits: float) -> bool:
    """Whether a gap is beyond every limit; being on a limit is not beyond it."""
    return all(gap > limit + ROUNDING_NOISE * max(abs(limit), abs(gap), 1e-12) for limit in limits)


def difference(rule: AttributeRule, first: str, second: str, evidence: Evidence) -> Difference:
    """Compare two specimens in one subject, or the parties that they belong to.

    Numbers differ when the gap exceeds both its expanded uncertainty (JCGM 100, 5.2: what the two
    readings share cancels; see `chance`) and the rule's meaningful difference. Estimates between
    bounds differ when, besides, their intervals do not meet. Words differ when they are not the
    same. A party counts by the mean of those of it that have a value (see `groups`), and its
    words differ from others when none of them is among those.
    """
    ids = tuple(_valued(rule.subject, evidence.party(s), evidence) for s in (first, second))
    mine, yours = (tuple(evidence.outcome(rule.subject, s) for s in side) for side in ids)
    refused = _refusal(rule, ids, (mine, yours), evidence)
    if refused:
        return Difference(rule.subject, first, second, False, refused=refused)
    if mine[0].quantity is None:
        words = ({outcome.word for outcome in side} for side in (mine, yours))
        return Difference(rule.subject, first, second, next(words).isdisjoint(next(words)))
    unit = rule.unit or str(mine[0].quantity.units)
    ours, theirs = (_numbers(rule.subject, side, unit, evidence) for side in ids)
    a, b = middle(mean_of(ours)), middle(mean_of(theirs))
    gap, expanded = a - b, expanded_between(ours, theirs, len(evidence.parties))
    if any(outcome.bounded for outcome in (*mine, *yours)):
        upper, lower = (mine, yours) if gap > 0 else (yours, mine)
        expanded = max(expanded, abs(gap) - _clear_space(upper, lower, unit))
    limit = rule.meaningful
    if rule.meaningful_is_share:
        limit *= min(abs(a), abs(b))
    differs = exceeds(abs(gap), expanded, limit)
    return Difference(rule.subject, first, second, differs, gap, expanded, limit, unit)


def _valued(subject: str, party: Party, evidence: Evidence) -> Party:
    """Return those of a party that have a value, all of it when none has."""
    outcomes = {s: evidence.outcome(subject, s) for s in party}
    return tuple(s for s, found in outcomes.items() if _has_value(found)) or party


def _has_value(outcome: Outcome) -> bool:
    return outcome.quantity is not None or outcome.word is not None


def _numbers(subject: str, party: Party, unit: str, evidence: Evidence) -> list[Number]:
    known = evidence.numbers_known
    for specimen in party:
        if (subject, specimen, unit) not in known:
            quantity = evidence.outcome(subject, specimen).quantity
            assert quantity is not None
            known[subject, specimen, unit] = in_unit(quantity, unit)
    return [known[subject, specimen, unit] for specimen in party]


def _clear_space(upper: tuple[Outcome, ...], lower: tuple[Outcome, ...], unit: str) -> float:
    """Return how much lies between the bounds of two sides, below zero where they meet."""
    floor = min(_end(outcome, outcome.low, unit) for outcome in upper)
    return floor - max(_end(outcome, outcome.high, unit) for outcome in lower)


def _end(outcome: Outcome, end: float | None, unit: str) -> float:
    quantity = outcome.quantity
    assert quantity is not None
    if end is None:
        return middle(in_unit(quantity, unit))
    return float(in_unit(registry().Quantity(end, quantity.units), unit))


def _refusal(
    rule: AttributeRule,
    sides: tuple[Party, ...],
    outcomes: tuple[tuple[Outcome, ...], ...],
    evidence: Evidence,
) -> str:
    if not rule.compared:
        return NOT_COMPARED
    if sides[0] == sides[1]:
        return "both are the same part"
    for party, found in zip(sides, outcomes, strict=True):
        if not _has_value(found[0]):
            return f"{evidence.nickname(party[0])} has no value: {found[0].why_not.rstrip('.')}"
    if len({outcome.quantity is None for found in outcomes for outcome in found}) > 1:
        return "one answer is a number and the other a word"
    return unlike_among(rule.subject, (*sides[0], *sides[1]), evidence)


def attribute_differences(
    specimens: Sequence[Specimen],
    findings: Mapping[tuple[str, str], Finding],
    figures: Mapping[tuple[str, str], Figure],
    rules: Rules,
    sequence: Stations,
    in_doubt: frozenset[str] = frozenset(),
) -> tuple[AttributeStanding, ...]:
    """Return, for every subject in the rules, how each pair stands and who stands clear."""
    evidence = Evidence(findings, figures, sequence, tuple(specimens), in_doubt)
    entries = asked_in(rules, sequence).entries
    return tuple(_standing(rule, evidence) for rule in entries)


def _standing(rule: AttributeRule, evidence: Evidence) -> AttributeStanding:
    both = combinations(evidence.parties, 2)
    pairs = tuple(difference(rule, a[0], b[0], evidence) for a, b in both)
    compared = [pair for pair in pairs if not pair.refused]
    clear: list[str] = []
    for party in evidence.parties:
        own = [pair for pair in compared if party[0] in (pair.first, pair.second)]
        if own and all(pair.differs for pair in own):
            clear += party
    return AttributeStanding(rule.subject, rule.component, pairs, tuple(clear))
