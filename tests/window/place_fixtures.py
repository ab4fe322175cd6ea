"""Fixtures for the places: an empty shelf's desk, and one with the sample line-up in hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QThreadPool
from PySide6.QtWidgets import QWidget

from benchlog.window.desk import Desk
from benchlog.window.work import end_all
from tests.window.bench_scenes import desk_over, workshop_in
from tests.window.place_scenes import Person, sample_shelf, take_place

Sit = Callable[..., Person]


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    """A desk over an empty shelf."""
    yield from _desk(tmp_path / "shelf")


@pytest.fixture
def sample_desk(tmp_path: Path) -> Iterator[Desk]:
    """A desk with the sample line-up, all read, in hand."""
    yield from _desk(sample_shelf(tmp_path / "sample"))


def _desk(folder: Path) -> Iterator[Desk]:
    workshop = workshop_in(folder)
    yield desk_over(workshop)
    end_all()
    QThreadPool.globalInstance().waitForDone()
    workshop.close()


@pytest.fixture
def sit(qtbot, themed) -> Sit:
    """Sit down at a place of a desk; a size may be named."""

    def down(make: Callable[[Desk], QWidget], desk: Desk, size: str = "1366 × 768") -> Person:
        place = make(desk)
        qtbot.addWidget(place)
        take_place(qtbot, themed, place, size)
        return Person(qtbot, desk, place)

    return down
