"""The settings under which a commit outlasts a power cut; a killed program cannot show that."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchlog.shelf.opening import open_session


@pytest.mark.parametrize(
    ("setting", "value"),
    [("journal_mode", "wal"), ("synchronous", 2), ("foreign_keys", 1), ("busy_timeout", 500)],
)
def test_shelf_waits_for_the_disk(folder: Path, setting: str, value: object) -> None:
    session = open_session(folder, read_only=False)
    try:
        with session.writing() as connection:
            assert connection.exec_driver_sql(f"PRAGMA {setting}").scalar() == value
    finally:
        session.close()


def test_failed_writing_leaves_nothing(folder: Path) -> None:
    session = open_session(folder, read_only=False)

    def write_half() -> None:
        with session.writing() as connection:
            connection.exec_driver_sql("INSERT INTO meta VALUES ('half', 'done')")
            raise LookupError("interrupted")

    try:
        with pytest.raises(LookupError, match="interrupted"):
            write_half()
        assert not session.raw.in_transaction
        found = session.raw.execute("SELECT count(*) FROM meta WHERE key = 'half'").fetchone()
        assert found == (0,)
    finally:
        session.close()
