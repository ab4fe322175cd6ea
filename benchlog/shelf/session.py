"""One open shelf file: whose turn it is, transactions, and letting go.

Threads: one connection, and one lock around every use of it; the window's main thread and its
workers may call at the same time and are served one after another.
"""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeVar

from filelock import BaseFileLock
from sqlalchemy import Connection, RowMapping, Select

from benchlog.errors import OurFault
from benchlog.shelf import faults
from benchlog.shelf.connect import BEGIN, engine_over

T = TypeVar("T")


class Session:
    """The connection to an open shelf; without a `lock` it may only read."""

    def __init__(self, folder: Path, raw: sqlite3.Connection, lock: BaseFileLock | None) -> None:
        self.folder = folder
        self.raw = raw
        self.read_only = lock is None
        self._lock = lock
        self._turn = threading.RLock()
        self._connection = engine_over(raw).connect()
        self._closed = False

    def close(self) -> None:
        """Let go of the file and of the lock; closing twice does no harm."""
        with self._turn:
            if self._closed:
                return
            self._closed = True
            try:
                self._connection.close()
                self.raw.close()
            finally:
                if self._lock is not None:
                    self._lock.release()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """See the shelf as of one moment."""
        with self._turn, faults.told(self.folder), self._begun("BEGIN") as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Write all of a record or nothing of it, and wait for the disk."""
        self.refuse_view()
        with self._turn, faults.told(self.folder), self._begun("BEGIN IMMEDIATE") as connection:
            yield connection

    def refuse_view(self) -> None:
        """Raise ShelfReadOnly when the shelf was opened to look only."""
        if self.read_only:
            raise faults.read_only(self.folder)

    @contextmanager
    def _begun(self, how: str) -> Iterator[Connection]:
        if self._closed:
            raise OurFault("The shelf is closed.")
        self._connection.info[BEGIN] = how
        with self._connection.begin():
            yield self._connection

    def records(
        self, connection: Connection, wanted: Select[Any], make: Callable[[RowMapping], T]
    ) -> list[T]:
        """Return what a query finds, as records.

        Raises ShelfDamaged for a word, time or number that no record can hold.
        """
        found = connection.execute(wanted).mappings()
        try:
            return [make(row) for row in found]
        except (ValueError, TypeError, ArithmeticError) as fault:
            raise faults.damaged(self.folder, str(fault)) from fault
