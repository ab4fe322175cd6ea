"""Shelves in real folders."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

from benchlog.shelf import SqlShelf, open_shelf
from tests.made_shelves import fresh_shelf
from tests.shelf import scenes


@pytest.fixture(scope="session")
def new_folder(tmp_path_factory: pytest.TempPathFactory) -> Callable[[], Path]:
    """A function that returns the folder of another closed shelf without records."""
    place = tmp_path_factory.mktemp("shelves")
    numbers = count()

    def make() -> Path:
        return fresh_shelf(place / str(next(numbers)))

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
