"""A folder that this user may not write to: a clear refusal, and reading still works.

Permissions do not bind root, so each try runs in a process that first becomes nobody.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

import benchlog
from benchlog.shelf import open_shelf
from tests.shelf import scenes
from tests.shelf.looks import listing

ROOT = Path(benchlog.__file__).parents[1]
NOBODY = 65534
AS_NOBODY = f"""
import os, sys, tempfile
from pathlib import Path
from benchlog.errors import ShelfFault
from benchlog.shelf import check_shelf, open_shelf
folder = Path(sys.argv[1])
with tempfile.TemporaryDirectory() as warm:  # what is imported late may be out of nobody's reach
    open_shelf(Path(warm) / "shelf").close()
    open_shelf(Path(warm) / "shelf", read_only=True).close()
if os.geteuid() == 0:
    os.setgroups([])
    os.setgid({NOBODY})
    os.setuid({NOBODY})
"""
WRITING = """
try:
    open_shelf(folder)
except ShelfFault as fault:
    print(type(fault).__name__, fault.do)
"""
READING = """
with open_shelf(folder, read_only=True) as shelf:
    print([one.id for one in shelf.readings("spring")], check_shelf(folder))
"""


def as_nobody(code: str, folder: Path) -> str:
    ran = subprocess.run(
        [sys.executable, "-c", AS_NOBODY + code, str(folder)],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
    )
    return ran.stdout.strip()


@pytest.fixture
def kept_away(new_folder: scenes.Folders) -> Iterator[Path]:
    """A closed shelf with one reading, where nobody can look but not write.

    It lies directly under the system's folder for temporary files: pytest's own folders let
    nobody pass.
    """
    with tempfile.TemporaryDirectory() as place:
        Path(place).chmod(0o755)
        folder = shutil.copytree(new_folder(), Path(place) / "shelf")
        with open_shelf(folder) as shelf:
            scenes.set_up(shelf)
            shelf.add_reading(scenes.reading("first"))
        yield folder
        allow(folder, True)


def allow(folder: Path, writing: bool) -> None:
    for path in (folder, *folder.rglob("*")):
        path.chmod((0o755 if path.is_dir() else 0o644) if writing else path.stat().st_mode & 0o555)


def test_writing_is_refused_with_advice(kept_away: Path) -> None:
    allow(kept_away, False)
    before = listing(kept_away)
    told = as_nobody(WRITING, kept_away)
    assert told.startswith("ShelfReadOnly Allow this user to write there")
    assert listing(kept_away) == before


def test_locked_file_in_open_folder_is_refused(kept_away: Path) -> None:
    for path in (kept_away, kept_away / "in-use.lock"):
        path.chmod(0o777)
    (kept_away / "shelf.sqlite").chmod(0o444)
    assert as_nobody(WRITING, kept_away).startswith("ShelfReadOnly")


def test_reading_works_without_a_log(kept_away: Path) -> None:
    allow(kept_away, False)
    assert not (kept_away / "shelf.sqlite-wal").exists()
    assert as_nobody(READING, kept_away) == "['first'] []"


@pytest.mark.parametrize("lost", ["", "shelf.sqlite-shm"])
def test_reading_works_with_a_log(kept_away: Path, tmp_path: Path, lost: str) -> None:
    with open_shelf(kept_away) as shelf:
        shelf.add_reading(scenes.reading("second"))
        crashed = shutil.copytree(kept_away, tmp_path / "crashed")
    shutil.rmtree(kept_away)
    shutil.copytree(crashed, kept_away)
    if lost:
        (kept_away / lost).unlink()
    allow(kept_away, False)
    before = listing(kept_away)
    assert "shelf.sqlite-wal" in before
    assert as_nobody(READING, kept_away) == "['first', 'second'] []"
    assert listing(kept_away) == before


def test_reading_works_beside_a_writer(kept_away: Path) -> None:
    with open_shelf(kept_away) as shelf:
        shelf.add_reading(scenes.reading("second"))
        assert as_nobody(READING, kept_away) == "['first', 'second'] []"
        shelf.add_reading(scenes.reading("third"))


def test_unreadable_file_is_told(kept_away: Path) -> None:
    (kept_away / "shelf.sqlite").chmod(0o000)
    told = as_nobody(
        "try:\n    open_shelf(folder, read_only=True)\n"
        "except ShelfFault as fault:\n    print(type(fault).__name__, fault)",
        kept_away,
    )
    assert told.startswith("ShelfReadOnly This user may not read the shelf")


def test_folder_out_of_reach_is_told(kept_away: Path) -> None:
    kept_away.parent.chmod(0o700)
    for opening in ("open_shelf(folder, read_only=True)", "open_shelf(folder)"):
        told = as_nobody(
            f"try:\n    {opening}\n"
            "except ShelfFault as fault:\n    print(type(fault).__name__, fault)",
            kept_away,
        )
        assert told.startswith("Shelf")
        assert str(kept_away) in told
