"""Looking over what was published: numbers without a gap, frozen records, every file the same."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from benchlog.errors import ShelfFault
from benchlog.shelf import publication_files
from benchlog.shelf.publication_shelf import PublicationShelf
from benchlog.tasks.publication import Publication


def publication_problems(
    folder: Path, shelf: PublicationShelf, raw: sqlite3.Connection
) -> Iterator[str]:
    """Return what is wrong with what was published, and files there that nothing speaks of."""
    named: set[Path] = set()
    for lineup_id, name in raw.execute("SELECT id, name FROM lineup").fetchall():
        try:
            published = shelf.publications(lineup_id)
        except ShelfFault as fault:
            yield f"Line-up '{name}': {fault.what}"
            continue
        for number, one in enumerate(published, start=1):
            if one.revision != number:
                yield f"Line-up '{name}': there is no revision {number} before {one.revision}."
            yield from _record(shelf, name, one)
            yield from _files(folder, one, named)
    for path in publication_files.on_disk(folder):
        if publication_files.is_draft(folder, path):
            yield f"{path} was still being written when the program stopped; it may be deleted."
        elif path not in named:
            yield f"{path} belongs to no published revision; it may be deleted."


def _record(shelf: PublicationShelf, name: str, one: Publication) -> Iterator[str]:
    try:
        frozen = json.loads(shelf.published_record(one.lineup_id, one.revision))
        noted = frozen["digest"]
    except (ValueError, TypeError, KeyError):
        yield f"Line-up '{name}': the record of revision {one.revision} cannot be read."
        return
    if noted != one.digest:
        yield f"Line-up '{name}': the record of revision {one.revision} has another digest."


def _files(folder: Path, one: Publication, named: set[Path]) -> Iterator[str]:
    for output in one.outputs:
        path = publication_files.path_of(folder, one, output)
        named.add(path)
        try:
            publication_files.read(folder, one, output)
        except ShelfFault as fault:
            yield str(fault)
        except OSError as fault:
            yield f"The published file {path} cannot be read ({fault})."
