"""Photos: named by their bytes, kept once, whole or not at all."""

from __future__ import annotations

import hashlib
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

import benchlog
from benchlog.errors import OurFault, ShelfDamaged
from benchlog.shelf import SqlShelf, check_shelf, open_shelf
from tests.shelf import scenes

NAME = hashlib.sha256(scenes.PICTURE).hexdigest()


def test_file_is_named_by_bytes(shelf: SqlShelf, folder: Path) -> None:
    shelf.add_photo(scenes.photo(), scenes.PICTURE)
    file = folder / "photos" / NAME[:2] / f"{NAME[2:]}.jpg"
    assert [p for p in (folder / "photos").rglob("*") if p.is_file()] == [file]
    assert file.read_bytes() == scenes.PICTURE


def test_wrong_name_is_refused(shelf: SqlShelf, folder: Path) -> None:
    with pytest.raises(OurFault, match="not the SHA-256"):
        shelf.add_photo(scenes.photo(), scenes.PICTURE + b"!")
    assert shelf.photos("spring") == []
    assert not (folder / "photos").exists()


def test_same_picture_is_kept_once(shelf: SqlShelf, folder: Path) -> None:
    uses = [scenes.photo(), scenes.photo(specimen_id="bravo"), scenes.photo(specimen_id="")]
    for use in uses:
        shelf.add_photo(use, scenes.PICTURE)
    assert shelf.photos("spring") == uses
    assert len([p for p in (folder / "photos").rglob("*") if p.is_file()]) == 1


@pytest.mark.parametrize("specimen_id", ["alfa", ""])
def test_photo_added_again_changes_caption(shelf: SqlShelf, specimen_id: str) -> None:
    before = scenes.photo(specimen_id=specimen_id)
    after = replace(before, caption="the dented side")
    shelf.add_photo(before, scenes.PICTURE)
    shelf.add_photo(after, scenes.PICTURE)
    assert shelf.photos("spring") == [after]
    assert [(c.field, c.old, c.new) for c in shelf.changes()] == [
        ("caption", "", "the dented side")
    ]


def test_altered_picture_is_noticed(shelf: SqlShelf, folder: Path) -> None:
    shelf.add_photo(scenes.photo(), scenes.PICTURE)
    file = folder / "photos" / NAME[:2] / f"{NAME[2:]}.jpg"
    file.write_bytes(b"another picture")
    with pytest.raises(ShelfDamaged, match="no longer the picture"):
        shelf.photo_bytes(NAME)
    file.unlink()
    with pytest.raises(ShelfDamaged, match="is missing"):
        shelf.photo_bytes(NAME)
    assert len(check_shelf(folder)) == 1
    shelf.add_photo(scenes.photo(), scenes.PICTURE)
    assert shelf.photo_bytes(NAME) == scenes.PICTURE
    assert check_shelf(folder) == []


KILLED = """
import os, sys
from pathlib import Path
from benchlog.shelf import open_shelf
from tests.shelf import scenes
shelf = open_shelf(Path(sys.argv[1]))
photos = Path(sys.argv[1]) / "photos"
photos.joinpath(scenes.photo().id[:2]).mkdir(parents=True)
os.fsync = lambda handle: os.kill(os.getpid(), 9)
shelf.add_photo(scenes.photo(), scenes.PICTURE)
"""


def test_half_written_photo_is_ignored(shelf: SqlShelf, folder: Path) -> None:
    shelf.close()
    ran = subprocess.run(
        [sys.executable, "-c", KILLED, str(folder)],
        check=False,
        cwd=Path(benchlog.__file__).parents[1],
    )
    assert ran.returncode == -9
    problems = check_shelf(folder)
    with open_shelf(folder) as again:
        assert again.photos("spring") == []
        again.add_photo(scenes.photo(), scenes.PICTURE)
        assert again.photo_bytes(NAME) == scenes.PICTURE
    assert len(problems) == 1
    assert "still being written" in problems[0]
    assert check_shelf(folder) == problems
