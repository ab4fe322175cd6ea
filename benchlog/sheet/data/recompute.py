"""Working a published package out again, and naming every cell that comes out differently."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path

import pint

from benchlog.errors import OurFault, PlanRefused
from benchlog.measure.reading import standing
from benchlog.sheet.data.csv_text import cell_text, unguarded
from benchlog.sheet.data.plan_tables import instruments_table
from benchlog.sheet.data.read_package import Package, read_package, unpacked
from benchlog.sheet.data.reading_tables import READING_FIELDS, reading_row
from benchlog.sheet.data.rows_back import instrument_from, objects_of, reading_from
from benchlog.sheet.data.table import FieldKind, Table
from benchlog.sheet.data.tables import tables_of
from benchlog.tasks.contents import Contents
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import worked_out

DIGITS = 9
"""Significant digits to which numbers must agree; printed ones must be the same in every digit."""

NOTHING = "(nothing)"


@dataclass(frozen=True)
class Difference:
    """One place where a package is not what it should be: `printed` there, `worked_out` here.

    `place` names the table, or the file; `row` its key and `column` the column, "" for the whole.
    """

    place: str
    row: str
    column: str
    printed: str
    worked_out: str

    @property
    def sentence(self) -> str:
        """Return the difference in one line."""
        where = ", ".join(filter(None, (self.place, self.row, self.column)))
        return f"{where}: the package says {self.printed}, worked out it is {self.worked_out}"


def recompute(folder: Path) -> tuple[Difference, ...]:
    """Return every difference between a package's tables and what its readings come to.

    `folder` is the package's folder, or a zip file of it. Findings, figures, scores and awards
    are worked out from readings.csv and instruments.csv as they stand, under the plan and the
    rules of record.json. Readings and instruments that were changed beside record.json are
    differences too, and so are files whose checksum is another. Raises PlanRefused when the
    package cannot be read at all, PublishRefused when it does not say who paid.
    """
    with unpacked(folder) as place:
        return _differences(read_package(place))


def _differences(package: Package) -> tuple[Difference, ...]:
    recorded = _again(package.contents)
    contents = _from_tables(package, recorded)
    again = recorded if contents == package.contents else _again(contents)
    paths = {row["sha256"]: row["path"] for row in package.tables.get("photos", ()) if row["path"]}
    paths |= {
        row["scale_picture"]: row["scale_path"]
        for row in package.tables.get("set_ups", ())
        if row.get("scale_picture") and row.get("scale_path")
    }
    found = [
        Difference(path, "", "", "another checksum, or no such file", "the checksum of the package")
        for path in package.changed
    ]
    if again.digest != package.digest:
        found.append(Difference("datapackage.json", "", "id", package.digest, again.digest))
    as_recorded = {t.name: t for t in tables_of(recorded, paths)}
    for table in tables_of(again, paths):
        # What was read is held to the record, what was worked out to what was read.
        right = as_recorded[table.name] if table.name in ("readings", "instruments") else table
        found.extend(_compared(right, package))
    return tuple(found)


def _again(contents: Contents) -> Record:
    try:
        return worked_out(contents)
    except (OurFault, pint.PintError) as fault:
        # A row that was changed may name an instrument or a unit that there is not.
        raise PlanRefused(
            f"The readings of this package do not hold together: {fault}.",
            "Put the changed row right, or take another copy of the package.",
        ) from fault


def _from_tables(package: Package, recorded: Record) -> Contents:
    contents = package.contents
    stands = {r.id for r in standing(list(contents.readings))}
    readings, instruments = contents.readings, contents.instruments
    if "readings" in package.tables:
        readings = objects_of(
            "readings",
            package.tables["readings"],
            READING_FIELDS,
            readings,
            lambda r: reading_row(r, r.id in stands, r.id in recorded.in_doubt),
            lambda cells: reading_from(cells, contents.lineup.id),
        )
    if "instruments" in package.tables:
        table = instruments_table(recorded)
        rows = dict(zip([i.id for i in instruments], table.rows, strict=True))
        instruments = objects_of(
            "instruments",
            package.tables["instruments"],
            table.fields,
            instruments,
            lambda i: rows[i.id],
            instrument_from,
        )
    return replace(contents, readings=readings, instruments=instruments)


def _compared(table: Table, package: Package) -> Iterable[Difference]:
    """Yield where a table of the package differs from the one worked out."""
    if table.name not in package.tables:
        yield Difference(f"{table.name}.csv", "", "", NOTHING, "a table")
        return
    names = [field.name for field in table.fields]
    kinds = {field.name: field.kind for field in table.fields}
    right = [dict(zip(names, map(cell_text, row), strict=True)) for row in table.rows]
    given: dict[str, dict[str, str]] = {}
    for row in package.tables[table.name]:
        if (key := _key(table, row)) in given:
            yield Difference(table.name, key, "", "a row twice", "one row")
        given[key] = row
    for row in right:
        key = _key(table, row)
        there = given.pop(key, None)
        if there is None:
            yield Difference(table.name, key, "", NOTHING, "a row")
            continue
        for name in names:
            if not _agree(kinds[name], there.get(name, ""), row[name]):
                said = (_shown(there.get(name, "")), _shown(row[name]))
                yield Difference(table.name, key, name, *said)
    for key in given:
        yield Difference(table.name, key, "", "a row", NOTHING)


def _key(table: Table, row: dict[str, str]) -> str:
    return " / ".join(row.get(name, "") for name in table.key)


def _agree(kind: FieldKind, one: str, other: str) -> bool:
    if one == other:
        return True
    if kind is not FieldKind.NUMBER or not one or not other:
        return False
    try:
        return _rounded(one) == _rounded(other)
    except ArithmeticError:
        return False


def _rounded(number: str) -> Decimal:
    return Decimal(f"{Decimal(number):.{DIGITS - 1}e}")


def _shown(text: str) -> str:
    return f"“{unguarded(text)}”" if text else NOTHING
