"""Where a card's plate may stand, and the plate itself."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.sheet.cards.block import Block, NoRoom, Para, settle
from benchlog.sheet.cards.card import Item, Plate
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import (
    GAP,
    INK,
    PADDING,
    PLATE,
    PLAYERS_CORNER,
    RIM,
    Area,
    Margin,
    safe_area,
)

REHEARSAL = "REHEARSAL: invented specimens and readings"
INSET = RIM + PADDING


@dataclass(frozen=True)
class Frame:
    """The margin asked for, and whether the line-up is a rehearsal, which every card then says."""

    margin: Margin = Margin.FIVE
    rehearsal: bool = False

    @property
    def tall(self) -> Area:
        """The room beside the players' corner, down to the margin."""
        area = self._below_notice
        return Area(area.left, area.top, PLAYERS_CORNER.left - GAP, area.bottom)

    @property
    def wide(self) -> Area:
        """The room above the players' corner, from margin to margin."""
        area = self._below_notice
        return Area(area.left, area.top, area.right, PLAYERS_CORNER.top - GAP)

    @property
    def _below_notice(self) -> Area:
        area = safe_area(self.margin)
        if not self.rehearsal:
            return area
        return Area(area.left, self._notice[1] + GAP, area.right, area.bottom)

    @property
    def notice(self) -> tuple[Item, ...]:
        """What stands at the top of every card of a rehearsal; nothing otherwise."""
        return self._notice[0] if self.rehearsal else ()

    @property
    def _notice(self) -> tuple[tuple[Item, ...], float]:
        area = safe_area(self.margin)
        ready = settle([Para(REHEARSAL, face=BOLD, colour=PLATE)], area.width - 2 * RIM, 200.0)
        text = ready.at(area.left + 2 * RIM, area.top)
        right, bottom = float(round(area.left + text.widest + 4 * RIM)), float(round(text.bottom))
        band = Plate(Area(area.left, area.top, right, bottom), INK)
        return (band, *text.items), bottom


def plate(area: Area) -> tuple[Item, ...]:
    """Return a light plate with a dark rim, which stands out on bright and on dark pictures."""
    # On whole pixels at either size, so that its edges are sharp and alike.
    whole = Area(*(float(round(edge)) for edge in (area.left, area.top, area.right, area.bottom)))
    return Plate(whole, INK), Plate(whole.inset(RIM), PLATE)


def lower_left(paras: list[Para], area: Area) -> tuple[Area, Block]:
    """Set paragraphs on a plate in an area's lower left corner, as large as they need.

    Returns the plate's area and the block; raises NoRoom.
    """
    inner = area.inset(INSET)
    ready = settle(paras, inner.width, inner.height)
    top = area.bottom - ready.height - 2 * INSET
    block = ready.at(inner.left, top + INSET)
    right = min(area.right, area.left + block.widest + 2 * INSET)
    return Area(area.left, top, right, area.bottom), block


def first_that_fits(paras: list[Para], areas: list[Area]) -> tuple[Area, Block]:
    """Return `lower_left` in the first of the areas with room; raises NoRoom."""
    for area in areas:
        try:
            return lower_left(paras, area)
        except NoRoom:
            continue
    raise NoRoom
