"""The reviewer's hand: an award set beside what the rules gave, with its reason."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from benchlog.judge.verdict import AwardKind
from benchlog.trade.component import Component


@dataclass(frozen=True)
class Overruling:
    """What the reviewer says of a component instead of the rules' award.

    `kind` None takes an earlier overruling back: the rules' award stands again. `winners` are
    specimen ids as in an award. `reason` is printed beside both. The latest one counts.
    """

    id: str
    lineup_id: str
    component: Component
    kind: AwardKind | None
    winners: tuple[str, ...]
    reason: str
    at: datetime
