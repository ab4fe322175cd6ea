"""What the reviewer may choose about a sheet, beside its paper."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.settings import METRIC


@dataclass(frozen=True)
class SheetWishes:
    """In which units values are printed, and whether the sums behind them go out as well.

    `units` is "metric", "inch", or "both" for one beside the other. `mapped` asks for the map of its
    numbers beside the sheet.
    """

    units: str = METRIC
    sums: bool = False
    mapped: bool = False


USUAL = SheetWishes()
"""Metric units, without the sums."""
