"""One connection to one SQLite file, with the settings that make a commit durable."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.pool import StaticPool

FILE = "shelf.sqlite"
BUSY_TIMEOUT_S = 0.5
"""The lock file keeps other windows out; a foreign program that holds the file is told soon."""

BEGIN = "begin"
"""Key of a connection's `info` under which another word to begin with may stand."""


def open_file(path: Path) -> sqlite3.Connection:
    """Open a file as it is, changing nothing in it yet."""
    return sqlite3.connect(
        path, timeout=BUSY_TIMEOUT_S, isolation_level=None, check_same_thread=False
    )


def make_durable(raw: sqlite3.Connection, *, foreign_keys: bool = True) -> None:
    """Choose a write-ahead log, and wait for the disk at every commit."""
    raw.execute("PRAGMA journal_mode=WAL")
    raw.execute("PRAGMA synchronous=FULL")
    raw.execute(f"PRAGMA foreign_keys={'ON' if foreign_keys else 'OFF'}")


def engine_over(raw: sqlite3.Connection) -> Engine:
    """Return an engine whose only connection is `raw`, and whose transactions begin at once.

    The driver's own habit of beginning late would let the steps of a migration slip out of
    their transaction; so it is switched off and BEGIN is said here.
    """
    engine = create_engine("sqlite://", creator=lambda: raw, poolclass=StaticPool)

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        connection.exec_driver_sql(connection.info.get(BEGIN, "BEGIN IMMEDIATE"))

    return engine
