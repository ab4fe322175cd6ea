"""Reading a data package back: its contents, its tables as they stand, its checksums."""

from __future__ import annotations

import hashlib
import json
import tempfile
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from benchlog.errors import PlanRefused
from benchlog.sheet.data.csv_text import read_csv
from benchlog.sheet.data.write_package import DESCRIPTOR_FILE, RECORD_FILE
from benchlog.tasks.contents import Contents
from benchlog.tasks.contents_json import contents_from_json
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import worked_out

Rows = list[dict[str, str]]
"""A table's rows as they stand in the CSV, by column."""


@dataclass(frozen=True)
class Package:
    """A package as it stands in its folder.

    `contents` are those of record.json. `changed` are the paths of files whose checksum is not
    the one in datapackage.json, or that are missing. `digest` is the record's as published.
    """

    contents: Contents
    tables: dict[str, Rows]
    changed: tuple[str, ...]
    digest: str


@contextmanager
def unpacked(path: Path) -> Iterator[Path]:
    """Hand out a package's folder: the one given, or that of a zip file, unpacked for the while.

    Raises PlanRefused for a zip file that cannot be read or that holds no package.
    """
    if path.is_dir() or path.suffix.lower() != ".zip":
        yield path
        return
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as place:
        try:
            with zipfile.ZipFile(path) as packed:
                packed.extractall(place)
        except (zipfile.BadZipFile, OSError, RuntimeError, NotImplementedError) as fault:
            raise _refused(path.name, str(fault)) from fault
        found = sorted(Path(place).rglob(DESCRIPTOR_FILE))
        if not found:
            raise _refused(path.name, f"it holds no {DESCRIPTOR_FILE}")
        yield min(found, key=lambda one: len(one.parts)).parent


def read_package(folder: Path) -> Package:
    """Return what a package's folder holds.

    Raises PlanRefused, naming the file, when one cannot be read or is not what it should be.
    """
    descriptor = _descriptor(folder)
    contents = contents_from_json(_text(folder, RECORD_FILE))
    resources = [r for r in descriptor["resources"] if isinstance(r, dict) and "path" in r]
    tables = {
        Path(r["path"]).stem: read_csv(r["path"], _text(folder, r["path"]))
        for r in resources
        if r.get("type") == "table" and inside(folder, r["path"]).is_file()
    }
    changed = tuple(r["path"] for r in resources if not _same(folder, r))
    return Package(contents, tables, changed, str(descriptor.get("id", "")))


def record_in(folder: Path) -> Record:
    """Return the record that a package, a folder or a zip file, was written from.

    Errors as `read_package` and `unpacked`.
    """
    with unpacked(folder) as place:
        return worked_out(contents_from_json(_text(place, RECORD_FILE)))


def _descriptor(folder: Path) -> dict[str, Any]:
    try:
        descriptor = json.loads(_text(folder, DESCRIPTOR_FILE))
    except (ValueError, RecursionError) as fault:  # nested without end
        raise _refused(DESCRIPTOR_FILE, "it is not sound JSON") from fault
    if not isinstance(descriptor, dict) or not isinstance(descriptor.get("resources"), list):
        raise _refused(DESCRIPTOR_FILE, "it names no resources")
    return descriptor


def _same(folder: Path, resource: dict[str, Any]) -> bool:
    path = inside(folder, resource["path"])
    if not path.is_file():
        return False
    with path.open("rb") as file:
        digest = hashlib.file_digest(file, "sha256").hexdigest()
    return resource.get("hash") == f"sha256:{digest}"


def inside(folder: Path, path: str) -> Path:
    """Return where a file of the package lies; nothing outside its folder is ever read."""
    whole = (folder / path).resolve()
    if not whole.is_relative_to(folder.resolve()):
        raise _refused(DESCRIPTOR_FILE, f"it names a file outside the package, {path}")
    return whole


def _text(folder: Path, path: str) -> str:
    try:
        return inside(folder, path).read_bytes().decode()
    except UnicodeDecodeError as fault:
        raise _refused(path, "it is not plain UTF-8 text") from fault
    except OSError as fault:
        raise _refused(path, str(fault.strerror)) from fault


def _refused(name: str, what: str) -> PlanRefused:
    return PlanRefused(f"{name} cannot be read: {what}.", "Take another copy of the package.")
