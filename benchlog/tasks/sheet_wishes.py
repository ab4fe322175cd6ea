"""What the reviewer may choose about a sheet, beside its paper."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.settings import METRIC


@dataclass(frozen=True)
class SheetWishes:
    """In which units values are printed, and whether the sums behind them go out as well.

    `units` is "metric", "inch", or "both" for one beside the other.
    """

    units: str = METRIC
    sums: bool = False


USUAL = SheetWishes()
"""Metric units, without the sums."""
