"""The same thing of every specimen, side by side: columns for two and three, rows beyond.

The order of specimens is that of the bench, on every card. When not everything fits at a size that
can be read, a card is made for each unit, then for each half of the line-up, and at last what
stands beneath the values is shared out among several.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from benchlog.settings import BOTH, INCH, METRIC
from benchlog.sheet.cards.block import NoRoom
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.fold import MOST, folds
from benchlog.sheet.cards.frame import INSET, plate
from benchlog.sheet.cards.strip import Strip
from benchlog.sheet.cards.strip_layout import MOST_COLUMNS, laid_out
from benchlog.sheet.cards.told import Deck, label


def strip_cards(deck: Deck, subject: str) -> tuple[Card, ...]:
    """Return the card or cards of one subject; none for a single specimen. Raises NoRoom."""
    if len(deck.record.lineup.specimens) < 2:
        return ()
    for ways in _ways(deck, subject):
        for shortens in (False, True):
            for strips in ways:
                try:
                    return tuple(_card(strip, shortens=shortens) for strip in strips)
                except NoRoom:
                    continue
    raise NoRoom


def _ways(deck: Deck, subject: str) -> list[list[tuple[Strip, ...]]]:
    """Return how the line-up may stand on cards: whole, halved, and with its words shared out."""
    specimens = deck.record.lineup.specimens
    units = (METRIC, INCH) if deck.units == BOTH else (deck.units,)
    whole: list[tuple[Strip, ...]] = [(Strip(deck, subject, specimens, deck.units),)]
    if len(units) > 1:
        whole.append(tuple(Strip(deck, subject, specimens, unit) for unit in units))
    half = (len(specimens) + 1) // 2
    halves = tuple(enumerate((specimens[:half], specimens[half:]), start=1))
    strips = [Strip(deck, subject, s, u, f"{n} of 2") for u in units for n, s in halves]
    halved = [] if len(specimens) <= MOST_COLUMNS else [tuple(strips)]
    each = [Strip(deck, subject, (s,), u, f"{n} of {len(specimens)}")
            for u in units for n, s in enumerate(specimens, start=1)]  # fmt: skip
    every = [Strip(deck, subject, specimens, unit) for unit in units]
    folded = [_folded(some, n) for n in range(2, MOST + 1) for some in (every, strips, each)]
    return [whole, halved, folded]


def _folded(strips: Iterable[Strip], count: int) -> tuple[Strip, ...]:
    return tuple(replace(strip, fold=fold) for strip in strips for fold in folds(count))


def _card(strip: Strip, *, shortens: bool) -> Card:
    deck = strip.deck
    area, pile = laid_out(strip, deck.frame, shortens=shortens)
    block = pile.at(area.left + INSET, area.top + INSET)
    units = "" if strip.units == deck.units else strip.units
    more = "".join(f", {word}" for word in (units, strip.part, strip.fold.words) if word)
    return Card(
        name="_".join(
            filter(None, ("side_by_side", strip.subject, units, strip.part[:1], strip.fold.mark))
        ),
        title=f"Side by side: {label(deck, strip.subject)}{more}",
        items=(*deck.frame.notice, *plate(area), *block.items),
        spoken=strip.spoken,
        readings=tuple(dict.fromkeys(r for v in strip.values for r in v.readings)),
        shortened=block.shortened,
        margin=deck.frame.margin,
    )
