"""What a reviewer may declare to be judging for: weights of components, and what stays open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from benchlog.judge.rules import AttributeRule
from benchlog.trade.attribute import Support

OWN = "own_weights"
"""The key of the purpose that a reviewer declares by weights of their own."""


@dataclass(frozen=True)
class Purpose:
    """One declared purpose.

    `weights` are (criterion, weight) pairs, only their proportions count; a criterion is a
    component's name or the key of one of `criteria`, rules that count under a purpose alone.
    `open_share` is the part of the whole, 0 to 1, that is left open and divided in every way
    among the criteria of `left_open`. `version` is that of the file that it came in, "" for the
    reviewer's own weights.
    """

    key: str
    label: str
    weights: tuple[tuple[str, float], ...]
    left_open: tuple[str, ...]
    open_share: float
    support: Support
    source: str
    reason: str
    criteria: tuple[AttributeRule, ...] = ()
    version: str = ""

    @property
    def asks(self) -> tuple[str, ...]:
        """Every criterion that weighs something, in the order of the file."""
        return (*(key for key, _ in self.weights), *self.left_open)

    def share(self, criterion: str) -> float:
        """Return a criterion's share of the whole, the mean one where it is left open."""
        if criterion in self.left_open:
            return self.open_share / len(self.left_open)
        total = sum(weight for _, weight in self.weights)
        given = dict(self.weights).get(criterion, 0.0)
        return (1.0 - self.open_share) * given / total if given else 0.0


def purpose_of_weights(
    weights: Mapping[str, float], left_open: tuple[str, ...], label: str, reason: str
) -> Purpose:
    """Return the reviewer's own purpose: weights above 0, and components whose weight is open.

    What is open holds as large a part of the whole as its number among all that count, so that
    an open component weighs on average what the others weigh on average.
    """
    counting = len(weights) + len(left_open)
    return Purpose(
        key=OWN,
        label=label,
        weights=tuple(weights.items()),
        left_open=left_open,
        open_share=len(left_open) / counting,
        support=Support.OPINION,
        source="the reviewer's own choice",
        reason=reason,
    )
