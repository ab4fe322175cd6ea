"""What several counts of the same thing come to."""

from __future__ import annotations

import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from benchlog.measure.uncertainty import of_half_width


@dataclass(frozen=True)
class Tally:
    """The value of repeated counts, its standard uncertainty, and their ends."""

    value: float
    uncertainty: float
    low: float
    high: float

    @property
    def agreed(self) -> bool:
        """Whether all counts came to the same."""
        return self.low == self.high


def tally(counts: Sequence[float]) -> Tally:
    """Return what one or more counts come to.

    The value is their median, which is also what more than half of them gave, if any did. Counts
    that agree are exact; counts that do not are rectangular over their spread (JCGM 100 4.3.7),
    also when a third has broken the tie.
    """
    low, high = min(counts), max(counts)
    value = float(statistics.median(counts))
    return Tally(value, of_half_width((high - low) / 2), low, high)
