"""One window writes; others may look, and threads of one window take turns."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from benchlog.errors import ShelfFault, ShelfLocked, ShelfReadOnly
from benchlog.shelf import SqlShelf, check_shelf, open_shelf
from tests.shelf import scenes
from tests.shelf.looks import listing


def test_second_window_is_refused(shelf: SqlShelf, folder: Path) -> None:
    with pytest.raises(ShelfLocked) as refusal:
        open_shelf(folder)
    assert str(folder) in refusal.value.what
    assert "Close the other window" in refusal.value.do
    shelf.add_reading(scenes.reading("first"))


def test_shelf_opens_after_closing(shelf: SqlShelf, folder: Path) -> None:
    shelf.close()
    with open_shelf(folder) as again:
        assert again.lineup("spring") == scenes.LINEUP


def test_lock_is_let_go_after_failure(folder: Path) -> None:
    sound = (folder / "shelf.sqlite").read_bytes()
    (folder / "shelf.sqlite").write_bytes(b"rubbish" * 1000)
    with pytest.raises(ShelfFault):
        open_shelf(folder)
    (folder / "shelf.sqlite").write_bytes(sound)
    open_shelf(folder).close()


def test_reader_sees_what_was_written(shelf: SqlShelf, folder: Path) -> None:
    shelf.add_reading(scenes.reading("first"))
    with open_shelf(folder, read_only=True) as view:
        shelf.add_reading(scenes.reading("second"))
        assert [one.id for one in view.readings("spring")] == ["first"]
    with open_shelf(folder, read_only=True) as view:
        assert [one.id for one in view.readings("spring")] == ["first", "second"]
    assert check_shelf(folder) == []


@pytest.mark.parametrize("open_elsewhere", [True, False])
def test_reader_leaves_folder_alone(shelf: SqlShelf, folder: Path, open_elsewhere: bool) -> None:
    shelf.add_photo(scenes.photo(), scenes.PICTURE)
    if not open_elsewhere:
        shelf.close()
    before = listing(folder)
    with open_shelf(folder, read_only=True) as view:
        assert view.photo_bytes(scenes.photo().id) == scenes.PICTURE
        assert listing(folder) == before
    assert check_shelf(folder) == []
    assert listing(folder) == before


def test_reader_cannot_write(folder: Path) -> None:
    with open_shelf(folder) as shelf:
        scenes.set_up(shelf)
    before = listing(folder)
    with open_shelf(folder, read_only=True) as view:
        assert view.read_only
        for write in (
            lambda: view.add_reading(scenes.reading("first")),
            lambda: view.add_photo(scenes.photo(), scenes.PICTURE),
            lambda: view.save_place(scenes.place()),
            lambda: view.save_lineup(scenes.LINEUP),
        ):
            with pytest.raises(ShelfReadOnly):
                write()
    assert listing(folder) == before


def test_reader_makes_no_shelf(tmp_path: Path) -> None:
    for nowhere in (tmp_path, tmp_path / "missing"):
        with pytest.raises(ShelfFault, match="There is no shelf"):
            open_shelf(nowhere, read_only=True)
    assert list(tmp_path.iterdir()) == []


def test_missing_folder_is_made(tmp_path: Path) -> None:
    with open_shelf(tmp_path / "a" / "b" / "shelf") as shelf:
        assert shelf.lineups() == []
        assert shelf.folder == tmp_path / "a" / "b" / "shelf"


def test_threads_take_turns(shelf: SqlShelf) -> None:
    with ThreadPoolExecutor(6) as pool:
        adding = [pool.submit(shelf.add_reading, scenes.reading(f"reading {n}")) for n in range(60)]
        looking = [pool.submit(shelf.readings, "spring") for _ in range(30)]
        assert all(work.result() is None for work in adding)
        counts = [len(work.result()) for work in looking]
    assert {one.id for one in shelf.readings("spring")} == {f"reading {n}" for n in range(60)}
    assert max(counts) <= 60
