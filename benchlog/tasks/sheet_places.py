"""Where each number stands on the pages of a sheet, so that one can go from it to what is behind.

The map lies beside a preview, never in what is published: a box on a page for each value.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path

NEAR = 3.0
"""Points by which a click may miss a box."""


@dataclass(frozen=True)
class NumberPlace:
    """One value of the sheet: the figure or attribute `key` of a specimen, and its box.

    `page` counts from 0; the box is in points from the page's upper left corner.
    """

    page: int
    left: float
    top: float
    width: float
    height: float
    key: str
    specimen_id: str

    @property
    def number(self) -> tuple[str, str]:
        """Return what the value is of."""
        return self.key, self.specimen_id

    def holds(self, x: float, y: float) -> bool:
        """Whether a point of the page lies in the box, or so near that it was meant."""
        across = self.left - NEAR <= x <= self.left + self.width + NEAR
        return across and self.top - NEAR <= y <= self.top + self.height + NEAR


Places = tuple[NumberPlace, ...]


def map_beside(sheet: Path) -> Path:
    """Return where the map of a sheet lies."""
    return sheet.with_suffix(".places.json")


def save_places(sheet: Path, places: Iterable[NumberPlace]) -> None:
    """Write the map beside a sheet."""
    map_beside(sheet).write_text(json.dumps([asdict(one) for one in places]), encoding="utf-8")


def read_places(sheet: Path) -> Places:
    """Return the map of a sheet; nothing where none was written or it cannot be read."""
    import msgspec  # noqa: PLC0415 - only when a sheet is shown

    try:
        return msgspec.json.decode(map_beside(sheet).read_bytes(), type=Places)
    except (OSError, msgspec.DecodeError):
        return ()


def place_at(places: Places, page: int, x: float, y: float) -> NumberPlace | None:
    """Return the value at a point of a page: of several boxes the one whose middle is nearest."""
    hit = [one for one in places if one.page == page and one.holds(x, y)]
    return min(
        hit,
        key=lambda p: abs(p.top + p.height / 2 - y) + abs(p.left + p.width / 2 - x),
        default=None,
    )


def first_place(places: Places, number: tuple[str, str], near: int = 0) -> NumberPlace | None:
    """Return where a value stands: on the page `near` if it is there, else the first of all."""
    own = [one for one in places if one.number == number]
    return next((one for one in own if one.page == near), own[0] if own else None)


def step_from(places: Places, now: NumberPlace | None, page: int, by: int) -> NumberPlace | None:
    """Return the value before or after the one in hand, as one reads; with none in hand, a page's.

    It stays with the last one at either end.
    """
    ordered = sorted(places, key=lambda p: (p.page, round(p.top), p.left))
    if not ordered:
        return None
    if now is None or now not in ordered:
        first = next((n for n, one in enumerate(ordered) if one.page >= page), len(ordered))
        at = first if by > 0 else first - 1
    else:
        at = ordered.index(now) + by
    return ordered[min(max(at, 0), len(ordered) - 1)]
