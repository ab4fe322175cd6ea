"""A folder that a camera program saves into: each new picture once, when it is whole."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from benchlog.errors import PictureRefused
from benchlog.instruments.watched_folder import STILL_S, WatchedFolder


def names(found: tuple[Path, ...]) -> list[str]:
    return [path.name for path in found]


@pytest.fixture
def watched(tmp_path: Path) -> WatchedFolder:
    (tmp_path / "old.jpg").write_bytes(b"was there before")
    made = WatchedFolder(tmp_path)
    assert made.look(0.0) == ()
    return made


def test_new_picture_is_told_once(watched: WatchedFolder) -> None:
    (watched.folder / "a.jpg").write_bytes(b"whole")
    assert watched.look(1.0) == ()
    assert names(watched.look(1.0 + STILL_S)) == ["a.jpg"]
    assert watched.look(9.0) == ()


def test_growing_picture_waits(watched: WatchedFolder) -> None:
    path = watched.folder / "a.tif"
    for second in range(1, 6):
        path.write_bytes(b"x" * 100 * second)
        assert watched.look(second * STILL_S) == ()
    assert names(watched.look(6 * STILL_S)) == ["a.tif"]


def test_empty_file_is_not_whole(watched: WatchedFolder) -> None:
    (watched.folder / "a.png").touch()
    assert [watched.look(second) for second in (1.0, 5.0, 9.0)] == [(), (), ()]


def test_older_of_two_comes_first(watched: WatchedFolder) -> None:
    for name, when in (("a.jpg", 2_000), ("b.jpg", 1_000)):
        path = watched.folder / name
        path.write_bytes(b"whole")
        os.utime(path, (when, when))
    watched.look(1.0)
    assert names(watched.look(5.0)) == ["b.jpg", "a.jpg"]


def test_other_files_are_left_alone(watched: WatchedFolder) -> None:
    for name in ("notes.txt", ".half.jpg", "a.jpg.part"):
        (watched.folder / name).write_bytes(b"something")
    watched.look(1.0)
    assert watched.look(5.0) == ()


def test_name_written_anew_is_told_again(watched: WatchedFolder) -> None:
    path = watched.folder / "old.jpg"
    path.write_bytes(b"another picture under the same name")
    watched.look(1.0)
    assert names(watched.look(5.0)) == ["old.jpg"]


def test_renamed_when_whole_is_told(watched: WatchedFolder) -> None:
    (watched.folder / "a.part").write_bytes(b"whole")
    watched.look(1.0)
    (watched.folder / "a.part").rename(watched.folder / "a.jpg")
    watched.look(2.0)
    assert names(watched.look(2.0 + STILL_S)) == ["a.jpg"]


def test_picture_deleted_before_it_is_whole_is_forgotten(watched: WatchedFolder) -> None:
    path = watched.folder / "a.jpg"
    path.write_bytes(b"whole")
    watched.look(1.0)
    path.unlink()
    assert watched.look(5.0) == ()


def test_one_that_cannot_be_looked_at_holds_up_none(watched: WatchedFolder) -> None:
    """As where another program holds it; a link that leads in a circle cannot be looked at."""
    (watched.folder / "held.jpg").symlink_to("held.jpg")
    (watched.folder / "a.jpg").write_bytes(b"whole")
    watched.look(1.0)
    assert names(watched.look(1.0 + STILL_S)) == ["a.jpg"]


def test_folder_that_went_away_says_so(tmp_path: Path) -> None:
    with pytest.raises(PictureRefused, match="cannot be read"):
        WatchedFolder(tmp_path / "gone").look(0.0)
