"""How sure the mean of a medium is, by the fields that were looked at.

Fields of one medium differ, and three of them know badly by how much: Student's factor is then so
wide that a fifth is missed half the time. But each picture also states how far its field may lie
from the medium, by how many openings or fibres it holds. Media of one line-up are taken to spread
by one share of their means, and as long as they spread no more than stated, that share is joined
with the stated one, which counts with eight degrees of freedom, as if it were good to a quarter
(JCGM 100 G.4.2). Where they spread more, the fields alone count.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from benchlog.measure.pooled import squares_of

ENOUGH_FIELDS = 3
"""Fields of a medium from which on it takes part in the common share."""

ENOUGH_FREEDOM = 4
"""Degrees of freedom, those of two media of three fields, below which none is joined."""

STATED_FREEDOM = 8

STILL_ALIKE = 1.1
"""Times the stated spread: up to here the fields do not speak against it."""


@dataclass(frozen=True)
class FieldSpread:
    """Standard uncertainty of a medium's mean by its fields, in the unit of the values.

    `freedom` are its degrees of freedom; `common` tells that it rests on the share that all media
    have in common, whose degrees of freedom count once. `words` say what it rests on.
    """

    size: float
    freedom: float
    common: bool
    words: str = ""


@dataclass(frozen=True)
class _Share:
    """A spread between fields as a share of the mean."""

    share: float
    freedom: float
    words: str


def field_spreads(
    media: Mapping[str, Sequence[float]], stated: float | None
) -> dict[str, FieldSpread]:
    """Return how sure the mean of every medium is, by the values of its fields.

    `stated` is the typical stated sampling uncertainty of one field as a share of its value, None
    where nothing is stated. Media of fewer than three fields keep their own spread; a single
    field has none, and is as unsure as is stated, or as the others show. Media without a field
    are left out.
    """
    known = {name: list(values) for name, values in media.items() if values}
    common = _common(list(known.values()), stated)
    return {name: _spread(values, common, stated) for name, values in known.items()}


def _common(media: list[list[float]], stated: float | None) -> _Share | None:
    """Return the share that all media with enough fields spread by, None where it is not known."""
    enough = [v for v in media if len(v) >= ENOUGH_FIELDS and statistics.fmean(v)]
    own = sum(len(values) - 1 for values in enough)
    if stated is None or own < ENOUGH_FREEDOM:
        return None
    shown = math.fsum(squares_of(v) / statistics.fmean(v) ** 2 for v in enough) / own
    seen = f"{len(enough)} media" if len(enough) > 1 else "one medium"
    if shown > (STILL_ALIKE * stated) ** 2:
        words = (
            f"Fields of {seen} spread by {100 * math.sqrt(shown):.2g} % of their mean, more than "
            f"the {100 * stated:.2g} % that the pictures state: the fields alone count."
        )
        return _Share(math.sqrt(shown), own, words)
    joined = math.sqrt((own * shown + STATED_FREEDOM * stated**2) / (own + STATED_FREEDOM))
    words = (
        f"Fields spread by {100 * joined:.2g} % of their mean: by the fields of {seen}, "
        f"{own} degrees of freedom, joined with what the pictures state, {STATED_FREEDOM}."
    )
    return _Share(joined, own + STATED_FREEDOM, words)


def _spread(values: list[float], common: _Share | None, stated: float | None) -> FieldSpread:
    mean, count = statistics.fmean(values), len(values)
    if count >= ENOUGH_FIELDS and common is not None:
        size = common.share * abs(mean) / math.sqrt(count)
        return FieldSpread(size, common.freedom, True, common.words)
    if count > 1:
        size = statistics.stdev(values) / math.sqrt(count)
        return FieldSpread(size, count - 1, False)
    share = max(stated or 0.0, common.share if common else 0.0)
    words = f"One field, unsure by the {100 * share:.2g} % that fields spread by." if share else ""
    return FieldSpread(share * abs(mean), STATED_FREEDOM, False, words)
