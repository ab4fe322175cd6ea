"""The record holds how a line-up was judged, and its digest covers all of it."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace

import pytest

from benchlog.judge.rules_file import digest
from benchlog.judge.rules_json import rules_from
from benchlog.judge.verdict import AwardKind
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.edit_rules import set_weight
from benchlog.tasks.judge_blind import reveal, start_blind, unrevealed
from benchlog.tasks.lock import change_rules, lock_rules
from benchlog.tasks.overrule import overrule
from benchlog.tasks.poll import enter_poll
from benchlog.tasks.record import Record
from benchlog.tasks.tell import tell
from benchlog.trade.component import Component
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import (
    SHIPPED,
    SPIN_ON,
    WallTime,
    make_cut,
    read_dents,
    spin_on_lineup,
)

HEAVIER = set_weight(SHIPPED, "dents", "9")


def drawn(shelf: SqlShelf) -> Record:
    return draw_up(shelf, "l-1", SPIN_ON)


def lock(shelf: SqlShelf, clock: HandClock) -> None:
    lock_rules(shelf, clock, "l-1", SHIPPED)


def change(shelf: SqlShelf, clock: HandClock) -> None:
    change_rules(shelf, clock, "l-1", HEAVIER, "dents matter more")


def by_hand(shelf: SqlShelf, clock: HandClock) -> None:
    why = "the dent sits on the seam"
    overrule(shelf, clock, drawn(shelf), Component.CAN, AwardKind.WINNER, ("s-b",), why)


def blind(shelf: SqlShelf, clock: HandClock) -> None:
    start_blind(shelf, clock, "l-1", ("rattle",))


def opened(shelf: SqlShelf, clock: HandClock) -> None:
    run = unrevealed(shelf, "l-1")
    assert run is not None
    reveal(shelf, clock, run, sure=True)


def poll(shelf: SqlShelf, clock: HandClock) -> None:
    enter_poll(shelf, clock, "l-1", "Which?", {"s-a": 3})


STEPS: tuple[Callable[[SqlShelf, HandClock], None], ...] = (
    lock,
    change,
    by_hand,
    poll,
    blind,
    opened,
    make_cut,
)


@pytest.fixture
def judged(fair: SqlShelf, clock: HandClock, wall: WallTime) -> SqlShelf:
    """Everything of judging done once, and the plan edited afterwards."""
    read_dents(fair, clock, "none none deep")
    for step in STEPS:
        step(fair, clock)
    wall.later()
    fair.save_lineup(spin_on_lineup(question="Another one?"))
    return fair


def test_digest_covers_every_step(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock, "none none deep")
    digests = [drawn(fair).digest]
    for step in STEPS:
        step(fair, clock)
        digests.append(drawn(fair).digest)
        assert drawn(fair).digest == digests[-1]
    assert len(set(digests)) == len(STEPS) + 1


def test_record_holds_everything(judged: SqlShelf) -> None:
    record = drawn(judged)
    assert record.rules == HEAVIER
    assert list(record.locks) == judged.rules_locks("l-1")
    assert list(record.overrulings) == [Component.CAN]
    assert list(record.blind_runs) == judged.blind_runs("l-1")
    assert list(record.reveals) == judged.reveals("l-1")
    assert list(record.polls) == judged.polls("l-1")
    assert [one.new for one in record.plan_changes] == ["Another one?"]
    assert record.cut_made


def test_json_tells_how_it_was_judged(judged: SqlShelf) -> None:
    record = drawn(judged)
    told = json.loads(json.dumps(tell(record), allow_nan=False))
    assert [one["digest"] for one in told["locks"]] == [digest(SHIPPED), digest(HEAVIER)]
    assert [rules_from(one["rules"]) for one in told["locks"]] == [SHIPPED, HEAVIER]
    assert [one["after_cut"] for one in told["locks"]] == [False, False]
    assert told["overrulings"][0]["winners"] == ["s-b"]
    assert told["blind_runs"][0]["attributes"] == ["rattle"]
    assert told["reveals"][0]["run_id"] == told["blind_runs"][0]["id"]
    assert told["polls"][0]["votes"] == [["s-a", 3], ["s-b", 0], ["s-c", 0]]
    assert told["plan_changes"][0]["sentence"].endswith("→ Another one?")
    assert told["cut_made"] is True


def test_order_of_rules_moves_no_digest(fair: SqlShelf, clock: HandClock) -> None:
    read_dents(fair, clock)
    turned = replace(SHIPPED, entries=SHIPPED.entries[::-1])
    assert draw_up(fair, "l-1", SPIN_ON, turned).digest == drawn(fair).digest
    assert draw_up(fair, "l-1", SPIN_ON, HEAVIER).digest != drawn(fair).digest
