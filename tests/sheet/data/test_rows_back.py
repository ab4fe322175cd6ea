"""Readings and instruments, as rows of CSV and back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from benchlog.errors import PlanRefused
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading
from benchlog.sheet.data.csv_text import read_cell, read_csv, rows_as_csv
from benchlog.sheet.data.plan_tables import instruments_table
from benchlog.sheet.data.read_package import Rows
from benchlog.sheet.data.reading_tables import READING_FIELDS, reading_row
from benchlog.sheet.data.rows_back import instrument_from, objects_of, reading_from
from benchlog.sheet.data.table import Cell, Field
from tests import strategies as made
from tests.tasks.sample_records import sample_record

NAMES = [field.name for field in READING_FIELDS]


def rows_of(fields: tuple[Field, ...], *rows: tuple[Cell, ...]) -> Rows:
    """Return rows as they are read from a CSV file that was written."""
    return read_csv("t", rows_as_csv([field.name for field in fields], rows))


def as_row(reading: Reading) -> tuple[Cell, ...]:
    return reading_row(reading, True, False)


def read_back(reading: Reading) -> Reading:
    (row,) = rows_of(READING_FIELDS, as_row(reading))
    cells = {field.name: read_cell(field.kind, row[field.name]) for field in READING_FIELDS}
    return reading_from(cells, reading.lineup_id)


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(made.readings(instrument_ids=("i-1",), groups=("g",)))
def test_reading_comes_back_from_its_row(reading: Reading) -> None:
    # CSV has one empty cell for nothing and for an empty text; record.json tells them apart.
    expected = replace(reading, word=reading.word or None, raw=reading.raw or None)
    assert read_back(expected) == expected


@given(made.readings(supersedes="old"))
def test_superseding_reading_comes_back(reading: Reading) -> None:
    assert read_back(reading).supersedes == "old"
    assert read_back(reading).withdrawn is reading.withdrawn


@given(made.instruments)
def test_instrument_comes_back_from_its_row(instrument: Instrument) -> None:
    table = instruments_table(replace(sample_record(), instruments=(instrument,)))
    (row,) = rows_of(table.fields, *table.rows)
    cells = {field.name: read_cell(field.kind, row[field.name]) for field in table.fields}
    assert instrument_from(cells) == instrument


def test_unchanged_row_gives_the_very_object() -> None:
    readings = sample_record().readings[:5]
    rows = rows_of(READING_FIELDS, *(as_row(r) for r in readings))
    found = objects_of(
        "readings", rows, READING_FIELDS, readings, as_row, lambda c: reading_from(c, "l")
    )
    assert all(one is other for one, other in zip(found, readings, strict=True))


def test_changed_row_is_read_as_it_stands() -> None:
    (reading,) = (r for r in sample_record().readings[:1])
    (row,) = rows_of(READING_FIELDS, as_row(reading))
    row["reason"] = "'=because"
    (found,) = objects_of(
        "readings", [row], READING_FIELDS, [reading], as_row, lambda c: reading_from(c, "l")
    )
    assert found == replace(reading, reason="=because", lineup_id="l")


def test_order_of_rows_is_kept() -> None:
    readings = sample_record().readings[:4]
    rows = rows_of(READING_FIELDS, *(as_row(r) for r in reversed(readings)))
    found = objects_of(
        "readings", rows, READING_FIELDS, readings, as_row, lambda c: reading_from(c, "l")
    )
    assert [r.id for r in found] == [r.id for r in reversed(readings)]


@pytest.mark.parametrize("column", ["id", "state", "at", "session_s", "source", "ordinal"])
def test_missing_column_names_table_and_row(column: str) -> None:
    (row,) = rows_of(READING_FIELDS, as_row(sample_record().readings[0]))
    name = row["id"] if column != "id" else ""
    del row[column]
    with pytest.raises(PlanRefused, match=f"readings.csv cannot be read: row '{name}'"):
        objects_of("readings", [row], READING_FIELDS, [], as_row, lambda c: reading_from(c, "l"))


@pytest.mark.parametrize("column", ["id", "state", "at", "session_s", "source", "ordinal"])
def test_emptied_cell_that_is_needed_is_refused(column: str) -> None:
    (row,) = rows_of(READING_FIELDS, as_row(sample_record().readings[0]))
    row[column] = ""
    with pytest.raises(PlanRefused, match="cannot be read"):
        objects_of("readings", [row], READING_FIELDS, [], as_row, lambda c: reading_from(c, "l"))


def test_columns_are_those_of_the_row() -> None:
    assert len(NAMES) == len(as_row(sample_record().readings[0])) == len(set(NAMES))
