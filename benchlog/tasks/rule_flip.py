"""The smallest change of the rules that would change an award, worked out when it is asked for.

It takes longer than the award itself, and is wanted of the one that is looked at, or for paper.
"""

from __future__ import annotations

from benchlog.judge.flips_of_rules import award_under_rules
from benchlog.judge.rules_within import asked_in
from benchlog.judge.verdict import Award
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import evidence_of


def would_change_rules(record: Record, award: Award) -> str:
    """Return which smallest change of the rules would change it, "" where nothing was compared."""
    rules = asked_in(record.rules, record.sequence)
    return award_under_rules(award, record.verdict.scores, rules, evidence_of(record))
