"""The readings of a record as a list: what stands, what was corrected, and why."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.measure.reading import Reading, standing
from benchlog.tasks.look import shown
from benchlog.tasks.record import Record
from benchlog.trade.component import Component
from benchlog.trade.specimen import Specimen

SEALED = "judged blind, sealed until the codes are opened"
"""What stands in place of a word that would tell whose part was behind a code."""


@dataclass(frozen=True)
class ReadingRow:
    """One reading; `stands` is False when a later one took its place or took it back.

    `note` says why it changed or what the reviewer gave as a reason; `spoken` says it all.
    """

    reading: Reading
    specimen: Specimen
    label: str
    text: str
    at: str
    taken_with: str
    stands: bool
    note: str
    spoken: str


def reading_rows(record: Record, component: Component | None = None) -> tuple[ReadingRow, ...]:
    """Return the readings of one component, or all, in the order of attribute, specimen, time."""
    standing_ids = {r.id for r in standing(list(record.readings))}
    places = {a.key: place for place, a in enumerate(record.sequence.attributes)}
    order = {s.id: place for place, s in enumerate(record.lineup.specimens)}
    wanted = [
        r
        for r in record.readings
        if component is None or record.sequence.attribute(r.attribute).component == component
    ]
    wanted.sort(key=lambda r: (places[r.attribute], order[r.specimen_id], r.ordinal, r.at))
    return tuple(_row(record, reading, reading.id in standing_ids) for reading in wanted)


def _row(record: Record, reading: Reading, stands: bool) -> ReadingRow:
    attribute = record.sequence.attribute(reading.attribute)
    specimen = next(s for s in record.lineup.specimens if s.id == reading.specimen_id)
    text = "scratched" if reading.withdrawn else shown(reading, attribute)
    if reading.id in record.sealed:
        text = SEALED
    repeat = f" ({reading.ordinal})" if attribute.repeats > 1 else ""
    names = {i.id: i.name for i in record.instruments}
    taken_with = names.get(reading.instrument_id or "", "")
    spoken = [f"{specimen.nickname}, {attribute.label}{repeat}: {text}"]
    spoken += ["judged blind"] if reading.blind and reading.id not in record.sealed else []
    spoken += [] if stands or reading.withdrawn else ["no longer stands"]
    spoken += [f"reason: {reading.reason}"] if reading.reason else []
    return ReadingRow(
        reading=reading,
        specimen=specimen,
        label=f"{attribute.label}{repeat}",
        text=text,
        at=reading.at.strftime("%Y-%m-%d %H:%M"),
        taken_with=taken_with or reading.source.value,
        stands=stands,
        note=reading.reason,
        spoken="; ".join(spoken),
    )
