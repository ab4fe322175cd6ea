"""Shared by all tests of the window: the theme, and a seat at a bench."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QThreadPool
from PySide6.QtWidgets import QWidget

from benchlog.window.theme import apply_theme, rescale
from benchlog.window.work import end_all
from tests.window.bench_scenes import Seat, desk_over, planned, workshop_in


@pytest.fixture(scope="module", autouse=True)
def kept_aside() -> None:
    """Let the collections between tests pass over what earlier tests keep, as records do."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True)
def collected_here() -> Iterator[None]:
    """Collect garbage between tests, on this thread, as the program does (see window/tidy.py)."""
    gc.disable()
    yield
    gc.collect()
    gc.enable()


@pytest.fixture(scope="session")
def fusion(qapp):
    """The program's style; to set it anew costs more than many a test."""
    qapp.setStyle("Fusion")
    return qapp


@pytest.fixture
def themed(fusion):
    """The program's own look, at the design's size."""
    apply_theme(fusion, "dark")
    rescale(fusion, QWidget(), 1.0)
    return fusion


@pytest.fixture
def seat(qtbot, themed, tmp_path: Path) -> Iterator[Seat]:
    """A bench of three specimens, 1366 × 768, with the focus on the entry, at 'Outside'."""
    from benchlog.window.bench.bench_place import BenchPlace

    workshop = workshop_in(tmp_path / "shelf")
    desk = desk_over(workshop)
    desk.open_lineup(planned(workshop))
    place = BenchPlace(desk)
    qtbot.addWidget(place)
    place.resize(1366, 734)
    rescale(themed, place, 1.0)
    place.rescaled()
    desk.teardown.go_to_station("outside")
    with qtbot.waitActive(place):
        place.show()
        place.activateWindow()
    place.enter()
    yield Seat(qtbot, desk, place, workshop.clock)
    end_all()
    QThreadPool.globalInstance().waitForDone()
    place.leave()
    workshop.close()
