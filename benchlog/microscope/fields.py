"""From fields to the medium: mean, spread between fields, interval, and how many more it takes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from benchlog.errors import EntryRefused
from benchlog.measure.coverage import t_factor
from benchlog.measure.fields_wanted import fields_wanted


@dataclass(frozen=True)
class MediumMean:
    """The mean of one figure over the fields of one medium.

    `spread` is the standard deviation between fields, None of one field; `half_width` of the 95 %
    interval of the mean (Student's t), None of one field.
    """

    mean: float
    count: int
    spread: float | None
    half_width: float | None

    @property
    def u(self) -> float | None:
        """Standard uncertainty of the mean by the fields alone."""
        return None if self.spread is None else self.spread / math.sqrt(self.count)


def medium_mean(values: Sequence[float]) -> MediumMean:
    """Return mean, spread and interval of the values of one figure, a field each.

    Raises EntryRefused when there is no value.
    """
    if not values:
        raise EntryRefused("No field of this medium was measured.", "Take one more picture.")
    count = len(values)
    mean = math.fsum(values) / count
    if count == 1:
        return MediumMean(mean, 1, None, None)
    spread = math.sqrt(math.fsum((v - mean) ** 2 for v in values) / (count - 1))
    half_width = t_factor(count - 1) * spread / math.sqrt(count)
    return MediumMean(mean, count, spread, half_width)


def more_fields(so_far: Sequence[float], difference: float) -> int | None:
    """Return how many more fields a wanted difference takes, None if it cannot be said.

    `difference` is in the unit of the values.
    """
    seen = medium_mean(so_far) if so_far else None
    if seen is None or seen.spread is None:
        return None
    wanted = fields_wanted(seen.spread, difference)
    return None if wanted is None else max(0, wanted - seen.count)
