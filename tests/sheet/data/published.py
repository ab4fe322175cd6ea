"""A package of the sample record, written once, and copies of it to spoil."""

from __future__ import annotations

import atexit
import shutil
import tempfile
from functools import cache
from pathlib import Path

from benchlog.sheet.data.write_package import write_package
from tests.tasks.sample_records import sample_record

LICENCE = "CC-BY-4.0"


@cache
def published() -> Path:
    """Return the folder of the sample record's package; it is not to be changed."""
    place = Path(tempfile.mkdtemp())
    atexit.register(shutil.rmtree, place, ignore_errors=True)
    return write_package(sample_record(), place / "package", LICENCE)


def copy_in(place: Path) -> Path:
    """Return a copy of the package that a test may spoil."""
    return Path(shutil.copytree(published(), place / "copy"))


def swap(path: Path, old: str, new: str) -> None:
    """Put `new` in the place of the first `old` in a file, which must have it."""
    text = path.read_bytes().decode()
    assert old in text, f"{path.name} does not say {old}"
    path.write_bytes(text.replace(old, new, 1).encode())
