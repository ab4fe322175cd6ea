"""The judging rules of a line-up: what counts, how much, and what difference is meaningful."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from benchlog.trade.attribute import Support
from benchlog.trade.component import Component


class ValueKind(StrEnum):
    """How a value becomes 0 to 10."""

    PIECEWISE = "piecewise"
    RANK = "rank"
    PRESENCE = "presence"
    NONE = "none"


@dataclass(frozen=True)
class Anchor:
    """One corner of a piecewise linear value function: at `at` (in the rule's unit), `value`."""

    at: float
    value: float


@dataclass(frozen=True)
class RankValue:
    """What one choice's key (or "yes"/"no") is worth, 0 to 10."""

    key: str
    value: float


@dataclass(frozen=True)
class AttributeRule:
    """How one attribute or figure enters its component's score and award.

    `subject` is an attribute's or figure's key. `meaningful` is the smallest difference that
    means anything, in `unit`, or a share of the smaller value when `meaningful_is_share`.
    Kind NONE with a weight of 0 is 'different, not better': shown, compared, never scored.
    What is not `compared` is shown alone: no gap, no sentence, no part in score, award or rank.
    """

    subject: str
    component: Component
    kind: ValueKind
    weight: float
    support: Support
    source: str
    reason: str
    unit: str = ""
    anchors: tuple[Anchor, ...] = ()
    ranks: tuple[RankValue, ...] = ()
    meaningful: float = 0.0
    meaningful_is_share: bool = False
    compared: bool = True


NOT_COMPARED = "not compared by the rules"


@dataclass(frozen=True)
class Rules:
    """A named, versioned set of rules."""

    key: str
    label: str
    version: str
    smallest_coverage: float
    meaningful_score: float
    entries: tuple[AttributeRule, ...]

    def of(self, component: Component) -> tuple[AttributeRule, ...]:
        """Return the entries of one component."""
        return tuple(e for e in self.entries if e.component == component)
