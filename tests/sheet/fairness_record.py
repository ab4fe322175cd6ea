"""A spin-on line-up off a real shelf, with all that bears on how fair its verdict is."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from benchlog.judge.verdict import AwardKind
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.edit_rules import set_weight
from benchlog.tasks.judge_blind import blind_answer, blind_next, reveal, start_blind
from benchlog.tasks.lock import change_rules, lock_rules
from benchlog.tasks.overrule import overrule
from benchlog.tasks.poll import enter_poll
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import (
    SHIPPED,
    SPIN_ON,
    WallTime,
    fair_shelf,
    make_cut,
    read_dents,
    spin_on_lineup,
)

LATE_REASON = "a dent was deeper than any that the rules thought of"
BY_HAND = "the dent sits on the rolled seam, which the rule does not see"
POLL = "Which can looks sturdiest?"
SEED = 20260504


@cache
def fair_record(*, revealed: bool = True) -> Record:
    """Lock, poll, judge blind, cut, change a rule late, overrule one award, edit the plan."""
    clock, wall = HandClock(), WallTime()
    with tempfile.TemporaryDirectory() as place, fair_shelf(Path(place) / "fair", wall) as shelf:
        lock_rules(shelf, clock, "l-1", SHIPPED)
        enter_poll(shelf, clock, "l-1", POLL, {"s-a": 31, "s-b": 12, "s-c": 7})
        read_dents(shelf, clock, "none none deep")
        run = start_blind(shelf, clock, "l-1", ("dents",), seed=SEED)
        owners = {code: owner for owner, code in run.codes}
        while asked := blind_next(shelf, run):
            said = "deep" if owners[asked.code] == "s-c" else "none"
            blind_answer(shelf, clock, run, said)
        if revealed:
            reveal(shelf, clock, run, sure=True)
        make_cut(shelf, clock)
        change_rules(shelf, clock, "l-1", set_weight(SHIPPED, "dents", "9"), LATE_REASON)
        drawn = draw_up(shelf, "l-1", SPIN_ON)
        if revealed:
            overrule(shelf, clock, drawn, Component.CAN, AwardKind.WINNER, ("s-b",), BY_HAND)
        wall.later()
        shelf.save_lineup(spin_on_lineup(question="Which can stands a garage floor?"))
        return draw_up(shelf, "l-1", SPIN_ON)
