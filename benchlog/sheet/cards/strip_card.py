"""The same thing of every specimen, side by side: columns for two and three, rows beyond.

The order of specimens is that of the bench, on every card. When not everything fits at a size that
can be read, a card is made for each unit, and then for each half of the line-up.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchlog.settings import BOTH, INCH, METRIC
from benchlog.sheet.cards.block import NoRoom
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.frame import INSET, plate
from benchlog.sheet.cards.strip import Strip
from benchlog.sheet.cards.strip_layout import laid_out
from benchlog.sheet.cards.told import Deck, label


def strip_cards(deck: Deck, subject: str) -> tuple[Card, ...]:
    """Return the card or cards of one subject; none for a single specimen. Raises NoRoom."""
    if len(deck.record.lineup.specimens) < 2:
        return ()
    for shortens in (False, True):
        for strips in _ways(deck, subject):
            try:
                return tuple(_card(strip, shortens=shortens) for strip in strips)
            except NoRoom:
                continue
    raise NoRoom


def _ways(deck: Deck, subject: str) -> Iterator[tuple[Strip, ...]]:
    specimens = deck.record.lineup.specimens
    yield (Strip(deck, subject, specimens, deck.units),)
    units = (METRIC, INCH) if deck.units == BOTH else (deck.units,)
    if len(units) > 1:
        yield tuple(Strip(deck, subject, specimens, unit) for unit in units)
    if len(specimens) > 3:
        half = (len(specimens) + 1) // 2
        halves = (specimens[:half], specimens[half:])
        yield tuple(
            Strip(deck, subject, some, unit, f"{n} of 2")
            for unit in units
            for n, some in enumerate(halves, start=1)
        )


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
