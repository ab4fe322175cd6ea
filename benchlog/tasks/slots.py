"""The order in which a station asks: slots are attribute × specimen."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from benchlog.measure.reading import Reading, standing
from benchlog.trade.attribute import Attribute, Sequence
from benchlog.trade.specimen import Lineup


@dataclass(frozen=True)
class Slot:
    """One attribute of one specimen."""

    attribute: str
    specimen_id: str


def asked_at(sequence: Sequence, lineup: Lineup, station: str) -> tuple[Attribute, ...]:
    """Return the attributes that this line-up asks for at a station of its bench.

    Attributes kept in the specimen's own record (price, lot, origin) are asked in the line-up.
    """
    wanted = set(lineup.attributes)
    return tuple(a for a in sequence.at(station) if a.key in wanted and not a.specimen_field)


def round_of(
    sequence: Sequence, lineup: Lineup, station: str, *, by_specimen: bool
) -> tuple[Slot, ...]:
    """Return a station's slots in the order of the round.

    The usual round asks one attribute of every specimen in turn; `by_specimen` asks every
    attribute of one specimen before the next.
    """
    attributes = asked_at(sequence, lineup, station)
    if by_specimen:
        return tuple(Slot(a.key, s.id) for s in lineup.specimens for a in attributes)
    return tuple(Slot(a.key, s.id) for a in attributes for s in lineup.specimens)


def by_slot(readings: Iterable[Reading]) -> dict[Slot, list[Reading]]:
    """Return the standing readings of every slot, in the order of their repeats."""
    found: dict[Slot, list[Reading]] = defaultdict(list)
    for reading in standing(list(readings)):
        found[Slot(reading.attribute, reading.specimen_id)].append(reading)
    for taken in found.values():
        taken.sort(key=lambda r: r.ordinal)
    return dict(found)


def is_answered(attribute: Attribute, taken: list[Reading]) -> bool:
    """Whether a slot needs no more: all repeats are in, or it is said why there is no value."""
    if any(not r.state.has_value for r in taken):
        return True
    return len(taken) >= attribute.repeats


def next_open(
    round_: tuple[Slot, ...],
    after: Slot | None,
    sequence: Sequence,
    taken: dict[Slot, list[Reading]],
) -> Slot | None:
    """Return the first unanswered slot after `after` in the round, then from its start."""
    start = round_.index(after) + 1 if after in round_ else 0
    for slot in round_[start:] + round_[:start]:
        if not is_answered(sequence.attribute(slot.attribute), taken.get(slot, [])):
            return slot
    return None
