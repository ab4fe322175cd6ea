"""The rules are locked before the cut; every later change has a reason and is told."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.errors import PlanRefused, ResourceFault
from benchlog.judge.rules_file import digest
from benchlog.shelf import SqlShelf
from benchlog.tasks.cut import behind_cut, is_cut
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.edit_rules import set_weight
from benchlog.tasks.lock import (
    change_rules,
    lock_rules,
    lock_story,
    owed_before_cut,
    rules_in_force,
)
from benchlog.tasks.own_sets import save_own_set
from benchlog.tasks.walk import Teardown
from benchlog.trade.specimen import Paid
from tests.small_trade import SMALL, HandClock
from tests.tasks.fair_scenes import SHIPPED, SPIN_ON, make_cut, read_dents, spin_on_lineup

HEAVIER = set_weight(SHIPPED, "dents", "9")


def story(shelf: SqlShelf) -> tuple[str, ...]:
    return lock_story(draw_up(shelf, "l-1", SPIN_ON))


def test_lock_stamps_rules_and_digest(fair: SqlShelf, clock: HandClock) -> None:
    lock = lock_rules(fair, clock, "l-1", HEAVIER)
    assert (lock.digest, lock.after, lock.after_cut, lock.reason) == (
        digest(HEAVIER),
        "",
        False,
        "",
    )
    assert fair.rules_locks("l-1") == [lock]
    assert rules_in_force(fair, fair.lineup("l-1")) == HEAVIER
    assert story(fair) == (
        f"The rules, “Bench rules”, version {SHIPPED.version}, edited, digest"
        f" {digest(HEAVIER)[:12]}, were locked on 2026-05-04 09:30 UTC, before the cut.",
    )


def test_lock_notes_the_latest_reading(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock)
    lock = lock_rules(fair, clock, "l-1", SHIPPED)
    assert lock.after == fair.readings("l-1")[-1].id
    assert not lock.after_cut


def test_set_as_it_came_is_not_told_as_edited(fair: SqlShelf, clock: HandClock) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    assert story(fair)[0].startswith(f"The rules, “Bench rules”, version {SHIPPED.version}, digest")


def test_second_lock_is_refused(fair: SqlShelf, clock: HandClock) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    with pytest.raises(PlanRefused, match="locked already"):
        lock_rules(fair, clock, "l-1", HEAVIER)
    assert len(fair.rules_locks("l-1")) == 1


def test_unsound_rules_are_never_locked(fair: SqlShelf, clock: HandClock) -> None:
    forgetful = replace(SHIPPED, entries=SHIPPED.entries[:1])
    with pytest.raises(PlanRefused, match="No rule speaks of the"):
        lock_rules(fair, clock, "l-1", forgetful)
    make_cut(fair, clock)
    with pytest.raises(PlanRefused, match="No rule speaks of the"):
        change_rules(fair, clock, "l-1", forgetful, "tried it")
    assert fair.rules_locks("l-1") == []


def test_change_tells_reason_and_difference(fair: SqlShelf, clock: HandClock) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    change_rules(fair, clock, "l-1", HEAVIER, "A viewer found a slip. ")
    make_cut(fair, clock)
    lighter = set_weight(HEAVIER, "dents", "0.5")
    last = change_rules(fair, clock, "l-1", lighter, "nine was mistyped")
    first, before, after = story(fair)
    assert "before the cut" in first
    assert "before the cut" in before
    assert "Reason: A viewer found a slip. " in before
    assert "weight 2 → 9." in before
    assert "after the cut" in after
    assert last.digest[:12] in after
    assert "Reason: nine was mistyped. " in after
    assert "weight 9 → 0.5." in after
    assert draw_up(fair, "l-1", SPIN_ON).rules == lighter


@pytest.mark.parametrize("reason", ["", "  \n"])
def test_change_without_reason_is_refused(fair: SqlShelf, clock: HandClock, reason: str) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    with pytest.raises(PlanRefused, match="reason") as refusal:
        change_rules(fair, clock, "l-1", HEAVIER, reason)
    assert refusal.value.field == "reason"
    assert len(fair.rules_locks("l-1")) == 1


def test_change_of_nothing_is_refused(fair: SqlShelf, clock: HandClock) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    same = replace(SHIPPED, entries=SHIPPED.entries[::-1])
    with pytest.raises(PlanRefused, match="Nothing in the rules"):
        change_rules(fair, clock, "l-1", same, "to see it")
    assert len(fair.rules_locks("l-1")) == 1


def test_change_before_any_lock_is_refused(fair: SqlShelf, clock: HandClock) -> None:
    with pytest.raises(PlanRefused, match="not locked yet"):
        change_rules(fair, clock, "l-1", HEAVIER, "because")


def test_unlocked_lineup_says_so(fair: SqlShelf, clock: HandClock) -> None:
    assert story(fair)[0].endswith("were not locked so far.")
    make_cut(fair, clock)
    (told,) = story(fair)
    assert told.endswith("were not locked before the cut.")
    assert digest(SHIPPED)[:12] in told
    assert draw_up(fair, "l-1", SPIN_ON).rules == SHIPPED


def test_late_lock_takes_standing_rules_only(fair: SqlShelf, clock: HandClock) -> None:
    make_cut(fair, clock)
    with pytest.raises(PlanRefused, match="cut has been made"):
        lock_rules(fair, clock, "l-1", HEAVIER)
    lock = lock_rules(fair, clock, "l-1", SHIPPED)
    assert lock.after_cut
    assert "not locked before the cut; put down on" in story(fair)[0]


def test_late_change_puts_down_what_stood(fair: SqlShelf, clock: HandClock) -> None:
    make_cut(fair, clock)
    change_rules(fair, clock, "l-1", HEAVIER, "dents matter more")
    stood, changed = fair.rules_locks("l-1")
    assert (stood.rules, stood.reason, stood.after_cut) == (SHIPPED, "", True)
    assert (changed.rules, changed.after_cut) == (HEAVIER, True)
    first, second = story(fair)
    assert "not locked before the cut" in first
    assert "weight 2 → 9." in second


def test_other_rules_than_those_in_force_are_named(fair: SqlShelf, clock: HandClock) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    told = lock_story(draw_up(fair, "l-1", SPIN_ON, HEAVIER))
    assert len(told) == 2
    assert told[1].startswith("Scored here under rules that are not in force")
    assert digest(HEAVIER)[:12] in told[1]


def test_lock_outlives_the_named_set(fair: SqlShelf, clock: HandClock) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    fair.save_lineup(spin_on_lineup(rules="gone"))
    assert rules_in_force(fair, fair.lineup("l-1")) == SHIPPED


def test_own_set_is_found_by_name(fair: SqlShelf, clock: HandClock) -> None:
    save_own_set(fair, clock, HEAVIER, "My rules")
    second = save_own_set(fair, clock, set_weight(HEAVIER, "dents", "2"), "My rules")
    fair.save_lineup(spin_on_lineup(rules="my_rules"))
    assert rules_in_force(fair, fair.lineup("l-1")) == second
    with pytest.raises(ResourceFault):
        rules_in_force(fair, spin_on_lineup(rules="nowhere"))


def test_cut_is_made_by_yes_or_reading(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock)
    assert not is_cut(fair, "l-1")
    make_cut(fair, clock)
    assert is_cut(fair, "l-1")
    assert {"media_length", "adbv_material"} <= behind_cut(SPIN_ON)
    assert "dents" not in behind_cut(SPIN_ON)


def test_scratched_reading_behind_the_cut_counts(shelf: SqlShelf, clock: HandClock) -> None:
    bench = Teardown(shelf, clock, SMALL, "l-1")
    bench.go_to("media_length", "s-a")
    bench.accept("1200")
    assert shelf.place("l-1") is not None
    bench.scratch_last()
    assert is_cut(shelf, "l-1", SMALL)


def test_what_is_owed_is_listed(fair: SqlShelf, clock: HandClock) -> None:
    assert owed_before_cut(fair, fair.lineup("l-1")) == ("The rules are not locked.",)
    someone, *others = spin_on_lineup().specimens
    bare = spin_on_lineup(question=" ", specimens=(replace(someone, paid=Paid.UNANSWERED), *others))
    owed = owed_before_cut(fair, bare)
    assert len(owed) == 3
    assert "Nobody said who paid for Amber." in owed
    lock_rules(fair, clock, "l-1", SHIPPED)
    assert owed_before_cut(fair, fair.lineup("l-1")) == ()
