"""Bringing a shelf's file to the newest layout: all of it or nothing, with a copy kept before.

Alembic is slow to import, and almost every opening finds the newest layout already there: the
stored revision is read with plain SQL first.
"""

from __future__ import annotations

import sqlite3
from itertools import count
from pathlib import Path

import benchlog
from benchlog.errors import ShelfNewer
from benchlog.shelf import faults
from benchlog.shelf.connect import engine_over, make_durable, open_file
from benchlog.shelf.files import HALF, make_folder, sync_folder

HEAD = "0006"
"""The newest layout's revision; a test holds it to the newest file of migrations/versions/."""

MIGRATIONS = Path(__file__).with_name("migrations")
BACKUPS = "backups"

_SIGN = (
    "INSERT INTO meta VALUES ('app_version', ?)"
    " ON CONFLICT(key) DO UPDATE SET value = excluded.value"
)


def stored_revision(raw: sqlite3.Connection, folder: Path) -> str | None:
    """Return the layout of an open file, None for a file without tables.

    Raises ShelfDamaged for a database that is not a shelf.
    """
    tables = {name for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type='table'")}
    if not tables:
        return None
    if "alembic_version" not in tables:
        raise faults.damaged(folder, "it is a database, yet not a shelf")
    row = raw.execute("SELECT version_num FROM alembic_version").fetchone()
    if row is None:
        raise faults.damaged(folder, "it does not say which layout it has")
    return str(row[0])


def known_revisions(migrations: Path = MIGRATIONS) -> list[str]:
    """Return the revisions that this program knows, oldest first."""
    return sorted(p.name.split("_")[0] for p in (migrations / "versions").glob("[0-9]*.py"))


def bring_up(folder: Path, file: Path, migrations: Path = MIGRATIONS, head: str = HEAD) -> None:
    """Make `file` have the layout `head`; raises ShelfNewer when it is from a later program."""
    raw = open_file(file)
    try:
        stored = stored_revision(raw, folder)
        if stored == head:
            sign(raw)
            return
        if stored is not None:
            refuse_newer(raw, folder, stored, migrations)
        make_durable(raw, foreign_keys=False)
        if stored is not None:
            back_up(raw, folder, stored, head)
        upgrade(raw, migrations, head)
    finally:
        raw.close()
    sync_folder(folder)


def bring_up_view(raw: sqlite3.Connection, folder: Path) -> None:
    """Give a copy in memory the newest layout; the file it was taken from stays as it is."""
    stored = stored_revision(raw, folder)
    if stored is None:
        raise faults.damaged(folder, "there is nothing in it")
    if stored == HEAD:
        return
    refuse_newer(raw, folder, stored)
    upgrade(raw)


def refuse_newer(
    raw: sqlite3.Connection, folder: Path, stored: str, migrations: Path = MIGRATIONS
) -> None:
    """Raise ShelfNewer, naming both versions, for a layout that this program does not know."""
    if stored in known_revisions(migrations):
        return
    theirs = signature(raw) or "unknown"
    raise ShelfNewer(
        f"The shelf in {folder} was written by version {theirs} of this program"
        f" (layout {stored}); this is version {benchlog.__version__} (layout {HEAD}).",
        f"Install version {theirs} or later to open it; nothing in it was changed.",
    )


def back_up(raw: sqlite3.Connection, folder: Path, stored: str, head: str) -> Path:
    """Copy an open file into the folder of backups, durably; return the copy's path."""
    place = folder / BACKUPS
    make_folder(place)
    names = (f"layout-{stored}-before-{head}{f'-{n}' if n > 1 else ''}.sqlite" for n in count(1))
    path = next(place / name for name in names if not (place / name).exists())
    half = path.with_name(path.name + HALF)
    half.unlink(missing_ok=True)
    copy = sqlite3.connect(half)
    try:
        raw.backup(copy)
        copy.execute("PRAGMA journal_mode=DELETE")
    finally:
        copy.close()
    half.replace(path)
    sync_folder(place)
    return path


def upgrade(raw: sqlite3.Connection, migrations: Path = MIGRATIONS, head: str = HEAD) -> None:
    """Run the missing steps in one transaction; a step that fails leaves nothing behind."""
    from alembic import command  # noqa: PLC0415 - slow, and seldom needed
    from alembic.config import Config  # noqa: PLC0415

    with engine_over(raw).connect() as connection, connection.begin():
        config = Config()
        config.set_main_option("script_location", str(migrations).replace("%", "%%"))
        config.attributes["connection"] = connection
        command.upgrade(config, head)
        broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
        if broken:
            raise sqlite3.DatabaseError(f"{len(broken)} records point nowhere after the upgrade")
        connection.exec_driver_sql(_SIGN, (benchlog.__version__,))


def sign(raw: sqlite3.Connection) -> None:
    """Note in an open file which version of the program wrote to it last."""
    if signature(raw) != benchlog.__version__:
        raw.execute(_SIGN, (benchlog.__version__,))


def signature(raw: sqlite3.Connection) -> str | None:
    """Return the version of the program that wrote to an open file last, if it says so."""
    if not raw.execute("SELECT 1 FROM sqlite_master WHERE name = 'meta'").fetchone():
        return None
    row = raw.execute("SELECT value FROM meta WHERE key = 'app_version'").fetchone()
    return None if row is None else str(row[0])
