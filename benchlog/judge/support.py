"""How supports rank among each other."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.judge.rules import AttributeRule
from benchlog.trade.attribute import Support

STRENGTH = (Support.OPINION, Support.ENGINEERING, Support.STANDARD)
"""The weakest first."""


def weakest(entries: Iterable[AttributeRule]) -> Support:
    """Return the weakest support among entries; opinion when there are none."""
    return min((e.support for e in entries), key=STRENGTH.index, default=Support.OPINION)


def is_stronger(support: Support, other: Support) -> bool:
    """Whether one support is stronger than another."""
    return STRENGTH.index(support) > STRENGTH.index(other)
