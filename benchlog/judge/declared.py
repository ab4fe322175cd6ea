"""A purpose declared for one line-up: what it is ranked for, since when, and what was before."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from benchlog.judge.purposes import Purpose


@dataclass(frozen=True)
class Declaration:
    """The reviewer declares a purpose for a line-up, or takes back the one that stands.

    `purpose` is kept whole, so that the ranks can be worked out for ever; None takes back what
    was declared. `reason` may be "". `after` is the id of the line-up's latest reading at that
    moment, "" before the first; `after_cut` tells whether the cut had been made by then. The
    latest one stands.
    """

    id: str
    lineup_id: str
    purpose: Purpose | None
    at: datetime
    reason: str = ""
    after: str = ""
    after_cut: bool = False
