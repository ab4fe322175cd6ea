"""The log of what changed when a line-up, a specimen or an instrument was saved again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Column, Connection, Table, and_, insert, select, update
from sqlalchemy.dialects import sqlite

from benchlog.shelf.tables import change

_DIALECT = sqlite.dialect()


@dataclass(frozen=True)
class Change:
    """One field that changed: text as it lies on the shelf; None where there was or is nothing.

    `entity` is "lineup", "specimen" (its `entity_id` is "line-up id/specimen id"), "instrument"
    or "photo".
    """

    entity: str
    entity_id: str
    field: str
    old: str | None
    new: str | None
    at: datetime


def as_text(column: Column[Any], value: Any) -> str | None:
    """Return a value as the text that the log keeps."""
    if value is None:
        return None
    written = column.type.dialect_impl(_DIALECT).bind_processor(_DIALECT)
    return str(written(value) if written else value)


def save_row(
    connection: Connection,
    table: Table,
    key: Mapping[str, Any],
    row: Mapping[str, Any],
    at: datetime,
) -> None:
    """Insert `row` under `key`, or change what is there to it and log each field that differs."""
    here = and_(*(table.c[name] == value for name, value in key.items()))
    stored = connection.execute(select(table).where(here)).mappings().first()
    if stored is None:
        connection.execute(insert(table), [{**key, **row}])
        return
    made = [_change(table, key, name, stored[name], value, at) for name, value in row.items()]
    differing = [one for one in made if one.old != one.new]  # as text: 9.90 is not 9.9
    if not differing:
        return
    fresh = {one.field: row[one.field] for one in differing}
    connection.execute(update(table).where(here).values(fresh))
    for one in differing:
        _log(connection, one)


def log_removed(
    connection: Connection,
    table: Table,
    key: Mapping[str, Any],
    row: Mapping[str, Any],
    at: datetime,
) -> None:
    """Log every field of a row that was taken away."""
    for name, value in row.items():
        if name not in key and value is not None:
            _log(connection, _change(table, key, name, value, None, at))


def _change(
    table: Table, key: Mapping[str, Any], name: str, old: Any, new: Any, at: datetime
) -> Change:
    column = table.c[name]
    entity_id = "/".join("" if value is None else str(value) for value in key.values())
    return Change(table.name, entity_id, name, as_text(column, old), as_text(column, new), at)


def _log(connection: Connection, entry: Change) -> None:
    """Put one entry at the end of the log."""
    connection.execute(insert(change), [vars(entry)])


def read_log(connection: Connection) -> list[Change]:
    """Return the whole log, oldest entry first."""
    rows = connection.execute(select(change).order_by(change.c.seq)).mappings()
    return [Change(**{n: v for n, v in row.items() if n != "seq"}) for row in rows]
