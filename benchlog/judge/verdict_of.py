"""All scores and awards of a line-up under one set of rules."""

from __future__ import annotations

from collections.abc import Mapping
from collections.abc import Sequence as Ordered

from benchlog.derive.figure import Figure
from benchlog.judge.awards import award_of
from benchlog.judge.evidence import Evidence
from benchlog.judge.rules import Rules
from benchlog.judge.rules_within import asked_in
from benchlog.judge.scores import score_of
from benchlog.judge.verdict import Verdict
from benchlog.measure.finding import Finding
from benchlog.trade.attribute import Sequence
from benchlog.trade.component import Component
from benchlog.trade.specimen import Specimen


def judge(
    specimens: Ordered[Specimen],
    findings: Mapping[tuple[str, str], Finding],
    figures: Mapping[tuple[str, str], Figure],
    rules: Rules,
    sequence: Sequence,
    in_doubt: frozenset[str] = frozenset(),
) -> Verdict:
    """Judge every component that rules and sequence know, in the order in which they are shown.

    `findings` and `figures` are keyed by (attribute or figure key, specimen id). A score depends
    on its own specimen and the rules alone; an award on all specimens. `in_doubt` are the ids of
    readings whose instrument failed its closing check: nothing is compared by them.
    """
    rules = asked_in(rules, sequence)
    evidence = Evidence(findings, figures, sequence, tuple(specimens), in_doubt)
    components = [component for component in Component if rules.of(component)]
    by_component = {
        component: tuple(score_of(component, s.id, rules, evidence) for s in specimens)
        for component in components
    }
    return Verdict(
        rules_key=rules.key,
        rules_version=rules.version,
        scores=tuple(score for scores in by_component.values() for score in scores),
        awards=tuple(award_of(c, scores, rules, evidence) for c, scores in by_component.items()),
    )
