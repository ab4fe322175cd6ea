"""Who paid, on screen while the comparison is made."""

from __future__ import annotations

from dataclasses import replace

from benchlog.sheet.cards.block import Block, NoRoom, Para
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.frame import first_that_fits, plate
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import PLAIN_TO_READ, QUIET, Area
from benchlog.sheet.cards.told import Deck, short_name, with_short_names
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.publish import check_disclosure
from benchlog.trade.specimen import Lineup, Paid


def disclosure_cards(deck: Deck) -> tuple[Card, ...]:
    """Return who paid, on as many cards as it takes; what was not paid for comes first.

    Raises PublishRefused while it is not answered for even one specimen.
    """
    check_disclosure(deck.record.lineup)
    groups = _groups(deck.record.lineup)
    cards: list[list[str]] = [[]]
    for group in groups:
        try:
            _laid(deck, [*cards[-1], group])
            cards[-1].append(group)
        except NoRoom:
            cards.append([group])
    return tuple(_card(deck, lines, n, len(cards)) for n, lines in enumerate(cards, start=1))


def _groups(lineup: Lineup) -> list[str]:
    """Return a line for each way in which specimens were come by."""
    ways = [p for p in Paid if p not in (Paid.UNANSWERED, Paid.BOUGHT)]
    lines = []
    for paid in (*ways, Paid.BOUGHT):
        some = tuple(replace(s, nickname=short_name(s)) for s in lineup.specimens if s.paid is paid)
        if some:
            told = disclosure_of(replace(lineup, specimens=some)).on_screen
            lines.append(with_short_names(told, some))
    return lines


def _laid(deck: Deck, lines: list[str]) -> tuple[Area, Block]:
    paras = [
        Para("Who paid", PLAIN_TO_READ, PLAIN_TO_READ, colour=QUIET),
        *(Para(line, PLAIN_TO_READ, PLAIN_TO_READ, BOLD, before=8.0) for line in lines),
    ]
    return first_that_fits(paras, [deck.frame.tall, deck.frame.wide])


def _card(deck: Deck, lines: list[str], n: int, of: int) -> Card:
    area, block = _laid(deck, lines)
    part = f", {n} of {of}" if of > 1 else ""
    return Card(
        name="disclosure" + (f"_{n}" if of > 1 else ""),
        title=f"Who paid{part}",
        items=(*deck.frame.notice, *plate(area), *block.items),
        spoken=f"Who paid{part}. " + " ".join(f"{line}." for line in lines),
        shortened=tuple(
            s.nickname for s in deck.record.lineup.specimens if short_name(s).endswith("…")
        ),
        margin=deck.frame.margin,
    )
