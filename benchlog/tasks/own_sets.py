"""The reviewer's own sets of rules: kept by version, compared, and tried on any line-up."""

from __future__ import annotations

import re
from dataclasses import replace

from benchlog.errors import PlanRefused
from benchlog.judge.rules import Rules
from benchlog.judge.rules_changes import RuleChange, changes_between
from benchlog.judge.rules_file import digest, load_rules, rule_sets
from benchlog.judge.rules_json import sound
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.ports import Clock, Shelf
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Sequence
from benchlog.trade.sequence_file import load_sequence


def all_sets(shelf: Shelf) -> tuple[Rules, ...]:
    """Return the shipped sets, then every version of the reviewer's own, oldest first."""
    return (*(load_rules(key) for key in rule_sets()), *shelf.own_rules())


def key_for(label: str) -> str:
    """Return a plain key for a set's name: "Long trips, 2" becomes "long_trips_2"."""
    return re.sub(r"[^a-z0-9]+", "_", label.casefold()).strip("_")


def save_own_set(shelf: Shelf, clock: Clock, rules: Rules, label: str, key: str = "") -> Rules:
    """Keep rules as the next version of the reviewer's own set of that name; return that version.

    Earlier versions stay. Raises PlanRefused for a name that a shipped set has, for rules that
    are not sound, and when the latest version says the same already.
    """
    name = key or key_for(label)
    if not name or not label.strip():
        raise PlanRefused("The set has no name.", "Type one, in letters or digits.", field="label")
    if name in rule_sets():
        raise PlanRefused(
            f"'{label.strip()}' is the name of a set that came with the program.",
            "Choose another name; the shipped set stays as it is.",
            field="label",
        )
    before = [one for one in shelf.own_rules() if one.key == name]
    version = str(1 + max((int(one.version) for one in before if one.version.isdigit()), default=0))
    fresh = sound(replace(rules, key=name, label=label.strip(), version=version))
    if before and digest(replace(fresh, version=before[-1].version)) == digest(before[-1]):
        raise PlanRefused(
            f"Version {before[-1].version} of '{label.strip()}' says the same already.",
            "Change something first.",
        )
    shelf.add_own_rules(fresh, clock.now())
    return fresh


def compare_sets(first: Rules, second: Rules) -> tuple[RuleChange, ...]:
    """Return what changes from one set to another, apart from their names and versions."""
    named = replace(second, key=first.key, label=first.label, version=first.version)
    return changes_between(first, named)


def rescore(shelf: Shelf, lineup_id: str, rules: Rules, sequence: Sequence | None = None) -> Record:
    """Return the record of a line-up under another set; nothing on the shelf is touched."""
    wanted = sequence or load_sequence(shelf.lineup(lineup_id).sequence)
    return draw_up(shelf, lineup_id, wanted, sound(rules))
