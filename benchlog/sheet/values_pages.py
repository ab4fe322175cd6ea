"""The parts of the sheet that hold values: fit card, outside, inside, media, bench tests."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether

from benchlog.settings import METRIC
from benchlog.sheet.flow import gap, section
from benchlog.sheet.photos_pages import (
    SHAPE,
    add_photos,
    frame_width,
    photos_apart,
    stand_in_columns,
)
from benchlog.sheet.pictures import Pictures
from benchlog.sheet.sheet_parts import MOUNT_ASKED, Part, Parts, part_of_station
from benchlog.sheet.text import para
from benchlog.sheet.typography import Page
from benchlog.sheet.value_rows import Row, attribute_row
from benchlog.sheet.values_table import ValuesTable
from benchlog.tasks.record import Record

ROOM_FOR_PART = 140.0
ROOM_ABOVE_PHOTOS = 120.0

LEADS = {
    Part.MOUNT: (
        "What decides on the mount, as far as it can be read from the part. Likeness on this card "
        "clears nothing: the vehicle maker’s handbook names the filter, and what is unknown "
        "stays open."
    ),
    Part.OUTSIDE: (
        "± holds about 95 % of what would be read if the same part were measured again here. It "
        "does not speak for other filters of the same part number. A value that is not there "
        "stands as the word that says why; ~ marks an estimate, n how many readings count."
    ),
    Part.INSIDE: "What the cut laid open, from the can inwards.",
    Part.MEDIA: "The sheet unfolded: its size, its weight, its thickness under a stated foot.",
    Part.TESTS: "Each with what its result does not show.",
}

PRESSURE = "Pressure that the can is made for"


def mount_pages(record: Record, page: Page, parts: Parts, units: str = METRIC) -> list[Flowable]:
    """Return the fit card, unknowns printed as unknown; nothing without a line for it."""
    there = {row.key for row in parts.mount}
    known = {a.key: a for a in record.sequence.attributes}
    absent = [
        attribute_row(record, known[key], units)
        for key in MOUNT_ASKED
        if key in known and key not in there
    ]
    rows = [_unknowns_named(row) for row in (*parts.mount, *absent)]
    if not rows or not record.lineup.specimens:
        return []
    grown = ValuesTable(record, page)
    grown.add(rows)
    beneath = f"{PRESSURE}: unknown for every specimen; nothing at this bench tells it."
    return [*_opening(Part.MOUNT), *grown.flowables(), gap(4), para(beneath, "note")]


def _unknowns_named(row: Row) -> Row:
    """Return the row with every state that leaves a question open told as unknown."""
    cells = tuple(
        replace(cell, main=f"unknown: {cell.main}")
        if cell.is_state and cell.main != "not applicable"
        else cell
        for cell in row.cells
    )
    return replace(row, cells=cells)


def part_pages(
    record: Record, page: Page, part: Part, rows: Iterable[Row], pictures: Pictures
) -> list[Flowable]:
    """Return one part: its photos side by side, then its values by component."""
    listed = list(rows)
    stations = [s for s in pictures.stations() if part_of_station(s) is part]
    if not record.lineup.specimens or not (listed or stations):
        return []
    apart = photos_apart(record, page, pictures, stations)
    room = ROOM_FOR_PART
    if stations and not apart:
        room = ROOM_ABOVE_PHOTOS + SHAPE * frame_width(page, len(record.lineup.specimens))
    opening: list[Flowable] = [CondPageBreak(room), *_opening(part)[1:]]
    if apart:
        opening = [KeepTogether([*opening[1:], *apart[0]]), *(KeepTogether(r) for r in apart[1:])]
    grown = ValuesTable(record, page)
    if stand_in_columns(len(record.lineup.specimens)):
        add_photos(grown, record, page, pictures, stations)
    grown.by_component(listed)
    return [*opening, *grown.flowables()]


def tests_pages(record: Record, page: Page, parts: Parts) -> list[Flowable]:
    """Return the bench tests, then what was not worked out for want of readings, in one line."""
    beneath: list[Flowable] = []
    if parts.wanting:
        names = ", ".join(row.label for row in parts.wanting)
        beneath = [gap(6), para(f"Not worked out for want of readings: {names}.", "note")]
    if not parts.tests:
        return beneath
    grown = ValuesTable(record, page)
    for test, rows in parts.tests:
        grown.heading(test.label, f"What it does not show: {test.not_shown}")
        grown.add(list(rows))
    return [*_opening(Part.TESTS), *grown.flowables(), *beneath]


def _opening(part: Part) -> list[Flowable]:
    return [CondPageBreak(ROOM_FOR_PART), *section(part.value, LEADS[part])]


def nothing_recorded(parts: Parts) -> list[Flowable]:
    """Return what stands in the place of all values where there are none."""
    return [] if parts.printed else [*section("Values"), para("Nothing was recorded.")]
