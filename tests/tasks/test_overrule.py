"""The reviewer's hand: an award of their own beside that of the rules, with its reason."""

from __future__ import annotations

import pytest

from benchlog.errors import PlanRefused
from benchlog.judge.verdict import AwardKind
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.overrule import NAMES, award_of, overrule, take_back_overruling
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SPIN_ON, read_dents

CAN = Component.CAN
WHY = "the deep dent sits on the seam"


@pytest.fixture
def record(fair: SqlShelf, clock: HandClock) -> Record:
    read_dents(fair, clock, "none none deep")
    return draw_up(fair, "l-1", SPIN_ON)


def test_rule_and_hand_stand_side_by_side(fair: SqlShelf, clock: HandClock, record: Record) -> None:
    given = award_of(record, CAN)
    made = overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-b",), f" {WHY} ")
    after = draw_up(fair, "l-1", SPIN_ON)
    assert after.overrulings == {CAN: made}
    assert (made.kind, made.winners, made.reason) == (AwardKind.WINNER, ("s-b",), WHY)
    assert award_of(after, CAN) == given
    assert after.verdict == record.verdict
    assert after.digest != record.digest


def test_latest_overruling_counts(fair: SqlShelf, clock: HandClock, record: Record) -> None:
    overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-b",), WHY)
    last = overrule(fair, clock, record, CAN, AwardKind.CANNOT_SEPARATE, (), "looked at it again")
    assert draw_up(fair, "l-1", SPIN_ON).overrulings == {CAN: last}
    assert len(fair.overrulings("l-1")) == 2


def test_taken_back_overruling_leaves_the_rule(
    fair: SqlShelf, clock: HandClock, record: Record
) -> None:
    overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-b",), WHY)
    overruled = draw_up(fair, "l-1", SPIN_ON)
    take_back_overruling(fair, clock, overruled, CAN)
    back = draw_up(fair, "l-1", SPIN_ON)
    assert back.overrulings == {}
    assert len(fair.overrulings("l-1")) == 2
    with pytest.raises(PlanRefused, match="was not overruled"):
        take_back_overruling(fair, clock, back, CAN)


@pytest.mark.parametrize(
    ("kind", "winners"),
    [
        (AwardKind.WINNER, ()),
        (AwardKind.WINNER, ("s-a", "s-b")),
        (AwardKind.JOINT_WINNERS, ("s-a",)),
        (AwardKind.JOINT_WINNERS, ("s-a", "s-b", "s-c")),
        (AwardKind.DIFFERENT, ("s-a",)),
        (AwardKind.NOT_JUDGED, ("s-a",)),
        (AwardKind.CANNOT_SEPARATE, ("s-a", "s-b")),
    ],
)
def test_winners_must_fit_the_award(
    fair: SqlShelf,
    clock: HandClock,
    record: Record,
    kind: AwardKind,
    winners: tuple[str, ...],
) -> None:
    with pytest.raises(PlanRefused, match=f"'{kind}' names {NAMES[kind]}") as refusal:
        overrule(fair, clock, record, CAN, kind, winners, WHY)
    assert refusal.value.field == "winners"
    assert fair.overrulings("l-1") == []


def test_tie_names_everybody(fair: SqlShelf, clock: HandClock, record: Record) -> None:
    made = overrule(fair, clock, record, CAN, AwardKind.TIE, (), WHY)
    assert made.winners == ("s-a", "s-b", "s-c")


def test_winners_stand_in_bench_order(fair: SqlShelf, clock: HandClock, record: Record) -> None:
    made = overrule(fair, clock, record, CAN, AwardKind.JOINT_WINNERS, ("s-c", "s-a"), WHY)
    assert made.winners == ("s-a", "s-c")


def test_stranger_cannot_win(fair: SqlShelf, clock: HandClock, record: Record) -> None:
    with pytest.raises(PlanRefused, match="not in the line-up"):
        overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-z",), WHY)


@pytest.mark.parametrize(
    ("reason", "told"),
    [
        ("", "needs its reason"),
        (" . ", "needs its reason"),
        ("winner", "says what, and not why"),
        ("Different, not better.", "says what, and not why"),
        ("Better!", "says what, and not why"),
    ],
)
def test_reason_says_why(
    fair: SqlShelf, clock: HandClock, record: Record, reason: str, told: str
) -> None:
    with pytest.raises(PlanRefused, match=told) as refusal:
        overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-b",), reason)
    assert refusal.value.field == "reason"


def test_what_the_rule_gave_overrules_nothing(
    fair: SqlShelf, clock: HandClock, record: Record
) -> None:
    for award in record.verdict.awards:
        with pytest.raises(PlanRefused, match="gave this"):
            overrule(fair, clock, record, award.component, award.kind, award.winners, WHY)


def test_saying_the_same_again_is_refused(fair: SqlShelf, clock: HandClock, record: Record) -> None:
    overrule(fair, clock, record, CAN, AwardKind.WINNER, ("s-b",), WHY)
    again = draw_up(fair, "l-1", SPIN_ON)
    with pytest.raises(PlanRefused, match="said already"):
        overrule(fair, clock, again, CAN, AwardKind.WINNER, ("s-b",), WHY)
    overrule(fair, clock, again, CAN, AwardKind.WINNER, ("s-b",), "the seam is torn as well")


def test_component_without_rules_is_refused(
    fair: SqlShelf, clock: HandClock, record: Record
) -> None:
    judged = {award.component for award in record.verdict.awards}
    assert Component.O_RINGS not in judged
    with pytest.raises(PlanRefused, match="say nothing of the O-rings"):
        overrule(fair, clock, record, Component.O_RINGS, AwardKind.TIE, (), WHY)
