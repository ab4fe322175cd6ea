"""Scores and awards as they come out of the rules."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from benchlog.trade.attribute import Support
from benchlog.trade.component import Component


class AwardKind(StrEnum):
    """What a component's comparison comes to, in the words that are printed."""

    WINNER = "winner"
    JOINT_WINNERS = "joint winners"
    TIE = "tie"
    DIFFERENT = "different, not better"
    NOT_JUDGED = "not judged"
    CANNOT_SEPARATE = "cannot separate"


@dataclass(frozen=True)
class Contribution:
    """One attribute's part in a score: its value 0 to 10 with standard uncertainty, its weight.

    `value` is None when the attribute has no value here; `why_not` says why.
    """

    subject: str
    weight: float
    value: float | None
    uncertainty: float = 0.0
    why_not: str = ""


@dataclass(frozen=True)
class Score:
    """One specimen's score in one component.

    `value` is 0 to 10, None when not judged; `low`/`high` its 95 % interval cut at 0 and 10;
    `counted` of `of` attributes had a value; `coverage` is the share of weight they hold.
    """

    component: Component
    specimen_id: str
    value: float | None
    low: float | None
    high: float | None
    counted: int
    of: int
    coverage: float
    contributions: tuple[Contribution, ...]


@dataclass(frozen=True)
class Award:
    """What one component's comparison comes to.

    `winners` are specimen ids: one for WINNER, several for JOINT_WINNERS, all for TIE, where
    specimens of one part count as one and are all named; `behind` those clearly beaten. `reason`
    is the rule's sentence; `would_change` says what would change it; `support` is the weakest
    support among what decided. `judged_by` names the level and the method by which gaps were told
    from chance, "" where nothing was compared.
    """

    component: Component
    kind: AwardKind
    winners: tuple[str, ...]
    behind: tuple[str, ...]
    support: Support
    reason: str
    would_change: str
    judged_by: str = ""


@dataclass(frozen=True)
class Verdict:
    """All scores and awards of a line-up under one set of rules."""

    rules_key: str
    rules_version: str
    scores: tuple[Score, ...]
    awards: tuple[Award, ...]

    def score(self, component: Component, specimen_id: str) -> Score:
        """Return one score; raises KeyError."""
        for score in self.scores:
            if score.component == component and score.specimen_id == specimen_id:
                return score
        raise KeyError((component, specimen_id))
