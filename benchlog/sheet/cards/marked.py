"""A plate with a mark at its upper left, the main words beside it and the rest below both."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.sheet.cards.block import NoRoom, Para, Ready, settle
from benchlog.sheet.cards.card import Item
from benchlog.sheet.cards.frame import INSET, Frame, plate
from benchlog.sheet.cards.look import Area
from benchlog.sheet.cards.pile import Part

BEHIND = 44.0
"""Gap between a mark and the words beside it."""


@dataclass(frozen=True)
class Marked:
    """The plate with its words, and where the mark's centre belongs."""

    items: tuple[Item, ...]
    x: float
    y: float
    shortened: tuple[str, ...]


def lead(r: float) -> float:
    """Return the width that a mark takes from the words beside it; `r` is half its height."""
    return 2 * r + BEHIND


def place(head: Part, tail: Ready, room: Area, r: float) -> Marked:
    """Return settled words placed in the lower left corner of a room, on a plate of their size."""
    upper = max(head.height, 2 * r)
    top = room.bottom - upper - tail.height - 2 * INSET
    left, middle = room.left + INSET, top + INSET + upper / 2
    beside = head.at(left + lead(r), middle - head.height / 2)
    below = tail.at(left, top + INSET + upper)
    widest = max(lead(r) + beside.widest, below.widest)
    area = Area(room.left, top, min(room.right, left + widest + INSET), room.bottom)
    return Marked(
        (*plate(area), *beside.items, *below.items),
        left + r,
        middle,
        beside.shortened + below.shortened,
    )


def marked(frame: Frame, head: list[Para], tail: list[Para], r: float) -> Marked:
    """Settle and place paragraphs in the first of the frame's rooms that holds them; or NoRoom."""
    for room in (frame.tall, frame.wide):
        inner = room.inset(INSET)
        try:
            upper = settle(head, inner.width - lead(r), inner.height)
            lower = settle(tail, inner.width, inner.height - max(upper.height, 2 * r))
        except NoRoom:
            continue
        return place(upper, lower, room, r)
    raise NoRoom
