"""The order in which a station asks: slots are attribute × specimen."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from benchlog.judge.balanced import balanced_orders
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
    attribute of one specimen before the next. Specimens come in bench order, or in the station's
    own order when the line-up asks for balanced turns.
    """
    attributes = asked_at(sequence, lineup, station)
    specimens = [specimen.id for specimen in lineup.specimens]
    if lineup.balanced:
        specimens = list(balanced_stations(sequence, lineup).get(station, specimens))
    if by_specimen:
        return tuple(Slot(a.key, one) for one in specimens for a in attributes)
    return tuple(Slot(a.key, one) for a in attributes for one in specimens)


def balanced_stations(sequence: Sequence, lineup: Lineup) -> dict[str, tuple[str, ...]]:
    """Return an order of specimen ids for every station that asks something.

    Over the stations each specimen is first about equally often, and none always follows the same
    one (see `judge.balanced`). The orders depend on nothing but bench order and what is asked.
    """
    asking = [s.key for s in sequence.stations if asked_at(sequence, lineup, s.key)]
    ids = [specimen.id for specimen in lineup.specimens]
    orders = balanced_orders(len(ids), len(asking))
    return {
        station: tuple(ids[item] for item in order)
        for station, order in zip(asking, orders, strict=True)
    }


def by_slot(readings: Iterable[Reading]) -> dict[Slot, list[Reading]]:
    """Return the standing readings of every slot, in the order of their repeats."""
    found: dict[Slot, list[Reading]] = defaultdict(list)
    for reading in standing(list(readings)):
        found[Slot(reading.attribute, reading.specimen_id)].append(reading)
    for taken in found.values():
        taken.sort(key=lambda r: r.ordinal)
    return dict(found)


def blind_last(taken: list[Reading]) -> list[Reading]:
    """Return the readings of a slot with the blind ones last.

    Words are never averaged: the last one stands. What was judged without knowing whose part it
    was counts before what was judged knowing it, whichever came first.
    """
    return sorted(taken, key=lambda reading: reading.blind)


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
