"""Whether two specimens differ in one attribute or figure, and who stands clear in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from statistics import NormalDist
from typing import TYPE_CHECKING

from benchlog.derive.figure import Figure
from benchlog.judge.comparability import unlike
from benchlog.judge.evidence import Evidence, Outcome
from benchlog.judge.rules import AttributeRule, Rules
from benchlog.judge.rules_within import asked_in
from benchlog.judge.value_functions import in_unit, middle, uncertainty
from benchlog.measure.finding import Finding
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


def coverage_factor(specimens: int) -> float:
    """Return k for the pairs among so many specimens (Bonferroni on the normal quantile).

    One pair has k = 2, a two-sided level of about 4.6 %. More pairs share that same level
    between them, so that the chance of any false difference in the whole comparison stays below
    it. Source: Bonferroni's inequality; k = 2 as in JCGM 100, 6.2 (from memory).
    """
    pairs = max(specimens * (specimens - 1) // 2, 1)
    normal = NormalDist()
    return normal.inv_cdf(1 - (1 - normal.cdf(2.0)) / pairs)


def exceeds(gap: float, *limits: float) -> bool:
    """Whether a gap is beyond every limit; being on a limit is not beyond it."""
    return all(gap > limit + ROUNDING_NOISE * max(abs(limit), abs(gap), 1e-12) for limit in limits)


def difference(
    rule: AttributeRule, first: str, second: str, evidence: Evidence, k: float
) -> Difference:
    """Compare two specimens in one subject.

    Numbers differ when the gap exceeds both `k` times its standard uncertainty (JCGM 100, 5.2:
    what the two readings share cancels) and the rule's meaningful difference. Words differ when
    they are not the same.
    """
    mine, yours = (evidence.outcome(rule.subject, s) for s in (first, second))
    refused = _refusal(rule, (first, second), (mine, yours), evidence)
    if refused:
        return Difference(rule.subject, first, second, False, refused=refused)
    if mine.quantity is None or yours.quantity is None:
        return Difference(rule.subject, first, second, mine.word != yours.word)
    unit = rule.unit or str(mine.quantity.units)
    a, b = in_unit(mine.quantity, unit), in_unit(yours.quantity, unit)
    gap, expanded = middle(a) - middle(b), k * uncertainty(a - b)
    limit = rule.meaningful
    if rule.meaningful_is_share:
        limit *= min(abs(middle(a)), abs(middle(b)))
    differs = exceeds(abs(gap), expanded, limit)
    return Difference(rule.subject, first, second, differs, gap, expanded, limit, unit)


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
) -> tuple[AttributeStanding, ...]:
    """Return, for every subject in the rules, how each pair stands and who stands clear."""
    evidence = Evidence(findings, figures, sequence, tuple(specimens))
    k = coverage_factor(len(specimens))
    ids = tuple(s.id for s in specimens)
    entries = asked_in(rules, sequence).entries
    return tuple(_standing(rule, ids, evidence, k) for rule in entries)


def _standing(
    rule: AttributeRule, ids: tuple[str, ...], evidence: Evidence, k: float
) -> AttributeStanding:
    pairs = tuple(difference(rule, a, b, evidence, k) for a, b in combinations(ids, 2))
    compared = [pair for pair in pairs if not pair.refused]
    clear = []
    for specimen in ids:
        own = [pair for pair in compared if specimen in (pair.first, pair.second)]
        if own and all(pair.differs for pair in own):
            clear.append(specimen)
    return AttributeStanding(rule.subject, rule.component, pairs, tuple(clear))
