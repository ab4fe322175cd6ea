"""The same thing of every specimen, side by side: columns for two and three, rows beyond.

The order of specimens is that of the bench, on every card. When not everything fits at a size that
can be read, a card is made for each unit, and then for each half of the line-up.
"""

from __future__ import annotations

from benchlog.settings import BOTH, INCH, METRIC
from benchlog.sheet.cards.block import NoRoom
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.frame import INSET, plate
from benchlog.sheet.cards.strip import Strip
from benchlog.sheet.cards.strip_layout import MOST_COLUMNS, laid_out
from benchlog.sheet.cards.told import Deck, label


def strip_cards(deck: Deck, subject: str) -> tuple[Card, ...]:
    """Return the card or cards of one subject; none for a single specimen. Raises NoRoom."""
    if len(deck.record.lineup.specimens) < 2:
        return ()
    whole, halved = _ways(deck, subject)
    for ways in (whole, halved):
        for shortens in (False, True):
            for strips in ways:
                try:
                    return tuple(_card(strip, shortens=shortens) for strip in strips)
                except NoRoom:
                    continue
    raise NoRoom


def _ways(deck: Deck, subject: str) -> tuple[list[tuple[Strip, ...]], list[tuple[Strip, ...]]]:
    """Return how the whole line-up may stand on cards, and how it may when it is halved."""
    specimens = deck.record.lineup.specimens
    units = (METRIC, INCH) if deck.units == BOTH else (deck.units,)
    whole: list[tuple[Strip, ...]] = [(Strip(deck, subject, specimens, deck.units),)]
    if len(units) > 1:
        whole.append(tuple(Strip(deck, subject, specimens, unit) for unit in units))
    if len(specimens) <= MOST_COLUMNS:
        return whole, []
    half = (len(specimens) + 1) // 2
    halves = tuple(enumerate((specimens[:half], specimens[half:]), start=1))
    strips = (Strip(deck, subject, s, u, f"{n} of 2") for u in units for n, s in halves)
    return whole, [tuple(strips)]


def _card(strip: Strip, *, shortens: bool) -> Card:
    deck = strip.deck
    area, pile = laid_out(strip, deck.frame, shortens=shortens)
    block = pile.at(area.left + INSET, area.top + INSET)
    units = "" if strip.units == deck.units else strip.units
    more = "".join(f", {word}" for word in (units, strip.part) if word)
    return Card(
        name="_".join(filter(None, ("side_by_side", strip.subject, units, strip.part[:1]))),
        title=f"Side by side: {label(deck, strip.subject)}{more}",
        items=(*deck.frame.notice, *plate(area), *block.items),
        spoken=strip.spoken,
        readings=tuple(dict.fromkeys(r for v in strip.values for r in v.readings)),
        shortened=block.shortened,
        margin=deck.frame.margin,
    )
