"""A seat at the pictures of the media, with a set-up on the shelf."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.window.bench_scenes import Seat
from tests.window.microscope.field_scenes import AtPictures, PlainMeasurer, typed_set_up


@pytest.fixture
def measurer() -> PlainMeasurer:
    return PlainMeasurer()


@pytest.fixture
def without_set_up(seat: Seat, measurer: PlainMeasurer, tmp_path: Path) -> AtPictures:
    """At the pictures of three media, before anything was set up."""
    seat.place.pictures.use(measurer)
    there = AtPictures(seat, measurer, tmp_path)
    there.open()
    return there


@pytest.fixture
def pictures(seat: Seat, measurer: PlainMeasurer, tmp_path: Path) -> AtPictures:
    """At the pictures of three media, with one set-up."""
    seat.place.pictures.use(measurer)
    typed_set_up(seat)
    there = AtPictures(seat, measurer, tmp_path)
    there.open()
    return there
