"""Writing a file so that it is either whole on the disk or not there at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

HALF = ".part"
"""Ending of a file that was still being written; whatever bears it may be thrown away."""


def sync_folder(folder: Path) -> None:
    """Make the names in a folder durable, where the system lets a folder be synced."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def make_folder(folder: Path) -> None:
    """Make a folder and its parents; each new name is durable."""
    if folder.is_dir():
        return
    make_folder(folder.parent)
    folder.mkdir(exist_ok=True)
    sync_folder(folder.parent)


def write_whole(path: Path, data: bytes) -> None:
    """Write `data` to `path` at once; raises OSError and leaves nothing when it cannot."""
    make_folder(path.parent)
    handle, name = tempfile.mkstemp(prefix=f"{path.name}-", suffix=HALF, dir=path.parent)
    half = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        half.replace(path)
    except BaseException:
        half.unlink(missing_ok=True)
        raise
    sync_folder(path.parent)
