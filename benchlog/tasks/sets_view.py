"""The sets of rules that there are, as they are offered; and a look at a line-up under another."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.rules import Rules
from benchlog.judge.rules_file import digest, rule_sets, set_name
from benchlog.tasks.lock import rules_in_force
from benchlog.tasks.own_sets import all_sets
from benchlog.tasks.ports import Shelf
from benchlog.tasks.record import Record

IN_FORCE = "this line-up's own rules"


@dataclass(frozen=True)
class SetOffer:
    """A set of rules to choose, with its name; `own` tells that the reviewer keeps it."""

    rules: Rules
    label: str
    own: bool


def sets_offered(shelf: Shelf) -> tuple[SetOffer, ...]:
    """Return the shipped sets, then every version of the reviewer's own, the latest first."""
    shipped = rule_sets()
    every = [_offer(rules, own=rules.key not in shipped) for rules in all_sets(shelf)]
    return (*(one for one in every if not one.own), *reversed([o for o in every if o.own]))


def sets_to_look_under(shelf: Shelf, lineup_id: str) -> tuple[SetOffer, ...]:
    """Return the sets that would judge a line-up by other rules than those in force."""
    mine = digest(rules_in_force(shelf, shelf.lineup(lineup_id)))
    return tuple(offer for offer in sets_offered(shelf) if digest(offer.rules) != mine)


def look_words(record: Record) -> str:
    """Return what has to stand beside a record that is judged by rules not in force."""
    return (
        f"A look only: as judged by {named(record.rules)}. "
        "This is not the line-up's own verdict, and nothing of it is kept."
    )


def named(rules: Rules) -> str:
    """Return what a set is called, with its version, and whether it was edited since."""
    return set_name(rules)


def _offer(rules: Rules, *, own: bool) -> SetOffer:
    return SetOffer(rules, f"{named(rules)}{', your own' if own else ''}", own)
