"""Records, checks and photos that cards are drawn from in tests."""

from __future__ import annotations

from dataclasses import replace

from benchlog.judge.overruling import Overruling
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.cards.all_cards import StandIn
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in import Side, check_stand_in
from benchlog.trade.component import Component
from tests.sheet.sample_record import LINEUP, START, record
from tests.tasks.sample_records import sample_record

HANDBOOK = "HB-77 120"


def all_kinds() -> StandIn:
    """The sample's first filter beside its second: lines of every outcome."""
    shown = sample_record()
    first, second, *_ = shown.lineup.specimens
    sides = [
        Side(
            s.nickname,
            {key: found for (key, who), found in shown.findings.items() if who == s.id},
        )
        for s in (first, second)
    ]
    return StandIn(check_stand_in(*sides, shown.sequence, HANDBOOK), *sides)


def overruled(
    shown: Record, reason: str = "the wall is dented all round, which no rule asks"
) -> Record:
    """The record with its can's award overruled by the reviewer."""
    by_hand = Overruling("o1", LINEUP, Component.CAN, AwardKind.TIE, (), reason, START)
    return replace(shown, overrulings={Component.CAN: by_hand})


def in_doubt(shown: Record) -> Record:
    """The record with the readings of the first specimen's can wall in doubt."""
    first = shown.lineup.specimens[0].id
    readings = shown.findings["can_wall", first].readings
    return replace(shown, in_doubt=frozenset(r.id for r in readings))


def six() -> Record:
    """Six invented specimens."""
    return record(6)
