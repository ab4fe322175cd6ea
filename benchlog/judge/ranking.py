"""Ranks of a line-up under a declared purpose, as probabilities.

Loads numpy; import it only where ranks are wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum
from typing import TypeAlias

from benchlog.judge.comparisons import kept_entries
from benchlog.judge.criterion_draws import Criterion, CriterionDraws
from benchlog.judge.evidence import Evidence
from benchlog.judge.purposes import Purpose
from benchlog.judge.ranks import RankShares, rank_shares, simplex_weights
from benchlog.judge.rules import NOT_COMPARED, AttributeRule, Rules
from benchlog.judge.rules_within import asked_in
from benchlog.judge.scores import coverage_of, enough, scoring, worths_of
from benchlog.judge.value_functions import Unworth, Worth
from benchlog.trade.component import Component

TRIALS = 100_000
SEED = 20_010_301
"""Fixed, so that a sheet can be worked out again to the last digit."""


_LAST = CriterionDraws()

Worths: TypeAlias = dict[str, dict[str, Worth | Unworth]]
"""What values are worth, by specimen and subject."""


@dataclass(frozen=True)
class Ranking:
    """Ranks under one purpose.

    `ids` are the specimens ranked, `criteria` what they were ranked by and `shares` the outcome,
    None when `refused` says why there is none. `left_out` says, by criterion or specimen id, why
    something was kept out; `coverage` is the part of the purpose's weight that `criteria` hold.
    """

    purpose: Purpose
    ids: tuple[str, ...]
    criteria: tuple[Criterion, ...]
    shares: RankShares | None
    left_out: dict[str, str]
    coverage: float
    refused: str = ""
    seed: int = SEED


def ranking_of(
    purpose: Purpose, rules: Rules, evidence: Evidence, trials: int = TRIALS, seed: int = SEED
) -> Ranking:
    """Rank a line-up under a purpose over measurement uncertainty and over open weights.

    A specimen without values for enough of the purpose's weight is not ranked. A criterion
    counts on the entries in which everybody ranked has a value that may be compared, and only
    when these hold enough of its weight; what is lost lowers the coverage, and below the rules'
    smallest coverage nobody is ranked.
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
    if len(ids) < 2 or not enough(coverage, rules):
        why = _why_refused(len(ids), rules)
        return Ranking(purpose, ids, criteria, None, left_out, coverage, why, seed)
    weights = simplex_weights(tuple(_fixed(purpose, criteria)), trials, seed)
    with _LAST.values(criteria, ids, evidence, trials, seed) as values:
        shares = rank_shares(values, weights)
    return Ranking(purpose, ids, criteria, shares, left_out, coverage, seed=seed)


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


def _why_refused(ranked: int, rules: Rules) -> str:
    if ranked < 2:
        return "Fewer than two specimens have values for what counts under this purpose."
    share = f"{100 * rules.smallest_coverage:.0f} %"
    return f"Less than {share} of what counts under this purpose can be compared between them."


def _fixed(purpose: Purpose, criteria: Sequence[Criterion]) -> list[float | None]:
    """Return every criterion's share of what is left of the whole, None where it is open."""
    whole = fsum(c.share for c in criteria)
    return [None if c.key in purpose.left_open else c.share / whole for c in criteria]
