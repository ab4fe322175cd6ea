"""Looking a shelf over: what is wrong with it, in sentences."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

from benchlog.errors import ShelfFault
from benchlog.measure.reading import Reading
from benchlog.shelf import faults, photo_files
from benchlog.shelf.checking_judging import judging_problems, own_rules_problems
from benchlog.shelf.checking_pictures import picture_problems, scale_pictures, set_up_problems
from benchlog.shelf.checking_publications import publication_problems
from benchlog.shelf.opening import open_session, utc_now
from benchlog.shelf.session import Session
from benchlog.shelf.sql_shelf import SqlShelf
from benchlog.tasks.ports import Photo

_JUDGING = ("rules_lock", "own_rules", "overruling", "blind_run", "reveal", "poll", "declaration")
_GUARDED = (
    *("reading", "remark", "change", "instrument_check", "group_correction", "publication"),
    *_JUDGING,
    *("microscope_set_up", "micrograph", "picture_answer"),
)
_TRIGGERS = {
    *(f"{table}_refuses_{deed}" for table in _GUARDED for deed in ("update", "delete")),
    *(f"{table}_refuses_replace" for table in _GUARDED if table != "change"),
    "reading_refuses_second_correction",
    "micrograph_refuses_second_correction",
    "reveal_refuses_second",
    "publication_refuses_second",
}


def check_shelf(folder: Path) -> list[str]:
    """Return the problems found in a shelf, none when it is sound; changes nothing in it."""
    try:
        with faults.told(folder):
            return _problems(folder)
    except ShelfFault as fault:
        return [str(fault)]


def _problems(folder: Path) -> list[str]:
    session = open_session(folder, read_only=True)
    with SqlShelf(session, utc_now) as shelf:
        broken = list(_file(session.raw))
        if broken:
            return broken
        found = [*_links(session.raw), *_guards(session.raw)]
        photos = _records(session, shelf, found)
        found += own_rules_problems(session.raw)
        found += publication_problems(folder, shelf, session.raw)
        pictures = [(photo.id, photo.media_type) for photo in photos]
        pictures += scale_pictures(session.raw)
        try:
            found += set_up_problems(shelf, session.raw)
        except ShelfFault as fault:
            found.append(f"Microscope set-ups: {fault.what}")
    return [*found, *_photos(folder, pictures)]


def _file(raw: sqlite3.Connection) -> Iterator[str]:
    for (found,) in raw.execute("PRAGMA integrity_check"):
        if found != "ok":
            yield f"The shelf's file is damaged: {found}."


def _links(raw: sqlite3.Connection) -> Iterator[str]:
    for table, row, target, _ in raw.execute("PRAGMA foreign_key_check"):
        yield f"Entry {row} of '{table}' points to a '{target}' that is not there."


def _guards(raw: sqlite3.Connection) -> Iterator[str]:
    there = {name for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type='trigger'")}
    for name in sorted(_TRIGGERS - there):
        yield f"The guard '{name}' that keeps entries from being altered is missing."


def _records(session: Session, shelf: SqlShelf, found: list[str]) -> list[Photo]:
    """Read every record once; what cannot be read goes to `found`. Return the photos."""
    photos: list[Photo] = []
    for lineup_id, name in session.raw.execute("SELECT id, name FROM lineup").fetchall():
        looks: list[Callable[[str], object]] = [
            shelf.lineup,
            lambda lineup_id: _entries(shelf, lineup_id, found),
            lambda lineup_id: found.extend(judging_problems(shelf, session.raw, lineup_id)),
            lambda lineup_id: found.extend(picture_problems(shelf, session.raw, lineup_id)),
            lambda lineup_id: photos.extend(shelf.photos(lineup_id)),
            shelf.moments,
            shelf.remarks,
            shelf.place,
        ]
        for look in looks:
            try:
                look(lineup_id)
            except ShelfFault as fault:
                found.append(f"Line-up '{name}': {fault.what}")
    return photos


def _entries(shelf: SqlShelf, lineup_id: str, found: list[str]) -> None:
    """Look for readings, checks and group corrections that point into another line-up."""
    readings, checks = shelf.readings(lineup_id), shelf.checks(lineup_id)
    corrections = shelf.group_corrections(lineup_id)
    there = {reading.id for reading in readings}
    found += (
        f"Check {check.id} follows reading {check.after}, which is not in its line-up."
        for check in checks
        if check.after and check.after not in there
    )
    made = {check.id for check in checks}
    found += (
        f"Group correction {one.id} goes by check {one.check_id}, which is not in its line-up."
        for one in corrections
        if one.check_id not in made
    )
    groups = {one.id for one in corrections}
    found += (
        f"Reading {reading.id} is of group correction {reading.group}, not in its line-up."
        for reading in readings
        if reading.group and reading.group not in groups
    )
    _corrections(readings, there, found)


def _corrections(readings: list[Reading], there: set[str], found: list[str]) -> None:
    found += (
        f"Reading {reading.id} corrects {reading.supersedes}, which is not in its line-up."
        for reading in readings
        if reading.supersedes is not None and reading.supersedes not in there
    )


def _photos(folder: Path, pictures: list[tuple[str, str]]) -> Iterator[str]:
    """Look at every file among the photos; `pictures` are those known, by id and media type."""
    named = {photo_files.path_of(folder, *picture): picture for picture in pictures}
    for path, picture in named.items():
        try:
            photo_files.read(folder, *picture)
        except ShelfFault as fault:
            yield str(fault)
        except OSError as fault:
            yield f"The photo {path} cannot be read ({fault})."
    for path in photo_files.on_disk(folder):
        if photo_files.is_half_written(path):
            yield f"{path} was still being written when the program stopped; it may be deleted."
        elif path not in named:
            yield f"{path} belongs to no record."
