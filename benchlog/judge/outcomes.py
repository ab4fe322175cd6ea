"""How a component would come out under other rules, from what was compared already."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import fsum
from typing import Any

from benchlog.judge.chance import expanded_gap
from benchlog.judge.comparisons import Comparison, Ring
from benchlog.judge.differences import Difference, difference, exceeds
from benchlog.judge.evidence import Evidence
from benchlog.judge.rules import AttributeRule, Rules
from benchlog.judge.scores import coverage_of, enough, worths_of
from benchlog.judge.value_functions import Worth, middle
from benchlog.judge.verdict import AwardKind


@dataclass(frozen=True)
class Result:
    """What a comparison comes to: the kind of award, and the first of each party that wins."""

    kind: AwardKind
    winners: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Stand:
    """One pair under some rules: who is ahead of whom if somebody is, and how open it is."""

    ahead: str
    behind: str
    expanded: float
    limit: float


@dataclass(frozen=True)
class _Laid:
    """One lead in points, what each variable adds to its uncertainty, and if its values differ."""

    subject: str
    points: float
    parts: dict[Any, float]
    differs: bool


@dataclass(frozen=True)
class Outlook:
    """The compared pairs of a ring, ready to be judged under other numbers."""

    ring: Ring
    rules: Rules
    evidence: Evidence

    @property
    def pairs(self) -> tuple[Comparison, ...]:
        """The pairs that were compared."""
        return self.ring.compared

    @cached_property
    def now(self) -> Result:
        """How it stands under the rules as they are."""
        return self.under_score(self.rules.meaningful_score)

    def under_score(self, limit: float) -> Result:
        """Return how it stands when another difference in score counts."""
        return _result([_stand(p, bool(p.deciding), limit) for p in self.pairs], self._standing)

    def under_meaningful(self, entry: AttributeRule, meaningful: float) -> Result:
        """Return how it stands when another difference in one entry's value counts."""
        stands = []
        for pair in self.pairs:
            decided = any(e != entry for e in pair.deciding)
            for lead in pair.leads:
                gap = lead.difference
                if lead.entry == entry and gap is not None and gap.gap is not None:
                    limit = asked_of(entry, gap) * meaningful
                    decided = decided or exceeds(abs(gap.gap), gap.expanded, limit)
            stands.append(_stand(pair, decided, self.rules.meaningful_score))
        return _result(stands, self._standing)

    def under_weight(self, entry: AttributeRule, weight: float) -> Result | None:
        """Return how it stands when one entry weighs otherwise.

        None where other specimens or pairs would have values enough then, and where specimens of
        one part stand together, whose scatter would have to be worked out anew.
        """
        if any(len(party) > 1 for party in self.ring.parties.values()):
            return None
        weights = {e.subject: e.weight for e in self.ring.entries} | {entry.subject: weight}
        if not self._as_covered(weights):
            return None
        limit = self.rules.meaningful_score
        return _result([self._weighed(p, weights, limit) for p in self.pairs], self._standing)

    @cached_property
    def _standing(self) -> tuple[str, ...]:
        return tuple(
            s for s in self.ring.ids if any(s in (pair.first, pair.second) for pair in self.pairs)
        )

    @cached_property
    def _valued(self) -> list[tuple[AttributeRule, ...]]:
        """What is known of every specimen and of every pair."""
        found = []
        for specimen in self.evidence.specimens:
            worths = worths_of(self.ring.entries, specimen.id, self.evidence)
            found.append(
                tuple(e for e in self.ring.entries if isinstance(worths[e.subject], Worth))
            )
        return [*found, *(pair.basis for pair in self.ring.pairs)]

    def _as_covered(self, weights: Mapping[str, float]) -> bool:
        whole = fsum(weights.values())
        for basis in self._valued:
            then = fsum(weights[e.subject] for e in basis) / whole
            now = coverage_of(basis, self.ring.entries)
            if enough(then, self.rules) != enough(now, self.rules):
                return False
        return True

    @cached_property
    def _laid(self) -> dict[tuple[str, str], list[_Laid]]:
        """Every lead laid out in the variables behind it."""
        return {
            (pair.first, pair.second): [
                _Laid(
                    lead.entry.subject,
                    middle(lead.points),
                    {v: s * v.std_dev for v, s in getattr(lead.points, "derivatives", {}).items()},
                    difference(lead.entry, pair.first, pair.second, self.evidence).differs,
                )
                for lead in pair.leads
            ]
            for pair in self.pairs
        }

    def _weighed(self, pair: Comparison, weights: Mapping[str, float], limit: float) -> _Stand:
        laid = self._laid[pair.first, pair.second]
        total = fsum(weights[lead.subject] for lead in laid)
        gap = fsum(weights[lead.subject] / total * lead.points for lead in laid)
        sizes: dict[Any, float] = {}
        for lead in laid:
            share = weights[lead.subject] / total
            for v, size in lead.parts.items():
                sizes[v] = sizes.get(v, 0.0) + share * size
        expanded = expanded_gap(_Sizes(sizes), len(self.evidence.parties))
        decided = any(lead.differs and lead.points * gap > 0 for lead in laid)
        leads = decided and exceeds(abs(gap), expanded, limit)
        ahead, behind = (pair.first, pair.second) if gap > 0 else (pair.second, pair.first)
        return _Stand(ahead if leads else "", behind if leads else "", expanded, limit)


@dataclass(frozen=True)
class _Sizes:
    """The parts of an uncertainty, as `uncertainties` gives those of a number."""

    sizes: dict[Any, float]

    def error_components(self) -> dict[Any, float]:
        return {v: abs(size) for v, size in self.sizes.items()}


def asked_of(entry: AttributeRule, gap: Difference) -> float:
    """Return the limit of one pair's values for each unit, or share, of what the rule asks."""
    if not entry.meaningful_is_share:
        return 1.0
    return gap.meaningful / entry.meaningful if entry.meaningful else 0.0


def _stand(pair: Comparison, decided: bool, limit: float) -> _Stand:
    leads = decided and exceeds(abs(pair.gap), pair.expanded, limit)
    ahead, behind = (pair.first, pair.second) if pair.gap > 0 else (pair.second, pair.first)
    return _Stand(ahead if leads else "", behind if leads else "", pair.expanded, limit)


def _result(stands: Iterable[_Stand], standing: tuple[str, ...]) -> Result:
    """Return what some pairs come to, as `awards` does."""
    every = list(stands)
    beaten = {one.behind for one in every if one.behind}
    if beaten and beaten.issuperset(standing):
        return Result(AwardKind.NOT_JUDGED)
    if beaten:
        winners = tuple(s for s in standing if s not in beaten)
        kind = AwardKind.WINNER if len(winners) == 1 else AwardKind.JOINT_WINNERS
        return Result(kind, winners)
    widest = max(every, key=lambda one: one.expanded)
    if exceeds(widest.expanded, widest.limit):
        return Result(AwardKind.CANNOT_SEPARATE)
    return Result(AwardKind.TIE, standing)
