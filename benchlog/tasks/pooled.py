"""What readings of one attribute with one instrument scatter by, from all that is on the shelf."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from weakref import WeakKeyDictionary

from benchlog.measure.pooled import PooledScatter, squares_of
from benchlog.measure.reading import Reading, Source, standing
from benchlog.measure.seen import is_plain, scale_of
from benchlog.measure.units import same_dimension
from benchlog.tasks.ports import Shelf
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup


@dataclass(frozen=True)
class _Sum:
    """Squared deviations of several sets of repeats, in SI, with what they rest on."""

    squares: float = 0.0
    freedom: int = 0
    sets: int = 0

    def with_set(self, values: list[float]) -> _Sum:
        return _Sum(
            self.squares + squares_of(values), self.freedom + len(values) - 1, self.sets + 1
        )

    def __add__(self, other: _Sum) -> _Sum:
        return _Sum(
            self.squares + other.squares, self.freedom + other.freedom, self.sets + other.sets
        )


_Sums = Mapping[tuple[str, str, str], _Sum]
"""Attribute, instrument id and SI unit to what their sets of repeats come to."""

_KNOWN: WeakKeyDictionary[Shelf, dict[str, tuple[int, _Sums]]] = WeakKeyDictionary()
"""By shelf and line-up: how many readings it had, and what they came to. A line-up's readings only
ever become more, so that their number tells whether anything has changed."""


def pooled_scatter(
    shelf: Shelf, lineup: Lineup, sequence: Sequence, readings: list[Reading]
) -> dict[tuple[str, str], PooledScatter]:
    """Return the pooled scatter by attribute key and instrument id, in the attribute's unit.

    Sets of repeats come from `readings`, which are those of `lineup`, and from every earlier
    line-up on the shelf that is no rehearsal: readings that stand, plain measured numbers, one
    specimen and one instrument to a set. What is cut later does not move the numbers of a sheet
    that was handed out. Line-ups that have not changed are not read again.
    """
    total: dict[tuple[str, str, str], _Sum] = dict(_sums(readings))
    for sums in _before(shelf, lineup):
        for key, one in sums.items():
            total[key] = total.get(key, _Sum()) + one
    units = {attribute.key: attribute.unit for attribute in sequence.attributes}
    return {
        (attribute, instrument): PooledScatter(
            math.sqrt(one.squares / one.freedom) * scale_of(si_unit, units[attribute]),
            one.freedom,
            one.sets,
        )
        for (attribute, instrument, si_unit), one in total.items()
        if units.get(attribute) and same_dimension(si_unit, units[attribute])
    }


def _before(shelf: Shelf, lineup: Lineup) -> Iterable[_Sums]:
    known = _KNOWN.setdefault(shelf, {})
    for brief in shelf.lineups():
        if brief.rehearsal or brief.id == lineup.id or brief.created_at > lineup.created_at:
            continue
        found = known.get(brief.id)
        if found is None or found[0] != brief.readings:
            found = brief.readings, _sums(shelf.readings(brief.id))
            known[brief.id] = found
        yield found[1]


def _sums(readings: list[Reading]) -> _Sums:
    sets: dict[tuple[str, str, str, str], list[float]] = {}
    for r in standing(readings):
        if r.source is Source.PICTURE:
            continue  # fields of a medium are pooled as shares: see measure.field_scatter
        if r.instrument_id and r.si_value is not None and r.si_unit != "count" and is_plain(r):
            key = r.specimen_id, r.attribute, r.instrument_id, r.si_unit
            sets.setdefault(key, []).append(r.si_value)
    sums: dict[tuple[str, str, str], _Sum] = {}
    for (_, *rest), values in sets.items():
        if len(values) > 1:
            attribute, instrument, unit = rest
            one = sums.get((attribute, instrument, unit), _Sum())
            sums[attribute, instrument, unit] = one.with_set(values)
    return sums
