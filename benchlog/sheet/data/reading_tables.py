"""Tables of what was recorded: readings, checks, group corrections, photos, moments, remarks."""

from __future__ import annotations

from collections.abc import Mapping

from benchlog.measure.check import Check
from benchlog.measure.reading import Reading, standing
from benchlog.sheet.data.plan_tables import INSTRUMENT_ID, SPECIMEN_ID
from benchlog.sheet.data.table import Cell, Table, moment, number, row, text, whole, yes_no
from benchlog.tasks.record import Record

SI = "the SI unit named in si_unit"
SAID_UNIT = "the unit named in said_unit"

READING_FIELDS = (
    text("id", "names the reading", required=True),
    SPECIMEN_ID,
    text("attribute", "what was asked, as in attributes.csv", required=True),
    whole("ordinal", "counts the repeats of one attribute of one specimen from 1"),
    text("state", "how the value stands, in one of seven words", required=True),
    text("text", "what was typed or sent"),
    moment("at", "when it was read"),
    number("session_s", "seconds since the bench was opened", "s"),
    text("source", "where it came from", required=True),
    text("said", "the number and its unit exactly as said"),
    number("said_value", "the number as said; the middle of an interval", SAID_UNIT),
    text("said_unit", "the unit as said"),
    number("said_low", "the interval's lower end as said", SAID_UNIT),
    number("said_high", "the interval's upper end as said", SAID_UNIT),
    yes_no("said_about", "whether it was said to be an approximation"),
    text("word", "a choice's key, a text, or yes/no"),
    number("si_value", "the value", SI),
    number("si_low", "the interval's lower end", SI),
    number("si_high", "the interval's upper end", SI),
    text("si_unit", "the SI unit of the three columns before"),
    INSTRUMENT_ID,
    text("raw", "the bytes that a device sent, in hexadecimal"),
    text("reason", "why it supersedes an earlier reading, or why an unusual value stands"),
    text("supersedes", "the earlier reading that this one replaces"),
    yes_no("withdrawn", "whether it only takes the earlier one back"),
    text("group", "the group correction that made it, as in corrections.csv"),
    yes_no("blind", "whether the part was known by a code alone"),
    yes_no("stands", "whether it is neither superseded nor a withdrawal"),
    yes_no("in_doubt", "whether a failed check of its instrument speaks against it"),
)


def readings_table(record: Record) -> Table:
    """Return every reading, superseded ones included, oldest first."""
    stands = {r.id for r in standing(list(record.readings))}
    doubted = record.in_doubt
    rows = tuple(reading_row(r, r.id in stands, r.id in doubted) for r in record.readings)
    return Table("readings", "Every reading that was ever taken", READING_FIELDS, rows, ("id",))


def reading_row(reading: Reading, stands: bool, doubted: bool) -> tuple[Cell, ...]:
    """Return one reading as a row."""
    said = reading.said
    return row(
        *(reading.id, reading.specimen_id, reading.attribute, reading.ordinal, reading.state),
        *(reading.text, reading.at, reading.session_s, reading.source),
        *((said.text, said.value, said.unit) if said else (None, None, None)),
        *((said.low, said.high, said.approximate) if said else (None, None, None)),
        *(reading.word, reading.si_value, reading.si_low, reading.si_high, reading.si_unit),
        *(reading.instrument_id, reading.raw, reading.reason, reading.supersedes),
        *(reading.withdrawn, reading.group, reading.blind, stands, doubted),
    )


def checks_table(record: Record) -> Table:
    """Return the checks of the instruments, oldest first."""
    fields = (
        text("id", "names the check", required=True),
        INSTRUMENT_ID,
        text("moment", "which end of a bracket of readings it stands at", required=True),
        text("standard", "what was put on; empty for a zero"),
        number("known", "what it should have shown", "the instrument's unit"),
        number("tolerance", "the half-width within which that is known", "the instrument's unit"),
        text("said", "what it showed, as said"),
        number("said_value", "the number shown", SAID_UNIT),
        text("said_unit", "the unit shown"),
        moment("at", "when it was made"),
        number("session_s", "seconds since the bench was opened", "s"),
        text("after", "the latest reading at that moment; empty before the first"),
        text("note", "a note of the reviewer's"),
    )
    rows = tuple(_check(check) for check in record.checks)
    return Table("checks", "Checks of the instruments", fields, rows, ("id",))


def _check(check: Check) -> tuple[Cell, ...]:
    return row(
        *(check.id, check.instrument_id, check.moment, check.standard, check.known),
        *(check.tolerance, check.said.text, check.said.value, check.said.unit),
        *(check.at, check.session_s, check.after, check.note),
    )


def corrections_table(record: Record) -> Table:
    """Return what was done with whole brackets of readings, oldest first."""
    fields = (
        text("id", "names the correction", required=True),
        INSTRUMENT_ID,
        text("check_id", "the check that failed, as in checks.csv", required=True),
        text("remedy", "what was done with the readings", required=True),
        number("shift", "what was added to each reading", "the instrument's unit"),
        text("reason", "why"),
        moment("at", "when"),
        text("takes_back", "the earlier correction that this one undoes"),
    )
    rows = tuple(
        row(c.id, c.instrument_id, c.check_id, c.remedy, c.shift, c.reason, c.at, c.takes_back)
        for c in record.corrections
    )
    return Table("corrections", "Corrections of groups of readings", fields, rows, ("id",))


def photos_table(record: Record, paths: Mapping[str, str]) -> Table:
    """Return the photos; `paths` are where those lie that are in the package, by their ids."""
    fields = (
        whole("number", "counts the photos from 1"),
        text("sha256", "SHA-256 of the picture's bytes", source="FIPS 180-4", required=True),
        text("path", "where it lies in this package; empty when it is not in it"),
        SPECIMEN_ID,
        text("station", "the stop of the teardown"),
        text("name", "its file name as taken"),
        text("media_type", "its media type", source="RFC 6838"),
        whole("width", "width", "pixels"),
        whole("height", "height", "pixels"),
        moment("at", "when it came in"),
        text("caption", "what it shows"),
    )
    rows = tuple(
        row(
            *(place, p.id, paths.get(p.id), p.specimen_id, p.station, p.name, p.media_type),
            *(p.width, p.height, p.at, p.caption),
        )
        for place, p in enumerate(record.photos, start=1)
    )
    return Table("photos", "The photos, by their checksums", fields, rows, ("number",))


def moments_table(record: Record) -> Table:
    """Return the flagged moments of the session."""
    fields = (
        text("id", "names the moment", required=True),
        moment("at", "when"),
        number("session_s", "seconds since the bench was opened", "s"),
        text("label", "what was said of it"),
    )
    rows = tuple(row(m.id, m.at, m.session_s, m.label) for m in record.moments)
    return Table("moments", "Flagged moments of the session", fields, rows, ("id",))


def remarks_table(record: Record) -> Table:
    """Return the reviewer's latest remarks."""
    fields = (
        text("component", "the component", required=True),
        text("specimen_id", "the specimen; empty for the comparison as a whole"),
        moment("at", "when"),
        text("text", "the remark"),
    )
    rows = tuple(row(r.component, r.specimen_id, r.at, r.text) for r in record.remarks.values())
    return Table("remarks", "Remarks", fields, rows, ("component", "specimen_id"))
