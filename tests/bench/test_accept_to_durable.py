"""From accepting a reading to having it on the disk, against SQLite alone.

The shelf checks, turns and writes a whole record; the bare side inserts the same row, ready
made, into a table of the same columns without guards or indices, with the same settings. Both
wait for the same disk in the same run, in turns, so only their ratio means anything: aim <= 2.
"""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from itertools import count
from pathlib import Path
from statistics import median

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.shelf import SqlShelf, open_shelf
from tests.shelf import scenes

ROUNDS = 200
WARM_UP = 20


@pytest.fixture
def shelf(tmp_path: Path) -> Iterator[SqlShelf]:
    with open_shelf(tmp_path / "shelf") as opened:
        scenes.set_up(opened)
        yield opened


def bare_table(folder: Path) -> tuple[sqlite3.Connection, str, tuple[object, ...]]:
    """Return a connection, an insert, and one row of a shelf whose first column is the id."""
    with closing(sqlite3.connect(folder / "shelf" / "shelf.sqlite")) as stored:
        found = stored.execute("SELECT * FROM reading LIMIT 1")
        names = [f'"{column[0]}"' for column in found.description][1:]
        row = found.fetchone()[1:]
    raw = sqlite3.connect(folder / "bare.sqlite", isolation_level=None)
    raw.execute("PRAGMA journal_mode=WAL")
    raw.execute("PRAGMA synchronous=FULL")
    raw.execute("PRAGMA foreign_keys=ON")
    raw.execute(f"CREATE TABLE reading (seq INTEGER PRIMARY KEY, {', '.join(names)})")
    marks = ", ".join("?" * len(names))
    return raw, f"INSERT INTO reading ({', '.join(names)}) VALUES ({marks})", row


def test_accept_to_durable(shelf: SqlShelf, tmp_path: Path, benchmark: BenchmarkFixture) -> None:
    shelf.add_reading(scenes.reading("model"))
    raw, insert, row = bare_table(tmp_path)
    numbers = count()
    bare_s: list[float] = []

    def bare_then_reading() -> tuple[tuple[object, ...], dict[str, object]]:
        number = next(numbers)
        began = time.perf_counter()
        raw.execute("BEGIN IMMEDIATE")
        raw.execute(insert, (str(number), *row[1:]))
        raw.execute("COMMIT")
        bare_s.append(time.perf_counter() - began)
        return (replace(scenes.reading("model"), id=str(number)),), {}

    with closing(raw):
        for _ in range(WARM_UP):
            (reading,), _nothing = bare_then_reading()
            shelf.add_reading(reading)
        bare_s.clear()
        benchmark.pedantic(shelf.add_reading, setup=bare_then_reading, rounds=ROUNDS, iterations=1)
        kept = raw.execute("SELECT count(*) FROM reading").fetchone()[0]

    assert kept == next(numbers)
    assert len(shelf.readings("spring")) == kept + 1
    if benchmark.stats is not None:
        ratio = benchmark.stats.stats.median / median(bare_s)
        benchmark.extra_info["bare_median_ms"] = round(median(bare_s) * 1000, 3)
        benchmark.extra_info["ratio_to_bare_insert"] = round(ratio, 2)
        print(f"\naccept to durable: {ratio:.2f} times a bare insert (aim: at most 2)")
