"""Turn where the bench stands into what the bench shows."""

from __future__ import annotations

import re
from collections.abc import Iterable

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.plain_text import plain
from benchlog.measure.reading import Reading, Said
from benchlog.measure.state import State
from benchlog.measure.units import unit_symbol
from benchlog.tasks.answer import choices_of, range_text, usual_unit
from benchlog.tasks.bench_view import Asked, BenchView, Cell, StationRow, TableRow
from benchlog.tasks.check_book import CheckBook
from benchlog.tasks.ports import Photo, Place
from benchlog.tasks.slots import Slot, asked_at, is_answered
from benchlog.trade.attribute import Attribute, Kind, Sequence
from benchlog.trade.specimen import Lineup, Specimen

Taken = dict[Slot, list[Reading]]

_FRACTION = re.compile(r"-?(?:\d+[ -]+)?\d+\s*/\s*\d+", re.ASCII)
"""A fraction as said is shown as said; a slash in the unit, as in cfm/ft², is none."""


def look(
    lineup: Lineup,
    sequence: Sequence,
    place: Place,
    taken: Taken,
    instruments: list[Instrument],
    *,
    inch: bool,
    last: str,
    can_scratch: bool,
    checked: CheckBook,
    readings: list[Reading],
    photos: Iterable[Photo] = (),
) -> BenchView:
    """Return everything that the bench draws."""
    asked = _asked(lineup, sequence, place, taken, instruments, inch=inch)
    tool = asked.tool if asked else None
    doubted = checked.in_doubt(readings, instruments)
    rows = tuple(_station_row(lineup, sequence, place, taken, s.key) for s in sequence.stations)
    station = sequence.station(place.station)
    return BenchView(
        lineup=lineup,
        stations=rows,
        station=station,
        asked=asked,
        by_specimen=place.by_specimen,
        table=tuple(
            TableRow(a, tuple(_cell(a, s, place, taken, doubted) for s in lineup.specimens))
            for a in asked_at(sequence, lineup, station.key)
        ),
        yes_wanted=station.one_way and station.key not in place.passed,
        half_typed=place.half_typed,
        last=last,
        missing=sum(row.missing for row in rows),
        can_scratch=can_scratch,
        photos_here=sum(
            1
            for p in photos
            if p.station == place.station and p.specimen_id in ("", place.specimen_id)
        ),
        tool_check=checked.tool(readings, tool) if tool else None,
        still_open=(
            checked.still_open(readings, instruments)
            if station.key == sequence.stations[-1].key
            else ()
        ),
    )


def shown(reading: Reading, attribute: Attribute) -> str:
    """Return a reading as people read it: "287.4 g", "~5 mm", "8 to 11 psi", "not marked"."""
    if not reading.state.has_value:
        return reading.state.value
    if reading.said is not None:
        return _said_shown(reading.said, estimate=reading.state is State.ESTIMATE)
    word = reading.word or ""
    labels = {choice.key: choice.label for choice in choices_of(attribute)}
    return labels.get(word, word)


def told(reading: Reading, lineup: Lineup, sequence: Sequence) -> str:
    """Return one line that tells a reading: "Amber · Whole weight: 287.4 g"."""
    attribute = sequence.attribute(reading.attribute)
    nickname = next((s.nickname for s in lineup.specimens if s.id == reading.specimen_id), "?")
    text = shown(reading, attribute)
    return f"{nickname} · {attribute.label}: {text}"


def _said_shown(said: Said, *, estimate: bool) -> str:
    symbol = unit_symbol(said.unit)
    fraction = _FRACTION.search(plain(said.text))
    if said.low is not None and said.high is not None and not estimate:
        number = f"{said.low:f} to {said.high:f}"
    elif fraction and said.low is None:
        number = fraction[0]
    else:
        number = f"{said.value:f}"
    mark = "~" if estimate else ""
    return f"{mark}{number} {symbol}".rstrip()


def _cell(
    attribute: Attribute, specimen: Specimen, place: Place, taken: Taken, doubted: frozenset[str]
) -> Cell:
    readings = taken.get(Slot(attribute.key, specimen.id), [])
    states = {r.state for r in readings}
    ended = any(not state.has_value for state in states)  # a state asks for no repeats
    return Cell(
        specimen_id=specimen.id,
        text=", ".join(shown(r, attribute) for r in readings),
        state=next(iter(states)).value if len(states) == 1 else "",
        taken=len(readings),
        wanted=len(readings) if ended else attribute.repeats,
        here=(attribute.key, specimen.id) == (place.attribute, place.specimen_id),
        in_doubt=not doubted.isdisjoint(r.id for r in readings),
    )


def _station_row(
    lineup: Lineup, sequence: Sequence, place: Place, taken: Taken, key: str
) -> StationRow:
    station = sequence.station(key)
    attributes = asked_at(sequence, lineup, key)
    missing = sum(
        not is_answered(a, taken.get(Slot(a.key, s.id), []))
        for a in attributes
        if a.kind is not Kind.TEXT
        for s in lineup.specimens
    )
    return StationRow(
        key=key,
        label=station.label,
        missing=missing,
        asked=sum(a.kind is not Kind.TEXT for a in attributes) * len(lineup.specimens),
        one_way=station.one_way,
        passed=key in place.passed,
        here=key == place.station,
    )


def _asked(
    lineup: Lineup,
    sequence: Sequence,
    place: Place,
    taken: Taken,
    instruments: Iterable[Instrument],
    *,
    inch: bool,
) -> Asked | None:
    if not place.attribute:
        return None
    attribute = sequence.attribute(place.attribute)
    specimen = next(s for s in lineup.specimens if s.id == place.specimen_id)
    readings = tuple(taken.get(Slot(attribute.key, specimen.id), ()))
    return Asked(
        attribute=attribute,
        specimen=specimen,
        ordinal=min(len(readings) + 1, max(attribute.repeats, len(readings))),
        wanted=attribute.repeats,
        unit=unit_symbol(usual_unit(attribute, inch=inch)) if attribute.is_number else "",
        range_text=range_text(attribute, inch=inch),
        takes_weight=attribute.dimension == "mass",
        choices=choices_of(attribute),
        tool=tool_in_hand(attribute, place, instruments),
        taken=readings,
    )


def tool_in_hand(
    attribute: Attribute, place: Place, instruments: Iterable[Instrument]
) -> Instrument | None:
    """Return the instrument that a reading of this attribute is taken with; None for the eye.

    None too where a microscope is meant: only a picture is taken with a set-up, and a number that
    is typed has neither its scale nor its doubt.
    """
    if attribute.instrument == InstrumentKind.MICROSCOPE:
        return None
    of_kind = [i for i in instruments if i.kind.value == attribute.instrument]
    chosen = dict(place.tools).get(attribute.instrument)
    return next((i for i in of_kind if i.id == chosen), of_kind[0] if of_kind else None)
