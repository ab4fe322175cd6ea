"""Ranks of a line-up under a declared purpose, as probabilities.

Loads numpy; import it only where ranks are wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import fsum
from typing import TypeAlias

from benchlog.judge.comparisons import kept_entries
from benchlog.judge.criterion_draws import CriterionDraws
from benchlog.judge.evidence import Evidence
from benchlog.judge.parties import within
from benchlog.judge.party_draws import party_values
from benchlog.judge.purposes import Purpose
from benchlog.judge.ranked import SEED, TRIALS, Criterion, Ranking
from benchlog.judge.ranks import rank_shares, simplex_weights
from benchlog.judge.rules import NOT_COMPARED, AttributeRule, Rules
from benchlog.judge.rules_within import asked_in
from benchlog.judge.scores import coverage_of, enough, scoring, worths_of
from benchlog.judge.value_functions import Unworth, Worth
from benchlog.trade.component import Component

_LAST = CriterionDraws()

Worths: TypeAlias = dict[str, dict[str, Worth | Unworth]]
"""What values are worth, by specimen and subject."""


def ranking_of(
    purpose: Purpose, rules: Rules, evidence: Evidence, trials: int = TRIALS, seed: int = SEED
) -> Ranking:
    """Rank a line-up under a purpose over measurement uncertainty and over open weights.

    A specimen without values for enough of the purpose's weight is not ranked. A criterion
    counts on the entries in which everybody ranked has a value that may be compared, and only
    when these hold enough of its weight; what is lost lowers the coverage, and below the rules'
    smallest coverage nobody is ranked. Specimens of one part are ranked as one.
    """
    rules = asked_in(rules, evidence.sequence)
    entries = {key: _entries(key, purpose, rules) for key in purpose.asks}
    entries = {key: own for key, own in entries.items() if own}
    left_out = _not_compared(purpose, rules)
    every = tuple(entry for own in entries.values() for entry in own)
    worths = {s.id: worths_of(every, s.id, evidence) for s in evidence.specimens}
    ids = _ranked(purpose, entries, rules, worths, left_out)
    worths = {specimen: worths[specimen] for specimen in ids}
    criteria = _criteria(purpose, entries, rules, evidence, worths, left_out)
    whole = fsum(purpose.share(key) for key in entries)
    coverage = fsum(c.share for c in criteria) / whole if whole else 0.0
    parties = within(evidence.parties, ids)
    firsts = tuple(party[0] for party in parties)
    found = Ranking(purpose, firsts, criteria, None, left_out, coverage, "", seed, parties)
    if len(parties) < 2 or not enough(coverage, rules):
        return replace(found, refused=_why_refused(len(parties), rules, evidence))
    weights = simplex_weights(tuple(_fixed(purpose, criteria)), trials, seed)
    with _LAST.values(criteria, ids, evidence, trials, seed) as values:
        names = [criterion.key for criterion in criteria]
        shares = rank_shares(party_values(values, ids, parties, names, seed), weights)
    return replace(found, shares=shares)


def _entries(key: str, purpose: Purpose, rules: Rules) -> tuple[AttributeRule, ...]:
    if key in _not_compared(purpose, rules):
        return ()
    own = tuple(rule for rule in purpose.criteria if rule.subject == key)
    return own or (scoring(rules, Component(key)) if key in Component._value2member_map_ else ())


def _not_compared(purpose: Purpose, rules: Rules) -> dict[str, str]:
    """Return the criteria that the line-up's rules do not let anybody compare by."""
    shut = {rule.subject for rule in rules.entries if not rule.compared}
    shut |= {
        c.value for c in Component if (own := rules.of(c)) and not any(e.compared for e in own)
    }
    return {key: NOT_COMPARED for key in purpose.asks if key in shut}


def _ranked(
    purpose: Purpose,
    entries: dict[str, tuple[AttributeRule, ...]],
    rules: Rules,
    worths: Worths,
    left_out: dict[str, str],
) -> tuple[str, ...]:
    """Return the specimens with values for enough of the weight, the others with the reason."""
    whole = fsum(purpose.share(key) for key in entries)
    found = []
    for specimen, known in worths.items():
        valued = 0.0
        for key, own in entries.items():
            basis = tuple(e for e in own if isinstance(known[e.subject], Worth))
            valued += purpose.share(key) if enough(coverage_of(basis, own), rules) else 0.0
        if whole and enough(valued / whole, rules):
            found.append(specimen)
        else:
            left_out[specimen] = "too few values for what counts under this purpose"
    return tuple(found)


def _criteria(
    purpose: Purpose,
    entries: dict[str, tuple[AttributeRule, ...]],
    rules: Rules,
    evidence: Evidence,
    worths: Worths,
    left_out: dict[str, str],
) -> tuple[Criterion, ...]:
    found = []
    for key, own in entries.items():
        kept, dropped = kept_entries(own, worths, evidence)
        basis = tuple(
            e for e in kept if all(isinstance(known[e.subject], Worth) for known in worths.values())
        )
        if enough(coverage_of(basis, own), rules):
            found.append(Criterion(key, purpose.share(key), basis))
        else:
            reasons = "; ".join(dropped.values())
            left_out[key] = reasons or "too little of it is known for everybody who is ranked"
    return tuple(found)


def _why_refused(ranked: int, rules: Rules, evidence: Evidence) -> str:
    if ranked < 2:
        whom = "parts" if len(evidence.parties) < len(evidence.specimens) else "specimens"
        return f"Fewer than two {whom} have values for what counts under this purpose."
    share = f"{100 * rules.smallest_coverage:.0f} %"
    return f"Less than {share} of what counts under this purpose can be compared between them."


def _fixed(purpose: Purpose, criteria: Sequence[Criterion]) -> list[float | None]:
    """Return every criterion's share of what is left of the whole, None where it is open."""
    whole = fsum(c.share for c in criteria)
    return [None if c.key in purpose.left_open else c.share / whole for c in criteria]
