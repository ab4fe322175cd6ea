"""What was edited in a plan after it counted is told to viewers."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.lock import lock_rules
from benchlog.tasks.plan import fresh_specimen
from benchlog.tasks.plan_changes import plan_changes
from benchlog.trade.specimen import Lineup, Paid
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SHIPPED, SPIN_ON, WallTime, read_dents, spin_on_lineup


def sentences(shelf: SqlShelf) -> list[str]:
    return [change.sentence for change in plan_changes(shelf, "l-1")]


def with_amber(**fields: object) -> Lineup:
    amber, *others = spin_on_lineup().specimens
    return spin_on_lineup(specimens=(replace(amber, **fields), *others))


def test_edits_of_a_free_plan_are_nobodys_business(fair: SqlShelf, wall: WallTime) -> None:
    wall.later()
    fair.save_lineup(with_amber(price=Decimal("1.00")))
    assert sentences(fair) == []


def test_edits_before_the_lock_are_left_out(
    fair: SqlShelf, clock: HandClock, wall: WallTime
) -> None:
    fair.save_lineup(spin_on_lineup(question="An early one?"))
    lock_rules(fair, clock, "l-1", SHIPPED)
    wall.later()
    fair.save_lineup(spin_on_lineup(question="A late one?"))
    assert sentences(fair) == ["Question: An early one? → A late one?"]


def test_price_and_payer_are_told_after_a_reading(
    fair: SqlShelf, clock: HandClock, wall: WallTime
) -> None:
    read_dents(fair, clock)
    wall.later()
    fair.save_lineup(with_amber(price=Decimal("7.50"), paid=Paid.LENT, giver="a neighbour"))
    assert sentences(fair) == [
        "Amber, who paid: bought by the reviewer → lent",
        "Amber, who gave it: nothing → a neighbour",
        "Amber, price: 8.90 → 7.50",
    ]
    record = draw_up(fair, "l-1", SPIN_ON)
    assert [change.sentence for change in record.plan_changes] == sentences(fair)


def test_looks_of_a_tag_are_not_told(fair: SqlShelf, clock: HandClock, wall: WallTime) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    wall.later()
    fair.save_lineup(with_amber(colour="#000000", note="scuffed box"))
    assert sentences(fair) == []


def test_specimens_that_come_and_go_are_told(
    fair: SqlShelf, clock: HandClock, wall: WallTime
) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    wall.later()
    amber, cobalt, _ = spin_on_lineup().specimens
    olive = fresh_specimen(4)
    fair.save_lineup(spin_on_lineup(specimens=(amber, cobalt, olive)))
    assert sorted(sentences(fair)) == [
        "Moss was taken out of the line-up",
        "Olive came into the line-up",
    ]


def test_renamed_specimen_is_told(fair: SqlShelf, clock: HandClock, wall: WallTime) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    wall.later()
    fair.save_lineup(with_amber(nickname="Ochre"))
    assert sentences(fair) == ["Nickname: Amber → Ochre"]


def test_long_lists_are_only_said_to_have_changed(
    fair: SqlShelf, clock: HandClock, wall: WallTime
) -> None:
    lock_rules(fair, clock, "l-1", SHIPPED)
    wall.later()
    fair.save_lineup(spin_on_lineup(attributes=("dents",), balanced=True, name="Another name"))
    assert sentences(fair) == ["What is asked was changed", "Turns at being first: no → yes"]
