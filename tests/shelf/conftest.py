"""Shelves in real folders; making one runs the migrations, so an empty one is made once."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

from benchlog.shelf import SqlShelf, open_shelf
from tests.shelf import scenes


@pytest.fixture(scope="session")
def empty_shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a closed shelf without records; to be copied, never opened."""
    folder = tmp_path_factory.mktemp("empty") / "shelf"
    open_shelf(folder).close()
    return folder


@pytest.fixture(scope="session")
def new_folder(empty_shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Callable[[], Path]:
    """A function that returns the folder of another closed shelf without records."""
    place = tmp_path_factory.mktemp("shelves")
    numbers = count()

    def make() -> Path:
        return shutil.copytree(empty_shelf, place / str(next(numbers)))

    return make


@pytest.fixture
def folder(new_folder: Callable[[], Path]) -> Path:
    """The folder of a closed shelf without records."""
    return new_folder()


@pytest.fixture
def shelf(folder: Path) -> Iterator[SqlShelf]:
    """An open shelf with the small line-up and its scale."""
    with open_shelf(folder) as opened:
        scenes.set_up(opened)
        yield opened
