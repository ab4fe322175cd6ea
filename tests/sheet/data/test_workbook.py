"""The workbook, read back with openpyxl: text stays text, numbers stay numbers."""

from __future__ import annotations

import tempfile
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from benchlog.measure.quantities import value_in
from benchlog.sheet.data.table import Cell, Table, number, text, yes_no
from benchlog.sheet.data.tables import tables_of
from benchlog.sheet.data.workbook import (
    CUT,
    MOST_IN_A_CELL,
    readable,
    writable,
    write_workbook,
)
from tests.sheet.data.published import published
from tests.sheet.data.test_csv_text import hostile
from tests.tasks.sample_records import sample_record


def written(*cells: Cell) -> list[object]:
    """Write one row and return its cells as the workbook holds them."""
    fields = tuple(text(f"c{place}", "any") for place in range(len(cells)))
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / "t.xlsx"
        write_workbook([Table("t", "any", fields, (cells,), ("c0",))], path)
        return list(load_workbook(path)["t"][2])


@settings(max_examples=40, deadline=None)
@given(hostile)
@example("")
@example("=1+1")
@example('=HYPERLINK("x")')
@example("#N/A")
@example("_x0041_")
@example("a\rb\nc\x00\x1f\ufffe")
@example(" space around ")
@example("\u202eright to left שלום 😀")
def test_text_round_trips_as_text(given_text: str) -> None:
    (cell,) = written(given_text)
    assert readable(cell.value or "") == given_text
    assert cell.data_type == ("s" if given_text else "n"), "an empty text is an empty cell"


def test_no_formula_in_the_whole_workbook() -> None:
    book = load_workbook(published() / "tables.xlsx")
    kinds = {c.data_type for sheet in book for row in sheet for c in row if c.value is not None}
    assert kinds == {"s", "n", "b"}


def test_numbers_and_answers_keep_their_kind() -> None:
    cells = written(1.5, Decimal("287.40"), True, 7, datetime(2026, 3, 7, 9, tzinfo=UTC))
    assert [c.value for c in cells] == [1.5, 287.4, True, 7, "2026-03-07T09:00:00.000000Z"]


def test_number_without_end_is_text() -> None:
    (cell,) = written(Decimal("1E+999"))
    assert (cell.value, cell.data_type) == ("1E+999", "s")


def test_text_too_long_says_that_it_was_cut() -> None:
    (cell,) = written("x" * (MOST_IN_A_CELL + 1))
    assert len(cell.value) == MOST_IN_A_CELL
    assert cell.value.endswith(CUT)


@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=60))
def test_escapes_are_taken_back(given_text: str) -> None:
    assert readable(writable(given_text)) == given_text


def test_every_table_has_its_sheet() -> None:
    book = load_workbook(published() / "tables.xlsx")
    tables = tables_of(sample_record())
    assert book.sheetnames == [table.name for table in tables]
    for table in tables:
        sheet = book[table.name]
        assert [c.value for c in sheet[1]] == [field.name for field in table.fields]
        assert sheet.max_row == len(table.rows) + 1


def test_cells_say_what_the_record_says() -> None:
    record = sample_record()
    sheet = load_workbook(published() / "tables.xlsx")["figures"]
    names = [c.value for c in sheet[1]]
    rows = [dict(zip(names, [c.value for c in row], strict=True)) for row in sheet.iter_rows(2)]
    numbers = [f for f in record.figures.values() if f.quantity is not None]
    told = [row["value"] for row in rows if row["value"] is not None]
    right = [value_in(f.quantity, f.kind.unit) for f in numbers]
    assert told == pytest.approx(right, rel=1e-14, abs=0)


def test_columns_of_other_kinds_are_written() -> None:
    fields = (number("n", "any", "mm"), yes_no("y", "any"))
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / "t.xlsx"
        write_workbook([Table("t", "any", fields, ((None, False),), ("n",))], path)
        assert [c.value for c in load_workbook(path)["t"][2]] == [None, False]
