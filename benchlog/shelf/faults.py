"""What SQLite and the system say went wrong, turned into words for the reviewer."""

from __future__ import annotations

import errno
import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import StatementError

from benchlog.errors import (
    BenchlogError,
    EntryRefused,
    OurFault,
    ShelfDamaged,
    ShelfFault,
    ShelfFull,
    ShelfLocked,
    ShelfReadOnly,
)

CORRECTED_TWICE = "this reading has already been corrected"
REPLACED_TWICE = "this picture has already been replaced"
_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
_DENIED = (errno.EACCES, errno.EPERM, errno.EROFS)
_NO_ROOM_BYTES = 1 << 18


@contextmanager
def told(folder: Path) -> Iterator[None]:
    """Turn every fault of the file or the disk under `folder` into its kind of ShelfFault."""
    try:
        yield
    except StatementError as fault:
        raise in_words(fault.orig or fault, folder) from fault
    except (sqlite3.Error, OSError, UnicodeEncodeError) as fault:
        raise in_words(fault, folder) from fault


def in_words(fault: BaseException, folder: Path) -> Exception:
    """Return the error that tells the reviewer of `fault`, or of a fault of ours."""
    if isinstance(fault, BenchlogError):
        return fault
    if isinstance(fault, sqlite3.IntegrityError):
        return _refused(fault)
    if isinstance(fault, sqlite3.Error):
        return _of_sqlite(fault, folder)
    if isinstance(fault, UnicodeEncodeError):
        return EntryRefused(
            "The text holds a broken character that cannot be stored.", "Type it again."
        )
    if isinstance(fault, OSError):
        return _of_system(fault, folder)
    return OurFault(f"A record could not be stored: {fault}.")


def _refused(fault: sqlite3.IntegrityError) -> Exception:
    if CORRECTED_TWICE in str(fault):
        return EntryRefused(
            "This reading has already been corrected; nothing was stored.",
            "Correct the reading that took its place.",
        )
    if REPLACED_TWICE in str(fault):
        return EntryRefused(
            "This picture has already been retaken or taken back; nothing was stored.",
            "Retake the picture that took its place.",
        )
    return OurFault(f"The shelf refused a record: {fault}.")


def _of_sqlite(fault: sqlite3.Error, folder: Path) -> Exception:
    code = getattr(fault, "sqlite_errorcode", 0) & 0xFF
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return locked(folder)
    if code == sqlite3.SQLITE_FULL or (code == sqlite3.SQLITE_IOERR and _no_room(folder)):
        return full(folder)
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM):
        return read_only(folder)
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB):
        return damaged(folder, str(fault))
    if code in (sqlite3.SQLITE_IOERR, sqlite3.SQLITE_CANTOPEN):
        return unusable(folder, str(fault))
    return OurFault(f"The shelf's database did not do what was asked: {fault}.")


def _of_system(fault: OSError, folder: Path) -> Exception:
    if fault.errno in _FULL:
        return full(folder)
    if fault.errno in _DENIED:
        return unreadable(folder) if _is_unreadable(fault.filename) else read_only(folder)
    return unusable(folder, str(fault))


def _is_unreadable(path: str | None) -> bool:
    """Whether a file is there, as far as can be told, and may not be read."""
    if path is None:
        return False
    try:
        there = Path(path).exists()
    except PermissionError:  # the folder above it is out of reach
        return True
    return there and not os.access(path, os.R_OK)


def _no_room(folder: Path) -> bool:
    """Whether the disk is as good as full: SQLite calls that an I/O error at some places."""
    try:
        return shutil.disk_usage(folder).free < _NO_ROOM_BYTES
    except OSError:
        return False


def locked(folder: Path) -> ShelfLocked:
    """Return the error for a shelf that another window or program holds."""
    return ShelfLocked(
        f"The shelf in {folder} is in use by another window or program.",
        "Close the other window, or open a different shelf.",
    )


def full(folder: Path) -> ShelfFull:
    """Return the error for a disk without room."""
    return ShelfFull(
        f"The disk under {folder} is full; the last entry was not stored, all before it were.",
        "Make room on the disk, then enter it again.",
    )


def read_only(folder: Path) -> ShelfReadOnly:
    """Return the error for a folder that may not be written to."""
    return ShelfReadOnly(
        f"The shelf in {folder} cannot be written to.",
        "Allow this user to write there, or open a shelf in another folder.",
    )


def unreadable(folder: Path) -> ShelfReadOnly:
    """Return the error for a file that may not even be read."""
    return ShelfReadOnly(
        f"This user may not read the shelf in {folder}.",
        "Allow this user to read and write there, or open a shelf in another folder.",
    )


def damaged(folder: Path, why: str) -> ShelfDamaged:
    """Return the error for a file that is not a sound shelf."""
    return ShelfDamaged(
        f"The shelf's file in {folder} is damaged ({why}); nothing in it was changed.",
        "Keep the whole folder as it is, copy it, and go on with a copy from before, or with"
        " a file from its folder 'backups'.",
    )


def unusable(folder: Path, why: str) -> ShelfFault:
    """Return the error for a disk or file that cannot be used, for a reason of the system's."""
    return ShelfFault(
        f"The shelf in {folder} could not be read or written ({why}).",
        "See that the disk is connected and sound, then open the shelf again.",
    )
