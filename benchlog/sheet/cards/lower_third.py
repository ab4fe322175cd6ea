"""The lower third: who is on screen, by nickname, tag, maker, part number and lot."""

from __future__ import annotations

from benchlog.sheet.cards.block import Para
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.frame import first_that_fits, plate
from benchlog.sheet.cards.look import LEAST, PLAIN_TO_READ, QUIET
from benchlog.sheet.cards.pile import name_para
from benchlog.sheet.cards.told import Deck, name_of
from benchlog.trade.specimen import Specimen


def lower_third(deck: Deck, specimen: Specimen) -> Card:
    """Return the lower third of one specimen."""
    part = " ".join(f"{specimen.maker} {specimen.part_number}".split()) or "maker not recorded"
    lot = " ".join(specimen.lot.split())
    told = f"Lot {lot}" if lot else "Lot not recorded"
    paras = [
        name_para(specimen, 104.0, least=PLAIN_TO_READ, most=2),
        Para(part, 68.0, LEAST, most=2, may_shorten=True, sentence=False, before=6.0),
        Para(told, LEAST, LEAST, colour=QUIET, most=1, may_shorten=True),
    ]
    area, block = first_that_fits(paras, [deck.frame.tall])
    name = name_of(specimen)
    return Card(
        name=f"lower_third_{specimen.shape.value}",
        title=f"Lower third: {name}",
        items=(*deck.frame.notice, *plate(area), *block.items),
        spoken=f"{name} ({specimen.shape.value}). {part}. {told}.",
        shortened=block.shortened,
        margin=deck.frame.margin,
    )
