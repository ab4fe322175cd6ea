"""Tagged names beside each other, and parts of a card set below each other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from benchlog.sheet.cards.block import Block, Para, Ready, settle
from benchlog.sheet.cards.card import Item
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import GAP, LEAST, PLAIN_TO_READ
from benchlog.sheet.cards.told import name_of
from benchlog.trade.specimen import Specimen


class Part(Protocol):
    """Something of a known height that can be placed."""

    @property
    def height(self) -> float:
        """What it needs from top to bottom."""

    def at(self, left: float, top: float) -> Block:
        """Return it placed with its upper left corner there."""


@dataclass(frozen=True)
class Grid:
    """Parts in columns, filled row by row."""

    parts: tuple[Ready, ...]
    columns: int
    pitch: float

    @property
    def height(self) -> float:
        """What it needs from top to bottom."""
        return sum(max(part.height for part in row) for row in self._rows)

    @property
    def _rows(self) -> list[tuple[Ready, ...]]:
        return [self.parts[n : n + self.columns] for n in range(0, len(self.parts), self.columns)]

    def at(self, left: float, top: float) -> Block:
        """Return the parts placed with their upper left corner there."""
        items: list[Item] = []
        short: list[str] = []
        widest = 0.0
        for row in self._rows:
            for n, part in enumerate(row):
                block = part.at(left + n * self.pitch, top)
                items += block.items
                short += block.shortened
                widest = max(widest, n * self.pitch + block.widest)
            top += max(part.height for part in row)
        return Block(tuple(items), top, tuple(short), widest)


@dataclass(frozen=True)
class Pile:
    """Parts below each other."""

    parts: tuple[Part, ...]

    @property
    def height(self) -> float:
        """What it needs from top to bottom."""
        return sum(part.height for part in self.parts)

    def at(self, left: float, top: float) -> Block:
        """Return the parts placed with their upper left corner there."""
        items: list[Item] = []
        short: list[str] = []
        widest = 0.0
        for part in self.parts:
            block = part.at(left, top)
            items += block.items
            short += block.shortened
            widest = max(widest, block.widest)
            top = block.bottom
        return Block(tuple(items), top, tuple(short), widest)


def tagged_names(specimens: tuple[Specimen, ...], width: float, size: float) -> Grid:
    """Return nicknames with their tags: one alone, else in two columns, small ones in three."""
    most = 2 if size >= PLAIN_TO_READ else 3
    columns = min(len(specimens), most)
    pitch = (width + GAP) / columns
    own = one_size(specimens, pitch - GAP, size)
    parts = tuple(
        settle([name_para(one, own, least=own)], pitch - GAP, 1000.0) for one in specimens
    )
    return Grid(parts, columns, pitch)


def one_size(specimens: tuple[Specimen, ...], width: float, size: float) -> float:
    """Return the largest size up to `size` at which every nickname fits on one line, else LEAST."""
    while size > LEAST:
        ready = (settle([name_para(s, size, least=size)], width, 1000.0) for s in specimens)
        if not any(one.shortened for one in ready):
            return size
        size = max(LEAST, size * 0.92)
    return LEAST


def name_para(
    specimen: Specimen, size: float, *, least: float, most: int = 1, before: float = 0.0
) -> Para:
    """Return a nickname as a paragraph behind its tag."""
    return Para(
        name_of(specimen),
        size,
        least,
        BOLD,
        most=most,
        may_shorten=True,
        sentence=False,
        specimen=specimen,
        before=before,
    )
