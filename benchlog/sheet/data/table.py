"""One table of the data package: its columns, what they mean, and its rows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from enum import Enum, StrEnum
from typing import Any, TypeAlias

Cell: TypeAlias = "str | float | int | bool | Decimal | datetime | None"


class FieldKind(StrEnum):
    """What a column holds, in the words of Table Schema."""

    TEXT = "string"
    NUMBER = "number"
    WHOLE = "integer"
    YES_NO = "boolean"
    TIME = "datetime"


@dataclass(frozen=True)
class Field:
    """One column.

    `unit` is in words, "" where there is none or another column names it. `source` says where the
    meaning stands, "" for plain words of our own.
    """

    name: str
    kind: FieldKind
    about: str
    unit: str = ""
    source: str = ""
    required: bool = False


@dataclass(frozen=True)
class Table:
    """One table; `key` names the columns that tell its rows apart."""

    name: str
    title: str
    fields: tuple[Field, ...]
    rows: tuple[tuple[Cell, ...], ...]
    key: tuple[str, ...]

    def place(self, field: str) -> int:
        """Return where a column stands, from 0; raises ValueError."""
        return [one.name for one in self.fields].index(field)


def text(name: str, about: str, *, source: str = "", required: bool = False) -> Field:
    """Return a column of text."""
    return Field(name, FieldKind.TEXT, about, source=source, required=required)


def number(name: str, about: str, unit: str = "", *, source: str = "") -> Field:
    """Return a column of numbers."""
    return Field(name, FieldKind.NUMBER, about, unit, source)


def whole(name: str, about: str, unit: str = "") -> Field:
    """Return a column of whole numbers."""
    return Field(name, FieldKind.WHOLE, about, unit)


def yes_no(name: str, about: str) -> Field:
    """Return a column of true and false."""
    return Field(name, FieldKind.YES_NO, about)


def moment(name: str, about: str) -> Field:
    """Return a column of moments, in UTC."""
    return Field(name, FieldKind.TIME, about, "UTC")


def cell(value: Any) -> Cell:
    """Return a record's value as a cell: words of an enumeration, times in UTC, bytes as hex."""
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, datetime):
        return value.astimezone(UTC)
    if isinstance(value, bytes):
        return value.hex()
    if isinstance(value, (tuple, list, frozenset)):
        return "; ".join(str(one) for one in value)
    if value is None or isinstance(value, (str, bool, int, float, Decimal)):
        return value
    return str(value)


def row(*values: Any) -> tuple[Cell, ...]:
    """Return a row of cells."""
    return tuple(cell(value) for value in values)
