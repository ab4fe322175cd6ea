"""The reviewer's own sets: kept by version, compared, and tried without touching anything."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.errors import PlanRefused
from benchlog.judge.rules_file import digest
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.edit_rules import leave_out, set_weight
from benchlog.tasks.lock import lock_rules
from benchlog.tasks.own_sets import all_sets, compare_sets, key_for, rescore, save_own_set
from benchlog.trade.component import Component
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SHIPPED, SPIN_ON, read_dents

HEAVIER = set_weight(SHIPPED, "dents", "9")


def test_saving_again_makes_the_next_version(fair: SqlShelf, clock: HandClock) -> None:
    first = save_own_set(fair, clock, HEAVIER, "Long trips, 2")
    second = save_own_set(fair, clock, set_weight(first, "dents", "3"), "Long trips, 2")
    assert [(one.key, one.version) for one in (first, second)] == [
        ("long_trips_2", "1"),
        ("long_trips_2", "2"),
    ]
    assert fair.own_rules() == [first, second]
    assert all_sets(fair) == (SHIPPED, first, second)


def test_unchanged_set_makes_no_version(fair: SqlShelf, clock: HandClock) -> None:
    first = save_own_set(fair, clock, HEAVIER, "Long trips")
    with pytest.raises(PlanRefused, match="Version 1 of 'Long trips' says the same"):
        save_own_set(fair, clock, first, "Long trips")
    assert fair.own_rules() == [first]


@pytest.mark.parametrize(
    ("label", "told"),
    [("", "no name"), (" ?! ", "no name"), ("Bench rules", "came with the program")],
)
def test_unfit_name_is_refused(fair: SqlShelf, clock: HandClock, label: str, told: str) -> None:
    with pytest.raises(PlanRefused, match=told):
        save_own_set(fair, clock, HEAVIER, label)
    assert fair.own_rules() == []


def test_unsound_set_is_not_kept(fair: SqlShelf, clock: HandClock) -> None:
    with pytest.raises(PlanRefused, match="No rule speaks"):
        save_own_set(fair, clock, replace(HEAVIER, entries=()), "Empty")
    assert fair.own_rules() == []


def test_key_is_plain() -> None:
    assert key_for("  Kälte & Start 0W-20 ") == "k_lte_start_0w_20"


def test_compared_sets_differ_beyond_their_names(fair: SqlShelf, clock: HandClock) -> None:
    own = save_own_set(fair, clock, HEAVIER, "Mine")
    (only,) = compare_sets(SHIPPED, own)
    assert only.subject == "dents"
    assert compare_sets(SHIPPED, replace(SHIPPED, label="Same", version="7")) == ()


def test_rescoring_touches_nothing(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock)
    lock_rules(fair, clock, "l-1", SHIPPED)
    before = draw_up(fair, "l-1", SPIN_ON)
    other = rescore(fair, "l-1", leave_out(SHIPPED, "dents"))
    assert digest(other.rules) != digest(before.rules)
    assert other.locks == before.locks
    after = draw_up(fair, "l-1", SPIN_ON)
    assert (after.digest, after.verdict, after.rules) == (
        before.digest,
        before.verdict,
        before.rules,
    )
    assert digest(fair.rules_locks("l-1")[-1].rules) == digest(SHIPPED)
    counted = [record.verdict.score(Component.CAN, "s-a").of for record in (before, other)]
    assert counted[0] == counted[1] + 1


def test_rescoring_wants_sound_rules(fair: SqlShelf) -> None:
    with pytest.raises(PlanRefused):
        rescore(fair, "l-1", replace(SHIPPED, entries=()))
