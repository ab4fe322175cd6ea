"""Records, checks and photos that cards are drawn from in tests."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from benchlog.judge.overruling import Overruling
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.cards.all_cards import CardSet, CardWishes, StandIn, all_cards
from benchlog.sheet.cards.card import Card, Words
from benchlog.sheet.cards.look import Margin
from benchlog.tasks.record import Record
from benchlog.tasks.stand_in import Side, check_stand_in
from benchlog.trade.component import Component
from tests.sheet.sample_record import LINEUP, START, PictureShelf, photos, record
from tests.tasks.sample_records import sample_record

HANDBOOK = "HB-77 120"
DENTED = "the wall is dented all round, which no rule asks"


@cache
def stand_in() -> StandIn:
    """The sample's first filter beside its second: lines of every outcome."""
    shown = sample_record()
    first, second, *_ = shown.lineup.specimens
    sides = [
        Side(
            s.nickname, {key: found for (key, who), found in shown.findings.items() if who == s.id}
        )
        for s in (first, second)
    ]
    return StandIn(check_stand_in(*sides, shown.sequence, HANDBOOK), *sides)


@cache
def sample_cards(units: str = "metric", margin: Margin = Margin.FIVE) -> CardSet:
    """Every card of the sample line-up, its photos taken as readable."""
    shown = sample_record()
    ids = [photo.id for photo in shown.photos]
    return all_cards(shown, CardWishes(margin, units, stand_ins=(stand_in(),)), ids)


def named(cards: CardSet, name: str) -> Card:
    """The card of that name."""
    return next(card for card in cards.cards if card.name == name)


def texts(card: Card) -> str:
    """All words on a card, folded lines joined, breakable or not."""
    lines = (item.said for item in card.items if isinstance(item, Words))
    return " ".join(lines).replace("\u00a0", " ")


def overruled(shown: Record, reason: str = DENTED) -> Record:
    """The record with its can's award overruled by the reviewer."""
    ids = tuple(s.id for s in shown.lineup.specimens)
    by_hand = Overruling("o1", LINEUP, Component.CAN, AwardKind.TIE, ids, reason, START)
    return replace(shown, overrulings={Component.CAN: by_hand})


def in_doubt(shown: Record) -> Record:
    """The record with the readings of the first specimen's can wall in doubt."""
    first = shown.lineup.specimens[0].id
    readings = shown.findings["can_wall", first].readings
    return replace(shown, in_doubt=frozenset(r.id for r in readings))


def pictured(count: int) -> tuple[Record, PictureShelf]:
    """Some invented specimens, each with a picture of its element."""
    shown = record(count)
    made, shelf = photos(shown.lineup.specimens, ("element", "outside"), (400, 300))
    return replace(shown, photos=made), shelf
