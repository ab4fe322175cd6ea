"""One card, described once: plates, words, marks and pictures in a frame of 1920 by 1080.

Writers draw the items in their order and decide nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from benchlog.sheet.cards.letters import outlines, text_width
from benchlog.sheet.cards.look import Area, Margin
from benchlog.sheet.cards.paths import Path, bounds


@dataclass(frozen=True)
class Plate:
    """A filled rectangle that words stand on."""

    area: Area
    colour: str


@dataclass(frozen=True)
class Words:
    """One line of text: `drawn` in drawn order, `said` in reading order."""

    drawn: str
    said: str
    x: float
    baseline: float
    face: str
    size: float
    colour: str

    @property
    def outline(self) -> Path:
        """The line's letters as outlines."""
        return outlines(self.drawn, self.face, self.size, self.x, self.baseline)

    @property
    def width(self) -> float:
        """How far the pen moves along the line."""
        return text_width(self.drawn, self.face, self.size)


@dataclass(frozen=True)
class Mark:
    """A drawn shape, one colour; `means` says it in a word. Layers of one mark share `means`."""

    outline: Path
    colour: str
    means: str


@dataclass(frozen=True)
class PhotoArea:
    """A photo, filling an area from its middle; `photo_id` names it in the record."""

    area: Area
    photo_id: str
    means: str


Item: TypeAlias = Plate | Words | Mark | PhotoArea


@dataclass(frozen=True)
class Card:
    """What is drawn on one card, and from what.

    `name` is a plain file stem; `title` says what the card is; `spoken` says all of it in words,
    in full where the card shows an ellipsis. `readings` are the ids of the readings that it shows;
    `shortened` are the texts that stand on it with an ellipsis. `heights` are the heights in
    pixels that it is made for. `opaque` is set for title pictures, which stand on nothing else.
    """

    name: str
    title: str
    items: tuple[Item, ...]
    spoken: str
    readings: tuple[str, ...] = ()
    shortened: tuple[str, ...] = ()
    margin: Margin = Margin.FIVE
    heights: tuple[int, ...] = (1080, 2160)
    opaque: bool = False


def ink_of(item: Item) -> Area | None:
    """Return the area that an item covers; None for an item that draws nothing."""
    if isinstance(item, Plate | PhotoArea):
        return item.area
    return bounds(item.outline)
