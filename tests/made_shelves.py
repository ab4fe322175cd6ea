"""Shelves that many tests begin with: made once in a run, whatever the number of its processes.

Making a shelf runs every migration, and walking the sample line-up takes seconds; a test gets a
copy, which it may change as it likes.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

from filelock import FileLock

from benchlog.shelf import open_shelf

SHARED = "BENCHLOG_TESTS_SHARED"
"""Names the folder that all processes of a run share; see conftest.py."""


def fresh_shelf(folder: Path) -> Path:
    """Lay a closed shelf without records into `folder`, and return it."""
    return copy_of("empty", lambda place: open_shelf(place).close(), folder)


def copy_of(name: str, make: Callable[[Path], None], folder: Path) -> Path:
    """Copy the closed shelf of this name to `folder`; the first who asks for it has it made."""
    place = Path(os.environ[SHARED])
    place.mkdir(parents=True, exist_ok=True)
    kept = place / name
    with FileLock(place / f"{name}.lock"):
        if not kept.exists():
            half = place / f"{name}.half"
            shutil.rmtree(half, ignore_errors=True)
            make(half)
            half.rename(kept)
    return shutil.copytree(kept, folder, dirs_exist_ok=True)  # a test gives its own folder, too
