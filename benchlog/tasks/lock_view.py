"""The lock of the rules as it is shown: how they stand, what was typed, what may be done next."""

from __future__ import annotations

from collections.abc import Sequence as Ordered
from dataclasses import dataclass

from benchlog.judge.locked import RulesLock
from benchlog.judge.rules import Rules, ValueKind
from benchlog.judge.rules_changes import changes_between
from benchlog.judge.rules_file import digest, load_rules
from benchlog.tasks import edit_rules as edit
from benchlog.tasks.cut import is_cut
from benchlog.tasks.lock import (
    DIGEST_SHOWN,
    change_rules,
    lock_rules,
    moment_text,
    owed_before_cut,
    rules_in_force,
)
from benchlog.tasks.ports import Clock, Shelf
from benchlog.tasks.rules_draft import RulesDraft
from benchlog.tasks.rules_view import worth_keys, worth_pairs
from benchlog.tasks.sets_view import named
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup

NOT_LOCKED = "rules not locked"
COVERAGE, POINTS = "smallest_coverage", "meaningful_score"


@dataclass(frozen=True)
class LockState:
    """How the rules of a line-up stand, in words.

    `locked` and `after_cut` as they are on the shelf; `changed` tells that a draft is another set
    than the one in force. `needs_reason` tells that putting it in force is a change that is
    printed; `may` that there is anything to put in force at all. `act` names that step.
    """

    words: str
    locked: bool
    after_cut: bool
    changed: bool
    needs_reason: bool
    may: bool
    act: str


def edited(draft: RulesDraft, subject: str, field: str, text: str) -> RulesDraft:
    """Return the draft with one field of one rule as typed; itself when that says the same.

    `field` is "weight", "meaningful" or "worth"; raises PlanRefused.
    """
    rules = draft.now
    if field == "weight":
        return draft.step(edit.set_weight(rules, subject, text))
    if field == "meaningful":
        return draft.step(edit.set_meaningful(rules, subject, text))
    rule, pairs = edit.rule_about(rules, subject), worth_pairs(text)
    if rule.kind is ValueKind.PIECEWISE:
        return draft.step(edit.set_anchors(rules, subject, pairs))
    return draft.step(edit.set_worths(rules, subject, worth_keys(rule, pairs)))


def counting(draft: RulesDraft, subject: str, *, counts: bool) -> RulesDraft:
    """Return the draft with a subject scored or left out.

    It counts again as it last did in this draft, else as in the shipped set; raises PlanRefused
    for what is scored in neither. What was not compared and counts now is compared again.
    """
    if not counts:
        return draft.step(edit.leave_out(draft.now, subject))
    if _scores(draft.now, subject):
        return comparing(draft, subject, compared=True)
    earlier = (*reversed(draft.past), draft.base)
    like = next((rules for rules in earlier if _scores(rules, subject)), load_rules())
    return draft.step(edit.count(draft.now, subject, like))


def comparing(draft: RulesDraft, subject: str, *, compared: bool) -> RulesDraft:
    """Return the draft with a subject compared or not; what it weighs waits meanwhile."""
    return draft.step(edit.compare(draft.now, subject, wanted=compared))


def with_limit(draft: RulesDraft, field: str, text: str) -> RulesDraft:
    """Return the draft with COVERAGE or POINTS as typed; raises PlanRefused."""
    change = edit.set_smallest_coverage if field == COVERAGE else edit.set_meaningful_score
    return draft.step(change(draft.now, text))


def latest_step(draft: RulesDraft) -> str:
    """Return what the latest step did, "" when there is none to take back."""
    if not draft.past:
        return ""
    changes = changes_between(draft.past[-1], draft.now)
    more = f" and {len(changes) - 1} more" if len(changes) > 1 else ""
    return f"{changes[0].sentence}{more}"


def lock_state(
    shelf: Shelf, lineup: Lineup, draft: RulesDraft, sequence: Sequence | None = None
) -> LockState:
    """Return how the rules stand, and what may be done with a draft of them."""
    locks = shelf.rules_locks(lineup.id)
    after_cut = is_cut(shelf, lineup.id, sequence)
    force = rules_in_force(shelf, lineup)
    changed = digest(draft.now) != digest(force)
    needs_reason = changed and (bool(locks) or after_cut)
    return LockState(
        words=_words(locks, force, after_cut=after_cut),
        locked=bool(locks),
        after_cut=after_cut,
        changed=changed,
        needs_reason=needs_reason,
        may=changed or not locks,
        act="Change the rules" if needs_reason else "Lock the rules",
    )


def put_in_force(
    shelf: Shelf,
    clock: Clock,
    lineup: Lineup,
    draft: RulesDraft,
    reason: str = "",
    sequence: Sequence | None = None,
) -> RulesLock:
    """Lock a draft's rules, or change locked ones with a reason; raises PlanRefused."""
    if lock_state(shelf, lineup, draft, sequence).needs_reason:
        return change_rules(shelf, clock, lineup.id, draft.now, reason, sequence)
    return lock_rules(shelf, clock, lineup.id, draft.now, sequence)


def owed_at_bench(shelf: Shelf, lineup_id: str) -> tuple[str, ...]:
    """Return what is owed before the first cut; nothing once that was made."""
    return () if is_cut(shelf, lineup_id) else owed_before_cut(shelf, shelf.lineup(lineup_id))


def short_state(locks: Ordered[RulesLock]) -> str:
    """Return in a few words how the rules of a line-up stand."""
    if not locks:
        return NOT_LOCKED
    if len(locks) == 1:
        return "rules put down after the cut" if locks[0].after_cut else "rules locked"
    late = any(lock.after_cut for lock in locks[1:])
    return f"rules changed {'after' if late else 'before'} the cut"


def _words(locks: Ordered[RulesLock], force: Rules, *, after_cut: bool) -> str:
    if not locks:
        late = " The cut has been made: only as they are can they still be put down."
        return f"{named(force)}: not locked.{late if after_cut else ''}"
    latest = locks[-1]
    did = "locked" if len(locks) == 1 else "changed"
    side = "after" if latest.after_cut else "before"
    return (
        f"{named(force)}: {did} {moment_text(latest.at)}, {side} the cut. "
        f"Digest {latest.digest[:DIGEST_SHOWN]}."
    )


def _scores(rules: Rules, subject: str) -> bool:
    return any(r.subject == subject and r.kind is not ValueKind.NONE for r in rules.entries)
