"""Tables as CSV (RFC 4180) and back, with typed text kept from running as a formula.

Records end with CR LF, fields stand in quotes where they hold a comma, a quote or a line break,
and a quote inside is doubled. A spreadsheet runs a cell that begins with = + - @ as a formula,
which RFC 4180 says nothing of: such text is given an apostrophe in front, and so is text that
begins with an apostrophe, a tab or a line break, so that taking one apostrophe off gives the text
back exactly. Numbers are no text: -0.5 stays -0.5.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from benchlog.errors import PlanRefused
from benchlog.sheet.data.table import Cell, FieldKind, Table

MARK = "'"
RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20", MARK)
"""How text may not begin; the full-width signs run in some spreadsheets as the plain ones do."""

MOST_IN_A_FIELD = 10_000_000
"""Characters that a field may hold when it is read; the library's own limit is far lower."""


def guarded(text: str) -> str:
    """Return text that no spreadsheet takes for a formula."""
    return MARK + text if text.startswith(RISKY) else text


def unguarded(text: str) -> str:
    """Return the text that `guarded` was given."""
    return text[1:] if text.startswith(MARK) and text[1:].startswith(RISKY) else text


def cell_text(value: Cell) -> str:
    """Return a cell as it stands in CSV; "" for nothing. A float keeps all its digits."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, datetime):
        return value.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")
    if isinstance(value, str):
        return guarded(value)
    return str(value) if isinstance(value, (int, Decimal)) else repr(value)


def table_as_csv(table: Table) -> str:
    """Return a table as CSV with one header record; its line ends are part of the text."""
    return rows_as_csv([f.name for f in table.fields], table.rows)


def rows_as_csv(header: Iterable[str], rows: Iterable[Iterable[Cell]]) -> str:
    """Return a header and rows of cells as CSV."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(list(header))
    writer.writerows([cell_text(value) for value in one] for one in rows)
    return out.getvalue()


def read_csv(name: str, text: str) -> list[dict[str, str]]:
    """Return the rows of a CSV text as they stand there, by their columns' names.

    Raises PlanRefused for a text that is no CSV and for a row that is too long or too short.
    """
    limit = csv.field_size_limit(MOST_IN_A_FIELD)
    try:
        records = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    except csv.Error as fault:
        raise _refused(name, f"it is no sound CSV ({fault})") from fault
    finally:
        csv.field_size_limit(limit)
    if not records:
        raise _refused(name, "it is empty")
    header, *rows = records
    for line, row in enumerate(rows, start=2):
        if len(row) != len(header):
            raise _refused(name, f"record {line} has {len(row)} fields, not {len(header)}")
    return [dict(zip(header, row, strict=True)) for row in rows]


def read_cell(kind: FieldKind, text: str) -> Any:
    """Return what a cell of that kind of column says; None for an empty one.

    A number is a Decimal, with every digit that stands there. Raises ValueError.
    """
    if text == "":
        return None
    if kind is FieldKind.NUMBER:
        try:
            return Decimal(text)
        except ArithmeticError as fault:
            raise ValueError(f"'{text}' is no number") from fault
    if kind is FieldKind.WHOLE:
        return int(text)
    if kind is FieldKind.YES_NO:
        return {"true": True, "false": False}[text] if text in ("true", "false") else _no(text)
    return datetime.fromisoformat(text) if kind is FieldKind.TIME else unguarded(text)


def _no(text: str) -> Any:
    raise ValueError(f"'{text}' is neither true nor false")


def _refused(name: str, what: str) -> PlanRefused:
    return PlanRefused(f"{name} cannot be read: {what}.", "Take another copy of the package.")
