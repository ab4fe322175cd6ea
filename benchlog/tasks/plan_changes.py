"""What was changed in the plan of a line-up after it counted: question, specimens, price, payer."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from benchlog.judge.locked import RulesLock
from benchlog.measure.reading import Reading
from benchlog.tasks.ports import Change, Shelf
from benchlog.trade.specimen import Lineup

LINEUP_FIELDS = {
    "question": "Question",
    "sequence": "Kind of filter",
    "rules": "Named set of rules",
    "attributes": "What is asked",
    "conditions": "Stated conditions",
    "balanced": "Turns at being first",
}
SPECIMEN_FIELDS = {
    "maker": "maker",
    "part_number": "part number",
    "lot": "lot",
    "origin_box": "origin on the box",
    "origin_can": "origin on the can",
    "origin_inferred": "origin as inferred",
    "paid": "who paid",
    "giver": "who gave it",
    "price": "price",
    "currency": "currency",
    "bought_on": "day of buying",
}
"""Fields whose change viewers are told of; a colour or a bench position is none of them."""

YES_NO = {"0": "no", "1": "yes"}
LONG = ("attributes", "conditions")
"""Fields too long to print: only that they changed is said."""


@dataclass(frozen=True)
class PlanChange:
    """One change of the plan after the lock or the first reading, in words; `at` is in UTC."""

    what: str
    old: str
    new: str
    at: datetime

    @property
    def sentence(self) -> str:
        """Return the change as one line: "Amber, price: 8.90 → 7.50"."""
        if not self.old and not self.new:
            return self.what
        return f"{self.what}: {self.old or 'nothing'} → {self.new or 'nothing'}"


def plan_changes(shelf: Shelf, lineup_id: str) -> tuple[PlanChange, ...]:
    """Return what was edited in a plan since its rules were locked or its first reading came in."""
    return changes_since(
        shelf.lineup(lineup_id),
        shelf.plan_log(lineup_id),
        shelf.rules_locks(lineup_id),
        shelf.readings(lineup_id),
    )


def changes_since(
    lineup: Lineup,
    log: Iterable[Change],
    locks: Iterable[RulesLock],
    readings: Iterable[Reading],
) -> tuple[PlanChange, ...]:
    """Return the entries of a log that are later than the first lock and the first reading."""
    marks = [*(lock.at for lock in locks), *(reading.at for reading in readings)]
    if not marks:
        return ()
    began, entries = min(marks), list(log)
    names = {one.id: one.nickname for one in lineup.specimens} | {
        one.entity_id.partition("/")[2]: one.old
        for one in entries
        if one.field == "nickname" and one.old and one.new is None
    }
    here = {one.id for one in lineup.specimens}
    told = (_told(entry, names, here) for entry in entries if entry.at >= began)
    return tuple(change for change in told if change)


def _told(entry: Change, names: dict[str, str], here: set[str]) -> PlanChange | None:
    old, new = entry.old or "", entry.new or ""
    if entry.entity == "lineup":
        label = LINEUP_FIELDS.get(entry.field)
        if label and entry.field in LONG:
            return PlanChange(f"{label} was changed", "", "", entry.at)
        if entry.field == "balanced":
            old, new = YES_NO.get(old, old), YES_NO.get(new, new)
        return PlanChange(label, old, new, entry.at) if label else None
    specimen = entry.entity_id.partition("/")[2]
    name = names.get(specimen, "A specimen")
    if entry.field == "nickname" and entry.new is None:
        return PlanChange(f"{name} was taken out of the line-up", "", "", entry.at)
    if entry.field == "nickname" and entry.old is None:
        return PlanChange(f"{name} came into the line-up", "", "", entry.at)
    if entry.field == "nickname":
        return PlanChange("Nickname", old, new, entry.at)
    label = SPECIMEN_FIELDS.get(entry.field)
    if label is None or specimen not in here:
        return None
    return PlanChange(f"{name}, {label}", old, new, entry.at)
