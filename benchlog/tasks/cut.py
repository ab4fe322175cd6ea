"""Whether the first step that cannot be taken back has been taken in a line-up."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.measure.reading import Reading
from benchlog.tasks.ports import Place, Shelf
from benchlog.trade.attribute import Sequence
from benchlog.trade.sequence_file import load_sequence


def behind_cut(sequence: Sequence) -> frozenset[str]:
    """Return the attributes asked at the first one-way station and behind it."""
    stations = [station.key for station in sequence.stations]
    first = next((n for n, s in enumerate(sequence.stations) if s.one_way), len(stations))
    later = set(stations[first:])
    return frozenset(a.key for a in sequence.attributes if a.station in later)


def cut_made(sequence: Sequence, place: Place | None, readings: Iterable[Reading]) -> bool:
    """Whether the cut was made: its yes was given, or something behind it was ever read.

    A reading that was scratched counts: it was taken on an opened filter.
    """
    one_way = {station.key for station in sequence.stations if station.one_way}
    if place is not None and not one_way.isdisjoint(place.passed):
        return True
    behind = behind_cut(sequence)
    return any(reading.attribute in behind for reading in readings)


def is_cut(shelf: Shelf, lineup_id: str, sequence: Sequence | None = None) -> bool:
    """Whether the cut was made in a line-up on the shelf; its own sequence unless one is given."""
    wanted = sequence or load_sequence(shelf.lineup(lineup_id).sequence)
    return cut_made(wanted, shelf.place(lineup_id), shelf.readings(lineup_id))
