"""The log of what changed when a line-up, a specimen or an instrument was saved again."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import Column, Connection, Select, Table, and_, insert, or_, select, update
from sqlalchemy.dialects import sqlite

from benchlog.shelf.tables import change
from benchlog.tasks.ports import Change

_DIALECT = sqlite.dialect()


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
) -> bool:
    """Insert `row` under `key`, or change what is there to it and log each field that differs.

    Whether the row is a new one is returned.
    """
    here = and_(*(table.c[name] == value for name, value in key.items()))
    stored = connection.execute(select(table).where(here)).mappings().first()
    if stored is None:
        connection.execute(insert(table), [{**key, **row}])
        return True
    made = [_change(table, key, name, stored[name], value, at) for name, value in row.items()]
    differing = [one for one in made if one.old != one.new]  # as text: 9.90 is not 9.9
    if differing:
        fresh = {one.field: row[one.field] for one in differing}
        connection.execute(update(table).where(here).values(fresh))
    for one in differing:
        _log(connection, one)
    return False


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


def log_added(
    connection: Connection,
    table: Table,
    key: Mapping[str, Any],
    name: str,
    value: Any,
    at: datetime,
) -> None:
    """Log that a row came in later than what it belongs to, by the field that names it."""
    _log(connection, _change(table, key, name, None, value, at))


def read_log(connection: Connection) -> list[Change]:
    """Return the whole log, oldest entry first."""
    return _read(connection, select(change))


def read_plan_log(connection: Connection, lineup_id: str) -> list[Change]:
    """Return what was logged of a line-up and its specimens, oldest entry first."""
    specimens = change.c.entity_id.startswith(f"{lineup_id}/", autoescape=True)
    return _read(
        connection,
        select(change).where(
            or_(
                and_(change.c.entity == "lineup", change.c.entity_id == lineup_id),
                and_(change.c.entity == "specimen", specimens),
            )
        ),
    )


def _read(connection: Connection, wanted: Select[Any]) -> list[Change]:
    rows = connection.execute(wanted.order_by(change.c.seq)).mappings()
    return [Change(**{n: v for n, v in row.items() if n != "seq"}) for row in rows]
