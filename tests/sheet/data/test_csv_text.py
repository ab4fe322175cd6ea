"""CSV as RFC 4180 has it, and typed text that no spreadsheet may run."""

from __future__ import annotations

import csv
import io
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.sheet.data.csv_text import (
    RISKY,
    cell_text,
    guarded,
    read_cell,
    read_csv,
    rows_as_csv,
    unguarded,
)
from benchlog.sheet.data.table import FieldKind

texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)
starts = st.sampled_from([*RISKY, "", '"', ",", "\u202e", "😀", "שלום", ";", " ="])
hostile = st.builds(lambda start, rest: start + rest, starts, texts)
RUNNING = ("=", "+", "-", "@", "\t", "\r", "\n")
"""What makes a spreadsheet run a cell (check_values: not in the RFC; from memory)."""


@given(hostile)
@example("=1+1")
@example("'=1+1")
@example("''")
@example("'")
def test_guarded_text_comes_back_exactly(text: str) -> None:
    assert unguarded(guarded(text)) == text


@given(hostile)
def test_no_text_begins_as_a_formula(text: str) -> None:
    assert not cell_text(text).startswith(RUNNING)


def test_harmless_text_is_left_alone() -> None:
    assert [guarded(t) for t in ("Amber", " =1", "", "3-4")] == ["Amber", " =1", "", "3-4"]


def test_numbers_are_never_guarded() -> None:
    assert cell_text(-0.5) == "-0.5"
    assert cell_text(Decimal("-287.40")) == "-287.40"
    assert cell_text(-3) == "-3"


@given(st.lists(st.tuples(hostile, hostile), max_size=6))
def test_rows_round_trip_through_csv(rows: list[tuple[str, str]]) -> None:
    back = read_csv("t", rows_as_csv(("one", "two"), rows))
    assert [(unguarded(r["one"]), unguarded(r["two"])) for r in back] == rows


def test_records_end_and_quote_as_rfc_4180_says() -> None:
    # RFC 4180, section 2: rules 1 (CRLF), 3 (header), 6 (quotes) and 7 (a quote doubled).
    told = rows_as_csv(("a", "b"), [("x,y", 'says "no"'), ("two\r\nlines", "plain")])
    assert told == 'a,b\r\n"x,y","says ""no"""\r\n"two\r\nlines",plain\r\n'


@given(st.lists(st.tuples(hostile, hostile), max_size=6))
def test_every_record_has_as_many_fields(rows: list[tuple[str, str]]) -> None:
    told = rows_as_csv(("one", "two"), rows)
    assert {len(r) for r in csv.reader(io.StringIO(told, newline=""))} == {2}


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_float_keeps_every_digit(value: float) -> None:
    assert float(read_cell(FieldKind.NUMBER, cell_text(value))) == value


def test_decimal_keeps_trailing_noughts() -> None:
    assert str(read_cell(FieldKind.NUMBER, cell_text(Decimal("287.40")))) == "287.40"


@given(st.datetimes(datetime(2000, 1, 2), datetime(2099, 12, 30)), st.integers(-14 * 60, 14 * 60))
def test_moment_is_told_in_utc(naive: datetime, minutes: int) -> None:
    at = naive.replace(tzinfo=timezone(timedelta(minutes=minutes)))
    told = cell_text(at)
    assert told.endswith("Z")
    assert read_cell(FieldKind.TIME, told) == at
    assert cell_text(at.astimezone(UTC)) == told


def test_yes_no_is_read_strictly() -> None:
    assert [read_cell(FieldKind.YES_NO, cell_text(b)) for b in (True, False)] == [True, False]
    with pytest.raises(ValueError, match="neither true nor false"):
        read_cell(FieldKind.YES_NO, "maybe")


def test_empty_cell_is_nothing() -> None:
    assert [read_cell(kind, "") for kind in FieldKind] == [None] * len(FieldKind)
    assert cell_text(None) == ""


def test_wrong_number_is_refused() -> None:
    with pytest.raises(ValueError, match="'twelve' is no number"):
        read_cell(FieldKind.NUMBER, "twelve")


def test_uneven_row_is_named() -> None:
    with pytest.raises(PlanRefused, match="record 3 has 1 fields, not 2"):
        read_csv("t.csv", "a,b\r\n1,2\r\n3\r\n")


@pytest.mark.parametrize(("text", "what"), [("", "empty"), ('a\r\n"x" y\r\n', "no sound CSV")])
def test_broken_csv_is_refused(text: str, what: str) -> None:
    with pytest.raises(PlanRefused, match=what):
        read_csv("t.csv", text)


def test_very_long_field_is_read() -> None:
    long = "x" * 200_000
    assert read_csv("t", rows_as_csv(("a",), [(long,)])) == [{"a": long}]
