"""Whose scatter of repeats a finding's uncertainty holds: its own, or a pooled one."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from benchlog.measure.part import Part, Spread
from benchlog.measure.pooled import PooledScatter, scatters_more, without
from benchlog.measure.reading import Reading
from benchlog.measure.seen import Seen, is_plain
from benchlog.measure.uncertainty import of_repeats

Scatters = Mapping[tuple[str, str], PooledScatter]
"""Attribute key and instrument id to what such readings scatter by, in the attribute's unit."""


@dataclass(frozen=True)
class Scatter:
    """Standard uncertainty of a mean from its repeats, the part it makes, and what to say of it."""

    size: float
    part: Part
    words: str = ""


def scatter_of(attribute: str, tag: str, readings: Sequence[Seen], scatters: Scatters) -> Scatter:
    """Return the scatter of the mean of `readings`.

    A pooled scatter s of the attribute and the one instrument gives s/√n with its own degrees of
    freedom, for a single reading too. Repeats that scatter significantly more than the rest of
    the pool (F test at 1 %) keep their own. Without a pool it is s/√n with n − 1 (JCGM 100
    4.2.3, 4.2.6). A pool is taken to hold the very repeats that it is used for.
    """
    values = [s.value for s in readings]
    own = Scatter(of_repeats(values), Part(tag, Spread.REPEATS, max(1, len(values) - 1)))
    instrument = one_instrument([s.reading for s in readings])
    pooled = scatters.get((attribute, instrument)) if instrument else None
    if pooled is None or not instrument or not all(is_plain(s.reading) for s in readings):
        return own
    others = without(pooled, values)
    if others is None:
        return own
    if scatters_more(values, others):
        return Scatter(own.size, own.part, _OWN.format(others=others.words))
    part = Part(tag, Spread.REPEATS, pooled.freedom, f"{attribute}/{instrument}")
    return Scatter(pooled.s / math.sqrt(len(values)), part, f"Scatter {pooled.words}.")


def one_instrument(readings: Sequence[Reading]) -> str:
    """Return the id of the one instrument of all readings, "" where there are several or none."""
    used = {reading.instrument_id for reading in readings}
    return (used.pop() or "") if len(used) == 1 else ""


_OWN = (
    "These repeats scatter significantly more than others of their kind ({others}; F test at 1 %), "
    "so their own scatter stands."
)
