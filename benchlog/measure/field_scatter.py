"""How sure the mean of a medium is, by the fields that were looked at.

Fields of one medium differ, and two or three of them know badly by how much: Student's factor is
then so wide that a fifth is missed half the time. But each picture also states how far its field
may lie from the medium, by how many openings or fibres it holds. Media of one line-up are taken to
spread by one share of their means, and as long as they spread no more than stated, that share is
joined with the stated one. Where they spread more, the fields alone count.

A statement that fields have borne out counts with eight degrees of freedom, as if it were good to
a quarter, one that hardly a field could speak against with two, as if it were good to a half (JCGM
100 G.4.2). By simulation, equal media are then called different in no more than 6 % of
comparisons of one pair where fields spread three times as much as stated, and in under 4 % where
they spread as stated.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from benchlog.measure.pooled import squares_of

BORNE_OUT = 4
"""Degrees of freedom of the fields, those of two media of three, that bear a statement out."""

STATED_FREEDOM = 8
HARDLY_BORNE_OUT = 2

STILL_ALIKE = 1.1
"""Times the stated spread: up to here the fields do not speak against it."""


@dataclass(frozen=True)
class FieldSpread:
    """Standard uncertainty of a medium's mean by its fields, in the unit of the values.

    `freedom` are its degrees of freedom; `common` tells that it rests on the share that all media
    have in common, whose degrees of freedom count once, and `joined` how many of them are what the
    pictures state. `words` say what it rests on.
    """

    size: float
    freedom: float
    common: bool
    words: str = ""
    joined: float = 0.0


@dataclass(frozen=True)
class _Share:
    """A spread between fields as a share of the mean."""

    share: float
    freedom: float
    words: str
    joined: float = 0.0


def field_spreads(
    media: Mapping[str, Sequence[float]], stated: float | None
) -> dict[str, FieldSpread]:
    """Return how sure the mean of every medium is, by the values of its fields.

    `stated` is the typical stated sampling uncertainty of one field as a share of its value. Where
    it is None, media keep their own spread, and a single field has none. Media without a field
    are left out.
    """
    known = {name: list(values) for name, values in media.items() if values}
    common = None if stated is None else _common(list(known.values()), stated)
    return {name: _spread(values, common) for name, values in known.items()}


def _common(media: list[list[float]], stated: float) -> _Share:
    """Return the share that all media spread by."""
    told = [v for v in media if len(v) > 1 and statistics.fmean(v)]
    own = sum(len(values) - 1 for values in told)
    squares = math.fsum(squares_of(v) / statistics.fmean(v) ** 2 for v in told)
    shown = squares / own if own else 0.0
    seen = f"{len(told)} media" if len(told) > 1 else "one medium"
    if shown > (STILL_ALIKE * stated) ** 2:
        words = (
            f"Fields of {seen} spread by {100 * math.sqrt(shown):.2g} % of their mean, more than "
            f"the {100 * stated:.2g} % that the pictures state: the fields alone count."
        )
        return _Share(math.sqrt(shown), own, words)
    joined = joined_freedom(own)
    share = math.sqrt((own * shown + joined * stated**2) / (own + joined))
    words = (
        f"Fields spread by {100 * share:.2g} % of their mean: by the fields of {seen}, "
        f"{own} degrees of freedom, joined with what the pictures state, {joined}."
    )
    if not own:
        words = f"One field each, unsure by the {100 * share:.2g} % that the pictures state."
    return _Share(share, own + joined, words, joined)


def joined_freedom(own: int) -> int:
    """Return with how many degrees of freedom a statement is joined to the fields' own."""
    return STATED_FREEDOM if own >= BORNE_OUT else HARDLY_BORNE_OUT


def _spread(values: list[float], common: _Share | None) -> FieldSpread:
    mean, count = statistics.fmean(values), len(values)
    if common is not None:
        size = common.share * abs(mean) / math.sqrt(count)
        return FieldSpread(size, common.freedom, True, common.words, common.joined)
    if count > 1:
        return FieldSpread(statistics.stdev(values) / math.sqrt(count), count - 1, False)
    return FieldSpread(0.0, 1.0, False)
