"""What is wrong with a card as it is drawn: an independent look at its items.

It measures outlines and not what the layout believed of them.
"""

from __future__ import annotations

from itertools import combinations

from benchlog.sheet.cards.card import Card, Item, Mark, PhotoArea, Plate, Words, ink_of
from benchlog.sheet.cards.look import (
    HEIGHT,
    LEAST,
    PLAYERS_CORNER,
    WIDTH,
    Area,
    safe_area,
)

SLACK = 0.5
CONTRAST = 4.5
"""Least contrast of text to its plate (WCAG 2.2, 1.4.3; large text would do with 3)."""


def faults(card: Card) -> list[str]:
    """Return every fault in words; none for a sound card."""
    found: list[str] = []
    inks = [(item, area) for item in card.items if (area := ink_of(item)) is not None]
    solid = [item for item in card.items if isinstance(item, Plate | PhotoArea)]
    safe, frame = safe_area(card.margin), Area(0, 0, WIDTH, HEIGHT)
    for item, area in inks:
        is_ground = card.opaque and isinstance(item, Plate) and item.area == frame
        if not is_ground and not safe.holds(area, SLACK):
            found.append(f"{_name(item)} leaves the safe area")
        if not is_ground and PLAYERS_CORNER.meets(area, SLACK):
            found.append(f"{_name(item)} stands in the players' corner")
        if isinstance(item, Words | Mark):
            under = [p for p in solid if p.area.holds(area, SLACK)]
            if not under:
                found.append(f"{_name(item)} stands on no plate")
            elif isinstance(item, Words) and isinstance(under[-1], Plate):
                found += _reading_faults(item, under[-1])
    found += _overlaps(inks)
    return found


def _reading_faults(words: Words, plate: Plate) -> list[str]:
    found = []
    if words.size < LEAST:
        found.append(f"{_name(words)} is set at {words.size:g}, less than {LEAST:g}")
    ratio = contrast(words.colour, plate.colour)
    if ratio < CONTRAST:
        found.append(f"{_name(words)} has a contrast of {ratio:.1f}")
    return found


def _overlaps(inks: list[tuple[Item, Area]]) -> list[str]:
    """Return which words or marks meet others; the layers of one mark may."""
    drawn = [(item, area) for item, area in inks if isinstance(item, Words | Mark)]
    found = []
    for (one, a), (other, b) in combinations(drawn, 2):
        layers = isinstance(one, Mark) and isinstance(other, Mark) and one.means == other.means
        if a.meets(b, SLACK) and not layers:
            found.append(f"{_name(one)} meets {_name(other)}")
    return found


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21 (WCAG 2.2, "contrast ratio")."""
    dark, light = sorted((_luminance(one), _luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = (int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _name(item: Item) -> str:
    if isinstance(item, Words):
        return f"'{item.said}'"
    return f"'{item.means}'" if isinstance(item, Mark | PhotoArea) else "a plate"
