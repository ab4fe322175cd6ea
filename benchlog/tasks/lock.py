"""Lock the rules of judging before the cut, change them afterwards with a reason, tell of both."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from itertools import pairwise

from benchlog.errors import PlanRefused
from benchlog.judge.locked import RulesLock
from benchlog.judge.rules import Rules
from benchlog.judge.rules_changes import changes_between
from benchlog.judge.rules_file import EDITED, digest, load_rules, set_name
from benchlog.judge.rules_json import sound
from benchlog.tasks.cut import is_cut
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf
from benchlog.tasks.record import Record
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup, Paid

DIGEST_SHOWN = 12
"""So many characters of a digest tell two sets of rules apart on paper."""


def rules_in_force(shelf: Shelf, lineup: Lineup) -> Rules:
    """Return what a line-up is judged by: its latest lock, else the set that it names.

    Raises ResourceFault when the named set is neither shipped nor the reviewer's own.
    """
    locks = shelf.rules_locks(lineup.id)
    return locks[-1].rules if locks else named_rules(shelf, lineup.rules)


def named_rules(shelf: Shelf, key: str) -> Rules:
    """Return the latest version of the reviewer's own set of that name, else the shipped set."""
    own = [rules for rules in shelf.own_rules() if rules.key == key]
    return own[-1] if own else load_rules(key)


def rightly_named(shelf: Shelf, rules: Rules) -> Rules:
    """Return rules under the version that they may bear.

    One of the reviewer's own sets that says otherwise than that version was kept is EDITED, for
    as long as it is locked: a shelf may be lost, and the name stands on paper. One that says the
    same again bears the bare version again.
    """
    bare = replace(rules, version=rules.version.removesuffix(EDITED))
    kept = [one for one in shelf.own_rules() if (one.key, one.version) == (bare.key, bare.version)]
    if not kept:
        return rules
    same = digest(kept[-1]) == digest(bare)
    return bare if same else replace(bare, version=f"{bare.version}{EDITED}")


def lock_rules(
    shelf: Shelf, clock: Clock, lineup_id: str, rules: Rules, sequence: Sequence | None = None
) -> RulesLock:
    """Lock the rules of a line-up for the first time.

    After the cut only the set that was in force all along can still be locked. Raises PlanRefused
    for rules that are not sound, that are locked already, or that would change after the cut.
    """
    if shelf.rules_locks(lineup_id):
        raise PlanRefused(
            "The rules of this line-up are locked already.",
            "Change them with a reason; the change is printed on the sheet.",
        )
    rules = rightly_named(shelf, rules)
    after_cut = is_cut(shelf, lineup_id, sequence)
    standing = rules_in_force(shelf, shelf.lineup(lineup_id))
    if after_cut and digest(standing) != digest(rules):
        raise PlanRefused(
            "The cut has been made, so these rules cannot be locked as if they came first.",
            "Change the rules with a reason instead.",
        )
    return _keep(shelf, clock, lineup_id, sound(rules), "", after_cut)


def change_rules(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    rules: Rules,
    reason: str,
    sequence: Sequence | None = None,
) -> RulesLock:
    """Put other rules in force; reason and changes are printed on the sheet.

    Where nothing was locked before the cut, the set in force till now is put down first, so that
    what changed can be told. Raises PlanRefused without a reason, when nothing changes, for rules
    that are not sound, and before anything was locked while the cut has not been made.
    """
    locked = bool(shelf.rules_locks(lineup_id))
    after_cut = is_cut(shelf, lineup_id, sequence)
    if not after_cut and not locked:
        raise PlanRefused("The rules are not locked yet.", "Lock them as they should be.")
    if not reason.strip():
        raise PlanRefused(
            "A change of locked rules needs its reason.",
            "Say in a few words why; viewers will read it.",
            field="reason",
        )
    standing = rules_in_force(shelf, shelf.lineup(lineup_id))
    named = rightly_named(shelf, sound(rules))
    if digest(standing) in (digest(rules), digest(named)):
        raise PlanRefused("Nothing in the rules has changed.", "Change something first.")
    if not locked:
        _keep(shelf, clock, lineup_id, standing, "", after_cut)
    return _keep(shelf, clock, lineup_id, named, reason.strip(), after_cut)


def _keep(
    shelf: Shelf, clock: Clock, lineup_id: str, rules: Rules, reason: str, after_cut: bool
) -> RulesLock:
    readings = shelf.readings(lineup_id)
    lock = RulesLock(
        new_id(),
        lineup_id,
        rules,
        digest(rules),
        clock.now(),
        reason,
        readings[-1].id if readings else "",
        after_cut,
    )
    shelf.add_rules_lock(lock)
    return lock


def owed_before_cut(shelf: Shelf, lineup: Lineup) -> tuple[str, ...]:
    """Return what should be settled before the first cut, in sentences; none when all is."""
    owed = []
    if not lineup.question.strip():
        owed.append("The question that this line-up answers is not written down.")
    unanswered = [s.nickname for s in lineup.specimens if s.paid is Paid.UNANSWERED]
    if unanswered:
        owed.append(f"Nobody said who paid for {', '.join(unanswered)}.")
    if not shelf.rules_locks(lineup.id):
        owed.append("The rules are not locked.")
    return tuple(owed)


def lock_story(record: Record) -> tuple[str, ...]:
    """Return how the rules came to be as they are, a sentence for each step, oldest first."""
    locks = record.locks
    if not locks:
        when = "not locked before the cut" if record.cut_made else "not locked so far"
        return (f"The rules, {_named(record.rules)}, were {when}.",)
    told = [_first(locks[0])]
    told += [_change(was.rules, lock) for was, lock in pairwise(locks)]
    if digest(record.rules) != locks[-1].digest:
        told.append(f"Scored here under rules that are not in force: {_named(record.rules)}.")
    return tuple(told)


def _first(lock: RulesLock) -> str:
    when = f"locked on {moment_text(lock.at)}, before the cut"
    if lock.after_cut:
        when = f"not locked before the cut; put down on {moment_text(lock.at)}"
    return f"The rules, {_named(lock.rules)}, were {when}."


def _change(before: Rules, lock: RulesLock) -> str:
    what = ". ".join(change.sentence for change in changes_between(before, lock.rules))
    return (
        f"Changed on {moment_text(lock.at)}, {_side(lock)} the cut, digest"
        f" {lock.digest[:DIGEST_SHOWN]}. Reason: {lock.reason.rstrip('.')}. {what}."
    )


def _named(rules: Rules) -> str:
    mark = digest(rules)[:DIGEST_SHOWN]
    return f"{set_name(rules)}, digest {mark}"


def _side(lock: RulesLock) -> str:
    return "after" if lock.after_cut else "before"


def moment_text(at: datetime) -> str:
    """Return a moment as it is printed: "2026-05-04 09:30 UTC"."""
    return f"{at.astimezone(UTC):%Y-%m-%d %H:%M} UTC"
