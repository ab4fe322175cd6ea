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

    Counts that agree are exact. Counts that do not are rectangular over their spread (JCGM 100
    4.3.7), also when a third has broken the tie: the value is then the one that more than half
    of them gave, else the median.
    """
    low, high = min(counts), max(counts)
    usual, times = max(((c, counts.count(c)) for c in counts), key=lambda pair: pair[1])
    value = usual if 2 * times > len(counts) else statistics.median(counts)
    return Tally(value, of_half_width((high - low) / 2), low, high)
