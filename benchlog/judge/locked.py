"""The rules of one line-up as they were locked before the cut, and every change since."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from benchlog.judge.rules import Rules


@dataclass(frozen=True)
class RulesLock:
    """The rules in full as they were locked, or changed later, at one moment.

    `digest` is that of the rules' canonical form. `reason` is "" for the first lock and typed for
    every later one. `after` is the id of the line-up's latest reading at that moment, "" before
    the first; `after_cut` tells whether the cut had been made by then. The latest lock is in
    force; the ones before stay readable.
    """

    id: str
    lineup_id: str
    rules: Rules
    digest: str
    at: datetime
    reason: str = ""
    after: str = ""
    after_cut: bool = False
