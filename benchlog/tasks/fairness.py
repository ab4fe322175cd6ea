"""What a record says of its own fairness: locks, overrulings, blind runs, polls, changed plans."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from benchlog.judge.blind import BlindRun, Poll, Reveal
from benchlog.judge.declared import Declaration
from benchlog.judge.locked import RulesLock
from benchlog.judge.overruling import Overruling
from benchlog.tasks.cut import cut_made
from benchlog.tasks.plan_changes import PlanChange, changes_since
from benchlog.tasks.ports import Shelf
from benchlog.tasks.sealed import sealed_readings
from benchlog.trade.attribute import Sequence
from benchlog.trade.component import Component
from benchlog.trade.specimen import Lineup


@dataclass(frozen=True)
class Fairness:
    """See the fields of the same names in `Record`."""

    locks: tuple[RulesLock, ...]
    overrulings: dict[Component, Overruling]
    blind_runs: tuple[BlindRun, ...]
    reveals: tuple[Reveal, ...]
    polls: tuple[Poll, ...]
    plan_changes: tuple[PlanChange, ...]
    cut_made: bool
    sealed: frozenset[str]
    declarations: tuple[Declaration, ...] = ()
    overruling_log: tuple[Overruling, ...] = ()

    def fingerprint(self) -> list[Any]:
        """Return what goes into the record's digest; rules are in a lock by their own digest.

        What no record held in earlier versions is in it only where it is there: their digests hold.
        """
        standing = list(self.overrulings.values())
        beyond = len(self.overruling_log) > len(standing)
        later: list[Any] = [self.declarations] if self.declarations else []
        later += [{"overrulings": self.overruling_log}] if beyond else []
        return [
            [(k.id, k.digest, k.at, k.reason, k.after, k.after_cut) for k in self.locks],
            standing,
            self.blind_runs,
            self.reveals,
            self.polls,
            self.plan_changes,
            self.cut_made,
            *later,
        ]


def fairness_of(shelf: Shelf, lineup: Lineup, sequence: Sequence) -> Fairness:
    """Return what the shelf holds of how a line-up was judged."""
    readings = shelf.readings(lineup.id)
    locks = tuple(shelf.rules_locks(lineup.id))
    runs, reveals = shelf.blind_runs(lineup.id), shelf.reveals(lineup.id)
    log = tuple(shelf.overrulings(lineup.id))
    return Fairness(
        locks,
        standing_overrulings(log),
        tuple(runs),
        tuple(reveals),
        tuple(shelf.polls(lineup.id)),
        changes_since(lineup, shelf.plan_log(lineup.id), locks, readings),
        cut_made(sequence, shelf.place(lineup.id), readings),
        sealed_readings(runs, reveals, readings),
        tuple(shelf.declarations(lineup.id)),
        log,
    )


def standing_overrulings(every: Iterable[Overruling]) -> dict[Component, Overruling]:
    """Return the latest overruling of every component, in the order in which they are shown."""
    latest = {one.component: one for one in every}
    return {c: latest[c] for c in Component if c in latest and latest[c].kind is not None}
