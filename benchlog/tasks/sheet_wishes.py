"""What the reviewer may choose about a sheet, beside its paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchlog.settings import METRIC

if TYPE_CHECKING:
    from benchlog.tasks.stand_in_wish import StandInWish


@dataclass(frozen=True)
class SheetWishes:
    """In which units values are printed, and whether the sums behind them go out as well.

    `units` is "metric", "inch", or "both" for one beside the other. `mapped` asks for the map of
    its numbers beside the sheet. `stand_in` is a check that gets a page, `address` where the data
    can be had, which is printed and drawn as a code for phones. `large_print` asks for one page in
    large letters beside the sheet.
    """

    units: str = METRIC
    sums: bool = False
    mapped: bool = False
    stand_in: StandInWish | None = None
    address: str = ""
    large_print: bool = False


USUAL = SheetWishes()
"""Metric units, without the sums."""
