"""A full disk: told in words, nothing acknowledged is lost, and it goes on once there is room.

SQLite says "database or disk is full" on a small disk of its own where this user may mount one,
and everywhere under a cap on the file's pages.
"""

from __future__ import annotations

import resource
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

import benchlog
from benchlog.errors import ShelfFull
from benchlog.shelf import SqlShelf, check_shelf, open_shelf
from benchlog.shelf.opening import open_session, utc_now
from tests.made_shelves import fresh_shelf
from tests.shelf import scenes

ROOT = Path(benchlog.__file__).parents[1]


def mounted(place: Path) -> bool:
    """Put a disk of 700 kB at `place`; whether that was allowed."""
    mount = shutil.which("mount")
    command = [mount or "mount", "-t", "tmpfs", "-o", "size=700k", "none", str(place)]
    if mount is None:
        return False
    return subprocess.run(command, check=False, capture_output=True).returncode == 0


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A shelf's folder on a small disk; on the usual disk where none may be mounted."""
    place = tmp_path / "disk"
    place.mkdir()
    small = mounted(place)
    try:
        yield fresh_shelf(place / "shelf")
    finally:
        if small:
            subprocess.run(["umount", "--lazy", str(place)], check=True)


def fill(shelf: SqlShelf) -> tuple[list[str], ShelfFull]:
    """Add readings until the disk is full; return those acknowledged, and what was told."""
    kept: list[str] = []
    for number in range(20_000):
        reading = replace(scenes.reading(f"reading {number}"), raw=b"x" * 500)
        try:
            shelf.add_reading(reading)
        except ShelfFull as full:
            return kept, full
        kept.append(reading.id)
    pytest.fail("the disk was never full")


def test_full_file_loses_nothing(folder: Path) -> None:
    session = open_session(folder, read_only=False)
    with SqlShelf(session, utc_now) as shelf:
        scenes.set_up(shelf)
        pages = session.raw.execute("PRAGMA page_count").fetchone()[0]
        session.raw.execute(f"PRAGMA max_page_count={pages + 20}")
        kept, refusal = fill(shelf)
        assert len(kept) > 10
        assert "is full" in refusal.what
        assert "Make room" in refusal.do
        assert [one.id for one in shelf.readings("spring")] == kept
        session.raw.execute(f"PRAGMA max_page_count={pages + 1000}")
        shelf.add_reading(scenes.reading("once there is room"))
    with open_shelf(folder) as shelf:
        assert [one.id for one in shelf.readings("spring")] == [*kept, "once there is room"]
    assert check_shelf(folder) == []


def test_full_disk_loses_nothing(small_disk: Path) -> None:
    ballast = small_disk.parent / "ballast"
    ballast.write_bytes(b"x" * 100_000)
    session = open_session(small_disk, read_only=False)
    with SqlShelf(session, utc_now) as shelf:
        scenes.set_up(shelf)
        if shutil.disk_usage(small_disk).total > 1_000_000:  # none may be mounted here
            pages = session.raw.execute("PRAGMA page_count").fetchone()[0]
            session.raw.execute(f"PRAGMA max_page_count={pages + 12}")
        kept, refusal = fill(shelf)
        assert kept
        assert "all before it were" in refusal.what
        assert [one.id for one in shelf.readings("spring")] == kept
        ballast.unlink()
        session.raw.execute("PRAGMA max_page_count=5000")
        shelf.add_reading(scenes.reading("once there is room"))
        assert [one.id for one in shelf.readings("spring")] == [*kept, "once there is room"]
    with open_shelf(small_disk, read_only=True) as view:
        assert [one.id for one in view.readings("spring")] == [*kept, "once there is room"]
    assert check_shelf(small_disk) == []


CAPPED = """
import resource, signal, sys
from pathlib import Path
from benchlog.errors import ShelfFull
from benchlog.shelf import check_shelf, open_shelf
from tests.shelf import scenes
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
folder = Path(sys.argv[1])
with open_shelf(folder) as shelf:
    scenes.set_up(shelf)
    picture = b"x" * 3_000_000
    resource.setrlimit(resource.RLIMIT_FSIZE, (2_000_000, resource.RLIM_INFINITY))
    try:
        shelf.add_photo(scenes.photo(picture), picture)
    except ShelfFull as full:
        print(full)
    shelf.add_photo(scenes.photo(), scenes.PICTURE)
    print(len(shelf.photos("spring")), check_shelf(folder))
"""


def test_photo_without_room_leaves_no_trace(folder: Path) -> None:
    assert resource.getrlimit(resource.RLIMIT_FSIZE)[1] == resource.RLIM_INFINITY
    ran = subprocess.run(
        [sys.executable, "-c", CAPPED, str(folder)],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
    )
    told, after = ran.stdout.splitlines()
    assert "is full" in told
    assert after == "1 []"


def test_held_file_is_told_soon(folder: Path) -> None:
    with (
        open_shelf(folder) as shelf,
        closing(sqlite3.connect(folder / "shelf.sqlite", isolation_level=None)) as other,
    ):
        scenes.set_up(shelf)
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(Exception, match="in use by another window or program"):
            shelf.add_reading(scenes.reading("first"))
        assert shelf.readings("spring") == []
        other.execute("ROLLBACK")
        shelf.add_reading(scenes.reading("first"))
        assert len(shelf.readings("spring")) == 1
