"""A component's score, 0 to 10, from what its values are worth."""

from __future__ import annotations

from math import fsum

from benchlog.judge.evidence import Evidence
from benchlog.judge.rules import AttributeRule, Rules, ValueKind
from benchlog.judge.value_functions import Number, Unworth, Worth, middle, uncertainty, worth_of
from benchlog.judge.verdict import Contribution, Score
from benchlog.measure.coverage import expanded
from benchlog.trade.component import Component


def scoring(rules: Rules, component: Component) -> tuple[AttributeRule, ...]:
    """Return the entries of a component that enter its score."""
    compared = (entry for entry in rules.of(component) if entry.compared)
    return tuple(e for e in compared if e.kind is not ValueKind.NONE and e.weight > 0)


def worths_of(
    entries: tuple[AttributeRule, ...], specimen_id: str, evidence: Evidence
) -> dict[str, Worth | Unworth]:
    """Return what each entry is worth for one specimen, by subject."""
    return {entry.subject: _worth(entry, specimen_id, evidence) for entry in entries}


def _worth(entry: AttributeRule, specimen_id: str, evidence: Evidence) -> Worth | Unworth:
    known, key = evidence.worths_known, (entry, specimen_id)
    if key not in known:
        known[key] = worth_of(entry, evidence.outcome(entry.subject, specimen_id))
    worth: Worth | Unworth = known[key]
    return worth


def coverage_of(part: tuple[AttributeRule, ...], whole: tuple[AttributeRule, ...]) -> float:
    """Return the share of the weight that some entries hold of all."""
    total = fsum(entry.weight for entry in whole)
    return fsum(entry.weight for entry in part) / total if total else 0.0


def enough(coverage: float, rules: Rules) -> bool:
    """Whether a coverage suffices for judging."""
    return coverage > 0 and coverage >= rules.smallest_coverage - 1e-12


def score_of(component: Component, specimen_id: str, rules: Rules, evidence: Evidence) -> Score:
    """Return one specimen's score in one component: the weighted mean of what has a value.

    What has no value never counts as zero; it lowers the coverage. Below the rules' smallest
    coverage there is no score.
    """
    entries = scoring(rules, component)
    worths = worths_of(entries, specimen_id, evidence)
    valued = tuple(e for e in entries if isinstance(worths[e.subject], Worth))
    coverage = coverage_of(valued, entries)
    mean = _mean(valued, worths) if enough(coverage, rules) else None
    value = None if mean is None else _within(middle(mean))
    half = 0.0 if mean is None else expanded(mean)
    return Score(
        component=component,
        specimen_id=specimen_id,
        value=value,
        low=None if value is None else _within(value - half),
        high=None if value is None else _within(value + half),
        counted=len(valued),
        of=len(entries),
        coverage=coverage,
        contributions=tuple(_contribution(e, worths[e.subject]) for e in entries),
    )


def _mean(valued: tuple[AttributeRule, ...], worths: dict[str, Worth | Unworth]) -> Number:
    total = fsum(entry.weight for entry in valued)
    parts = ((e.weight / total, worths[e.subject]) for e in valued)
    return sum(share * worth.expected for share, worth in parts if isinstance(worth, Worth))


def _within(value: float) -> float:
    """Cut at 0 and 10: an interval cannot reach further, and a mean strays by rounding only."""
    return min(max(value, 0.0), 10.0)


def _contribution(entry: AttributeRule, worth: Worth | Unworth) -> Contribution:
    if isinstance(worth, Unworth):
        return Contribution(entry.subject, entry.weight, None, why_not=worth.why_not)
    expected = worth.expected
    return Contribution(
        entry.subject, entry.weight, _within(middle(expected)), uncertainty(expected)
    )
