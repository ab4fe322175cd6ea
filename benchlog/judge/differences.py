"""Whether two specimens differ in one attribute or figure, and who stands clear in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from benchlog.derive.figure import Figure
from benchlog.judge.chance import expanded_gap
from benchlog.judge.comparability import unlike
from benchlog.judge.evidence import Evidence, Outcome
from benchlog.judge.rules import AttributeRule, Rules
from benchlog.judge.rules_within import asked_in
from benchlog.judge.value_functions import in_unit, middle
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
    """How two specimens stand to each other in one subject.

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
    """All pairs in one subject, and the specimens that differ from every other compared one."""

    subject: str
    component: Component
    pairs: tuple[Difference, ...]
    clear: tuple[str, ...]


def exceeds(gap: float, *limits: float) -> bool:
    """Whether a gap is beyond every limit; being on a limit is not beyond it."""
    return all(gap > limit + ROUNDING_NOISE * max(abs(limit), abs(gap), 1e-12) for limit in limits)


def difference(rule: AttributeRule, first: str, second: str, evidence: Evidence) -> Difference:
    """Compare two specimens in one subject.

    Numbers differ when the gap exceeds both its expanded uncertainty (JCGM 100, 5.2: what the two
    readings share cancels; see `chance`) and the rule's meaningful difference. Estimates between
    bounds differ when, besides, their intervals do not meet. Words differ when they are not the
    same.
    """
    mine, yours = (evidence.outcome(rule.subject, s) for s in (first, second))
    refused = _refusal(rule, (first, second), (mine, yours), evidence)
    if refused:
        return Difference(rule.subject, first, second, False, refused=refused)
    if mine.quantity is None or yours.quantity is None:
        return Difference(rule.subject, first, second, mine.word != yours.word)
    unit = rule.unit or str(mine.quantity.units)
    a, b = in_unit(mine.quantity, unit), in_unit(yours.quantity, unit)
    gap, expanded = middle(a) - middle(b), expanded_gap(a - b, len(evidence.specimens))
    if mine.bounded or yours.bounded:
        upper, lower = (mine, yours) if gap > 0 else (yours, mine)
        expanded = max(expanded, abs(gap) - _clear_space(upper, lower, unit))
    limit = rule.meaningful
    if rule.meaningful_is_share:
        limit *= min(abs(middle(a)), abs(middle(b)))
    differs = exceeds(abs(gap), expanded, limit)
    return Difference(rule.subject, first, second, differs, gap, expanded, limit, unit)


def _clear_space(upper: Outcome, lower: Outcome, unit: str) -> float:
    """Return how much lies between the bounds of two estimates, below zero where they meet."""
    return _end(upper, upper.low, unit) - _end(lower, lower.high, unit)


def _end(outcome: Outcome, end: float | None, unit: str) -> float:
    quantity = outcome.quantity
    assert quantity is not None
    if end is None:
        return middle(in_unit(quantity, unit))
    return float(in_unit(registry().Quantity(end, quantity.units), unit))


def _refusal(
    rule: AttributeRule,
    pair: tuple[str, str],
    outcomes: tuple[Outcome, Outcome],
    evidence: Evidence,
) -> str:
    for specimen, outcome in zip(pair, outcomes, strict=True):
        if outcome.quantity is None and outcome.word is None:
            return f"{evidence.nickname(specimen)} has no value: {outcome.why_not.rstrip('.')}"
    if (outcomes[0].quantity is None) != (outcomes[1].quantity is None):
        return "one answer is a number and the other a word"
    return unlike(rule.subject, *pair, evidence)


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
    ids = tuple(s.id for s in specimens)
    entries = asked_in(rules, sequence).entries
    return tuple(_standing(rule, ids, evidence) for rule in entries)


def _standing(rule: AttributeRule, ids: tuple[str, ...], evidence: Evidence) -> AttributeStanding:
    pairs = tuple(difference(rule, a, b, evidence) for a, b in combinations(ids, 2))
    compared = [pair for pair in pairs if not pair.refused]
    clear = []
    for specimen in ids:
        own = [pair for pair in compared if specimen in (pair.first, pair.second)]
        if own and all(pair.differs for pair in own):
            clear.append(specimen)
    return AttributeStanding(rule.subject, rule.component, pairs, tuple(clear))
