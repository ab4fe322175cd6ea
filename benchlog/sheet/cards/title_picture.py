"""Material for a title picture: cut elements on a plain card with their tags, 1280 by 720.

No outcome is told on it, and at most one number, which the reviewer has to ask for.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from benchlog.sheet.cards.block import Para, Ready, settle
from benchlog.sheet.cards.card import Card, Item, PhotoArea, Plate
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import (
    BAND,
    GAP,
    HEIGHT,
    INK,
    LEAST,
    PLAIN_TO_READ,
    PLATE,
    PLAYERS_CORNER,
    RIM,
    WIDTH,
    Area,
    safe_area,
)
from benchlog.sheet.cards.marks import tag
from benchlog.sheet.cards.pile import name_para, one_size
from benchlog.sheet.cards.told import Deck, label, name_of, seen, unbroken
from benchlog.tasks.record import Record
from benchlog.trade.specimen import Specimen

STATIONS = ("element", "media", "can", "outside")
"""Where a picture is looked for: the cut element first."""

MOST = 3
HEIGHTS = (720,)
_FOR_A_NUMBER = 216.0
"""Height kept for a number below the pictures."""


@dataclass(frozen=True)
class OneNumber:
    """The number that may stand on it: a subject of one specimen."""

    subject: str
    specimen_id: str


def title_pictures(
    deck: Deck, readable: Collection[str], number: OneNumber | None = None
) -> tuple[Card, ...]:
    """Return title pictures of up to three specimens each, those with a readable photo only."""
    shown = [
        (specimen, photo)
        for specimen in deck.record.lineup.specimens
        if (photo := photo_of(deck, specimen, readable))
    ]
    count = -(-len(shown) // MOST)
    size = -(-len(shown) // count) if count else 1
    sets = [shown[n : n + size] for n in range(0, len(shown), size)]
    return tuple(_card(deck, some, number, n, len(sets)) for n, some in enumerate(sets, start=1))


def photos_wanted(record: Record) -> list[str]:
    """Return the ids of the photos that title pictures are made from."""
    return list(dict.fromkeys(p.id for p in record.photos if p.station in STATIONS))


def photo_of(deck: Deck, specimen: Specimen, readable: Collection[str]) -> str:
    """Return the id of the photo that shows a specimen best; "" when none can be read."""
    own = [p for p in deck.record.photos if p.specimen_id == specimen.id and p.id in readable]
    for station in STATIONS:
        for photo in own:
            if photo.station == station:
                return photo.id
    return own[0].id if own else ""


def _card(
    deck: Deck, some: list[tuple[Specimen, str]], number: OneNumber | None, n: int, of: int
) -> Card:
    safe = safe_area(deck.frame.margin)
    told = next((s for s, _ in some if number and s.id == number.specimen_id), None)
    items: list[Item] = [Plate(Area(0, 0, WIDTH, HEIGHT), PLATE), *deck.frame.notice]
    # Above the players' corner, and above the number where there is one.
    bottom = safe.bottom - _FOR_A_NUMBER - GAP if told else PLAYERS_CORNER.top - GAP
    short: list[str] = []
    pitch = (safe.width + GAP) / len(some)
    names = _names(tuple(s for s, _ in some), pitch - GAP)
    line = bottom - max(name.height for name in names) - GAP
    for place, ((specimen, photo), name) in enumerate(zip(some, names, strict=True)):
        left = safe.left + place * pitch
        picture = Area(left, deck.frame.wide.top, left + pitch - GAP, line)
        cell, cut = _cell(specimen, photo, picture, name)
        items += cell
        short += cut
    spoken = ["; ".join(f"{name_of(s)} ({s.shape.value})" for s, _ in some)]
    readings: tuple[str, ...] = ()
    if told is not None and number is not None:
        found = seen(deck, number.subject, told.id)
        readings = found.readings
        what, value = label(deck, number.subject), unbroken(found.lines[0])
        area = Area(safe.left, bottom + GAP, PLAYERS_CORNER.left - GAP, safe.bottom)
        paras = [
            Para(value, 110.0, PLAIN_TO_READ, BOLD, most=1, specimen=told, strict=True),
            Para(what, LEAST, LEAST, most=1, strict=True),
        ]
        items += settle(paras, area.width, area.height).at(area.left, area.top).items
        words = f"{what}: {found.lines[0]}"
        spoken.append(f"{name_of(told)}: {words}")
    return Card(
        name="title_picture" + (f"_{n}" if of > 1 else ""),
        title="Material for a title picture" + (f", {n} of {of}" if of > 1 else ""),
        items=tuple(items),
        spoken=". ".join(spoken) + ".",
        readings=readings,
        shortened=tuple(short),
        margin=deck.frame.margin,
        heights=HEIGHTS,
        opaque=True,
    )


def _names(specimens: tuple[Specimen, ...], width: float) -> list[Ready]:
    """Return nicknames of one size, on up to three lines where the least size needs them."""
    size = one_size(specimens, width, 96.0)
    paras = (name_para(one, size, least=size, most=3) for one in specimens)
    return [settle([para], width, HEIGHT) for para in paras]


def _cell(
    specimen: Specimen, photo: str, picture: Area, name: Ready
) -> tuple[list[Item], tuple[str, ...]]:
    block = name.at(picture.left, picture.bottom + GAP)
    means = f"photo of {name_of(specimen)}"
    left, top = picture.left, picture.top
    badge = tag(specimen, left + 110.0, top + 110.0, 80.0)
    back = Area(left, top, left + 220.0, top + 220.0)
    framed: list[Item] = [
        Plate(picture, INK),
        PhotoArea(picture.inset(RIM), photo, means),
        Plate(back, INK),
        Plate(Area(back.left + RIM, back.top + RIM, back.right, back.bottom), BAND),
        *badge,
    ]
    return [*framed, *block.items], block.shortened
