"""Opening a shelf: one window writes, any number of others may look.

A shelf is a folder: shelf.sqlite, photos/, backups/ and in-use.lock.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from filelock import FileLock, Timeout

from benchlog.errors import ShelfFault
from benchlog.shelf import faults, migrate, photo_files, snapshot
from benchlog.shelf.connect import FILE, make_durable, open_file
from benchlog.shelf.files import make_folder
from benchlog.shelf.session import Session
from benchlog.shelf.sql_shelf import SqlShelf

LOCK = "in-use.lock"
_HEADER_BYTES = 100


def utc_now() -> datetime:
    """Return the system's time in UTC."""
    return datetime.now(UTC)


def open_shelf(
    folder: Path, *, read_only: bool = False, now: Callable[[], datetime] = utc_now
) -> SqlShelf:
    """Open the shelf in `folder`, made when missing; `now` dates the log of changes.

    Opened to read only, nothing in the folder is created or changed, and the shelf is seen as it
    stood at this moment; a window may be writing to it meanwhile. Raises ShelfLocked,
    ShelfReadOnly, ShelfFull, ShelfDamaged, ShelfNewer, or ShelfFault where there is no shelf to
    read.
    """
    return SqlShelf(open_session(folder, read_only=read_only), now)


def open_session(folder: Path, *, read_only: bool) -> Session:
    """Open the shelf's file alone; raises as `open_shelf` does."""
    with faults.told(folder):
        return _look_at(folder) if read_only else _open(folder)


def _open(folder: Path) -> Session:
    make_folder(folder)
    lock = FileLock(folder / LOCK, thread_local=False)
    try:
        lock.acquire(timeout=0)
    except Timeout as held:
        raise faults.locked(folder) from held
    try:
        return Session(folder, _sound(folder), lock)
    except BaseException:
        lock.release()
        raise


def _sound(folder: Path) -> sqlite3.Connection:
    """Return a connection to the shelf's file: looked over, of the newest layout, durable."""
    file = folder / FILE
    _refuse_lost_file(folder, file)
    _refuse_cut_short(folder, file)
    crashed = snapshot.log_of(file).exists()
    migrate.bring_up(folder, file)
    raw = open_file(file)
    try:
        make_durable(raw)
        raw.execute("DELETE FROM meta WHERE 0")  # does nothing, and fails where writing would
        if crashed:
            look_over(raw, folder)
    except BaseException:
        raw.close()
        raise
    return raw


def look_over(raw: sqlite3.Connection, folder: Path) -> None:
    """Read every page once; raises ShelfDamaged. Done when the last session did not end."""
    found = raw.execute("PRAGMA quick_check(1)").fetchone()[0]
    if found != "ok":
        raise faults.damaged(folder, found)


def _refuse_lost_file(folder: Path, file: Path) -> None:
    """Refuse to begin a new shelf where an old one has lost its file."""
    if file.exists() and file.stat().st_size > 0:
        return
    left = [snapshot.log_of(file), *photo_files.on_disk(folder)]
    left += (folder / migrate.BACKUPS).glob("*.sqlite")
    if any(path.exists() and path.stat().st_size > 0 for path in left):
        raise faults.damaged(
            folder, f"{FILE} is missing or empty, though its other files are there"
        )


def _refuse_cut_short(folder: Path, file: Path) -> None:
    """Refuse a file that is shorter than it says; with a log beside it, only SQLite can tell."""
    if not file.exists() or snapshot.log_of(file).exists():
        return
    with file.open("rb") as opened:
        header = opened.read(_HEADER_BYTES)
    page = int.from_bytes(header[16:18], "big")
    pages = int.from_bytes(header[28:32], "big")
    size = file.stat().st_size
    if size and (len(header) < _HEADER_BYTES or size < pages * (page if page > 1 else 65536)):
        raise faults.damaged(folder, "the file is shorter than it should be")


def _look_at(folder: Path) -> Session:
    file = folder / FILE
    if not folder.is_dir() or (not file.exists() and not any(photo_files.on_disk(folder))):
        raise ShelfFault(
            f"There is no shelf in {folder}.", "Give the folder of a shelf, or open a window on it."
        )
    _refuse_lost_file(folder, file)
    _refuse_cut_short(folder, file)
    raw = snapshot.take(file)
    try:
        migrate.bring_up_view(raw, folder)
        return Session(folder, raw, None)
    except BaseException:
        raw.close()
        raise
