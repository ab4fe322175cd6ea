"""A shelf as it stands at one moment, taken into memory without touching its folder.

SQLite leaves a write-ahead log and its index beside a file even when it only reads; a reader
that must change nothing, or may not, has to go around that. A log that is there is read through
SQLite (a window may be writing) or, where that is not allowed, from a copy elsewhere; a file
without a log is read as it lies. Either way the files must not have changed meanwhile.
"""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from collections.abc import Callable
from pathlib import Path

from benchlog.errors import ShelfFault
from benchlog.shelf.connect import BUSY_TIMEOUT_S

_ATTEMPTS = 20


def take(file: Path) -> sqlite3.Connection:
    """Return a connection to a copy of `file` in memory, consistent as of one commit."""
    memory = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    try:
        for _ in range(_ATTEMPTS):
            if _copied(file.absolute(), memory):
                return memory
    except BaseException:
        memory.close()
        raise
    memory.close()
    raise ShelfFault(
        f"The shelf in {file.parent} changed all the while it was being read.",
        "Try again in a moment.",
    )


def log_of(file: Path) -> Path:
    """Return where the write-ahead log of a file lies, if there is one."""
    return file.with_name(file.name + "-wal")


def _copied(file: Path, memory: sqlite3.Connection) -> bool:
    if not log_of(file).exists():
        uri = f"{file.as_uri()}?mode=ro&immutable=1"
        return _undisturbed(file, lambda: _copy(uri, memory))
    if file.with_name(file.name + "-shm").exists():
        try:
            _copy(f"{file.as_uri()}?mode=ro", memory)
        except sqlite3.OperationalError:  # the index may not be used by this user
            pass
        else:
            return True
    return _undisturbed(file, lambda: _copy_elsewhere(file, memory))


def _undisturbed(file: Path, work: Callable[[], None]) -> bool:
    """Do `work`; whether the file and its log were the same before and after it."""
    before = _look(file)
    try:
        work()
    except sqlite3.Error:
        if _look(file) == before:
            raise
        return False
    return _look(file) == before


def _look(file: Path) -> list[tuple[int, int, int] | None]:
    looks: list[tuple[int, int, int] | None] = []
    for path in (file, log_of(file)):
        try:
            stat = path.stat()
            looks.append((stat.st_ino, stat.st_size, stat.st_mtime_ns))
        except FileNotFoundError:
            looks.append(None)
    return looks


def _copy(uri: str, memory: sqlite3.Connection) -> None:
    raw = sqlite3.connect(uri, uri=True, timeout=BUSY_TIMEOUT_S, isolation_level=None)
    try:
        # Reading once fails at once where the file is held; copying would wait without end.
        raw.execute("BEGIN")
        raw.execute("SELECT count(*) FROM sqlite_master").fetchone()
        raw.backup(memory)
    finally:
        raw.close()


def _copy_elsewhere(file: Path, memory: sqlite3.Connection) -> None:
    with tempfile.TemporaryDirectory(prefix="benchlog-") as place:
        copy = Path(place) / file.name
        for path, to in ((file, copy), (log_of(file), log_of(copy))):
            if path.exists():
                shutil.copyfile(path, to)
        _copy(copy.as_uri(), memory)
