"""How the specimens of a line-up stand to each other in one component, pair by pair."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import combinations
from math import fsum

from benchlog.judge.comparability import unlike_among
from benchlog.judge.differences import Difference, difference, exceeds
from benchlog.judge.evidence import Evidence
from benchlog.judge.groups import expanded_between, mean_of
from benchlog.judge.parties import Party, within
from benchlog.judge.rules import NOT_COMPARED, AttributeRule, Rules
from benchlog.judge.scores import coverage_of, enough, scoring, worths_of
from benchlog.judge.value_functions import Number, Unworth, Worth, middle
from benchlog.trade.component import Component


@dataclass(frozen=True)
class Lead:
    """By how many points the first leads the second in one entry, below 0 where it trails.

    `difference` is how their values stand; None where who trails in the score leads in this.
    """

    entry: AttributeRule
    points: Number
    difference: Difference | None


@dataclass(frozen=True)
class Comparison:
    """Two specimens in one component, on the entries in which both have a value.

    Specimens of one part stand together: each of the two is the first of its party then, and the
    scores are the means of the parties on the entries in which all of them have a value.

    `leads` hold the entries of the basis one by one. `gap` is the first's score less the second's
    on that `basis`, `expanded` its expanded uncertainty, `limit` the smallest difference in score
    that counts. `deciding` are the entries in which the one ahead clearly differs for the better.
    `ahead` is the specimen that clearly beats the other, "" for none; `comparable` is False when
    the basis holds too little weight.
    """

    first: str
    second: str
    basis: tuple[AttributeRule, ...]
    comparable: bool
    gap: float = 0.0
    expanded: float = 0.0
    limit: float = 0.0
    deciding: tuple[AttributeRule, ...] = ()
    ahead: str = ""
    leads: tuple[Lead, ...] = ()

    @property
    def behind(self) -> str:
        """The specimen that is clearly beaten, "" for none."""
        return {self.first: self.second, self.second: self.first}.get(self.ahead, "")

    @property
    def needed(self) -> float:
        """The gap that both limits ask for."""
        return max(self.expanded, self.limit)


@dataclass(frozen=True)
class Ring:
    """All pairs of the judged specimens of a component, and what was kept out of them.

    `ids` are the judged specimens, one for each party, and `parties` who stands with each of them.
    `dropped` are the subjects that may not be compared between all of them, with the reason;
    `worths` what each specimen's values are worth, by specimen and subject.
    """

    component: Component
    entries: tuple[AttributeRule, ...]
    ids: tuple[str, ...]
    pairs: tuple[Comparison, ...]
    dropped: dict[str, str]
    worths: dict[str, dict[str, Worth | Unworth]]
    parties: dict[str, Party] = field(default_factory=dict)

    def party(self, specimen_id: str) -> Party:
        """Return who is compared together with one of `ids`, itself the first."""
        return self.parties.get(specimen_id, (specimen_id,))

    @property
    def compared(self) -> tuple[Comparison, ...]:
        """The pairs that could be compared."""
        return tuple(pair for pair in self.pairs if pair.comparable)


def ring_of(component: Component, ids: tuple[str, ...], rules: Rules, evidence: Evidence) -> Ring:
    """Compare every pair of the specimens `ids` in one component.

    Specimens of one part are compared as one. The limits are those for all parties of the
    line-up, so that a specimen that cannot be judged here makes nobody's win easier.
    """
    entries = scoring(rules, component)
    worths = {specimen: worths_of(entries, specimen, evidence) for specimen in ids}
    kept, dropped = kept_entries(entries, worths, evidence)
    parties = {party[0]: party for party in within(evidence.parties, ids)}
    ring = Ring(component, entries, tuple(parties), (), dropped, worths, parties)
    both = combinations(ring.ids, 2)
    return replace(
        ring, pairs=tuple(compare_pair(ring, kept, two, rules, evidence) for two in both)
    )


def kept_entries(
    entries: tuple[AttributeRule, ...],
    worths: dict[str, dict[str, Worth | Unworth]],
    evidence: Evidence,
) -> tuple[tuple[AttributeRule, ...], dict[str, str]]:
    """Return the entries in which specimens may be compared, and the other subjects with why not.

    `worths` are by specimen and subject; who has no value does not stand in anybody's way.
    """
    dropped = {}
    for entry in entries:
        valued = tuple(s for s, own in worths.items() if isinstance(own[entry.subject], Worth))
        reason = "" if entry.compared else NOT_COMPARED
        reason = reason or _bounded(entry, valued, evidence)
        reason = reason or unlike_among(entry.subject, valued, evidence)
        if reason:
            dropped[entry.subject] = reason
    return tuple(entry for entry in entries if entry.subject not in dropped), dropped


def _bounded(entry: AttributeRule, valued: tuple[str, ...], evidence: Evidence) -> str:
    """Return why an estimate between bounds decides nothing, "" for any other value."""
    if any(evidence.outcome(entry.subject, s).bounded for s in valued):
        return "an estimate between bounds informs and decides nothing"
    return ""


def compare_pair(
    ring: Ring,
    kept: tuple[AttributeRule, ...],
    pair: tuple[str, str],
    rules: Rules,
    evidence: Evidence,
) -> Comparison:
    """Compare two specimens, or the parties that they stand for, on the entries `kept`."""
    first, second = pair
    sides = ring.party(first), ring.party(second)
    both = {}
    for entry in kept:
        mine, yours = (nominals(side, entry.subject, ring) for side in sides)
        if mine and yours:
            both[entry] = mine, yours
    basis = tuple(both)
    if not enough(coverage_of(basis, ring.entries), rules):
        return Comparison(first, second, basis, comparable=False)
    total = fsum(entry.weight for entry in basis)
    leads = {e: mean_of(mine) - mean_of(yours) for e, (mine, yours) in both.items()}
    gap = middle(sum(entry.weight / total * lead for entry, lead in leads.items()))
    mine, yours = (
        [
            sum(entry.weight / total * known[side][n] for entry, known in both.items())
            for n in range(len(sides[side]))
        ]
        for side in (0, 1)
    )
    expanded = expanded_between(mine, yours, len(evidence.parties))
    seen = tuple(
        Lead(
            entry,
            lead,
            difference(entry, first, second, evidence) if middle(lead) * gap > 0 else None,
        )
        for entry, lead in leads.items()
    )
    deciding = tuple(lead.entry for lead in seen if lead.difference and lead.difference.differs)
    beyond = exceeds(abs(gap), expanded, rules.meaningful_score) and bool(deciding)
    ahead = (first if gap > 0 else second) if beyond else ""
    limit = rules.meaningful_score
    return Comparison(first, second, basis, True, gap, expanded, limit, deciding, ahead, seen)


def nominals(party: Party, subject: str, ring: Ring) -> list[Number]:
    """Return what each of a party's values is worth at its best estimate; none if one has none."""
    worths = [ring.worths[specimen][subject] for specimen in party]
    known = [worth.nominal for worth in worths if isinstance(worth, Worth)]
    return known if len(known) == len(party) else []
