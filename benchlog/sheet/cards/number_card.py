"""One number, large: what was found of one thing on one specimen, with its doubt and its n."""

from __future__ import annotations

from benchlog.settings import BOTH, INCH, METRIC
from benchlog.sheet.cards.block import NoRoom, Para
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.fold import ALL, MOST, Fold, folds
from benchlog.sheet.cards.frame import first_that_fits, plate
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import LEAST, PLAIN_TO_READ, QUIET
from benchlog.sheet.cards.pile import name_para
from benchlog.sheet.cards.told import (
    COVERAGE,
    DOUBTED,
    Deck,
    Seen,
    cut_words,
    foot_words,
    label,
    name_of,
    seen,
    short_name,
    unbroken,
)
from benchlog.trade.specimen import Specimen

_LARGE = 210.0
_SECOND = 0.55
"""Size of the second unit against the first."""


def number_cards(deck: Deck, subject: str, specimen: Specimen) -> tuple[Card, ...]:
    """Return the card of one subject of one specimen; raises NoRoom.

    Where two units and the sentence beside them do not fit on one, a card is made for each unit;
    where one unit and its sentence do not, several cards show the number, each with a part of it.
    """
    units = (METRIC, INCH) if deck.units == BOTH else ("",)
    try:
        return (_card(deck, subject, specimen, ""),)
    except NoRoom:
        return tuple(card for unit in units for card in _of_unit(deck, subject, specimen, unit))


def _of_unit(deck: Deck, subject: str, specimen: Specimen, units: str) -> tuple[Card, ...]:
    for count in range(1, MOST + 1):
        try:
            return tuple(_card(deck, subject, specimen, units, fold) for fold in folds(count))
        except NoRoom:
            continue
    raise NoRoom


def _told(deck: Deck, found: Seen, specimen: Specimen, fold: Fold) -> tuple[str, str, str]:
    """Return what stands beneath a number, what must stand beside it, and whether it is in doubt.

    Of several cards the first has the notes; the sentence is shared out among all.
    """
    notes = number_notes(deck, found, specimen) if fold.number == 1 else ""
    notes = " · ".join(filter(None, (fold.words, notes)))
    return notes, fold.of_text(found.beside), DOUBTED if found.doubted else ""


def _card(deck: Deck, subject: str, specimen: Specimen, units: str, fold: Fold = ALL) -> Card:
    found = seen(deck, subject, specimen.id, units)
    name, what = name_of(specimen), label(deck, subject)
    notes, beside, doubt = _told(deck, found, specimen, fold)
    told = [Para(notes, colour=QUIET), Para(beside), Para(doubt, face=BOLD)]
    usual = [
        name_para(specimen, PLAIN_TO_READ, least=PLAIN_TO_READ),
        Para(what, 68.0, LEAST, most=2),
        *_value(found),
        *told,
    ]
    named = f"{short_name(specimen)}: {what}"
    dense = [Para(named, LEAST, LEAST, BOLD, specimen=specimen), *_value(found), *told]
    rooms = [deck.frame.tall, deck.frame.wide]
    try:
        area, block = first_that_fits(usual, rooms)
    except NoRoom:
        area, block = first_that_fits(dense, rooms)
    said = " · ".join(found.lines)
    spoken = [f"{name}: {what}: {said}.", f"{notes}.", beside, doubt]
    return Card(
        name="_".join(filter(None, ("number", subject, specimen.shape.value, units, fold.mark))),
        title=", ".join(filter(None, (f"Single number: {what}, {name}", units, fold.words))),
        items=(*deck.frame.notice, *plate(area), *block.items),
        spoken=" ".join(filter(None, spoken)),
        readings=found.readings,
        shortened=block.shortened,
        margin=deck.frame.margin,
    )


def number_notes(deck: Deck, found: Seen, specimen: Specimen) -> str:
    """Return what stands beneath a number: n, filters cut, foot, and what its ± holds."""
    parts = (
        found.counted_words,
        cut_words(deck.record, (specimen,)),
        foot_words([found.foot_kpa]),
        COVERAGE if any("±" in line for line in found.lines) else "",
    )
    return " · ".join(filter(None, parts))


def _value(found: Seen) -> list[Para]:
    if not found.is_number:
        return [Para(found.lines[0], 120.0, LEAST, BOLD, most=3, may_shorten=True)]
    first, *others = (unbroken(line) for line in found.lines)
    second = _LARGE * _SECOND
    return [
        Para(first, _LARGE, PLAIN_TO_READ, BOLD, most=1),
        *(Para(line, second, PLAIN_TO_READ, BOLD, most=1) for line in others),
    ]
