"""A real shelf in a temporary folder, with a short line-up on it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from benchlog.shelf import SqlShelf, open_shelf
from benchlog.tasks.walk import Teardown
from tests.made_shelves import fresh_shelf
from tests.small_trade import SCALE, SMALL, TAPE, HandClock, small_lineup
from tests.tasks.fair_scenes import WallTime, fair_shelf


@pytest.fixture
def clock() -> HandClock:
    return HandClock()


@pytest.fixture
def shelf(tmp_path: Path) -> Iterator[SqlShelf]:
    with open_shelf(fresh_shelf(tmp_path / "shelf")) as opened:
        opened.save_lineup(small_lineup())
        opened.save_instrument(SCALE)
        opened.save_instrument(TAPE)
        yield opened


@pytest.fixture
def sit_down(shelf: SqlShelf, clock: HandClock) -> Callable[..., Teardown]:
    """Open the bench on the line-up, as often as a test likes."""

    def down(**more: bool) -> Teardown:
        return Teardown(shelf, clock, SMALL, "l-1", **more)

    return down


@pytest.fixture
def bench(sit_down: Callable[..., Teardown]) -> Teardown:
    return sit_down()


@pytest.fixture
def wall() -> WallTime:
    return WallTime()


@pytest.fixture
def fair(tmp_path: Path, wall: WallTime) -> Iterator[SqlShelf]:
    """A shelf with a spin-on line-up of three; its log of changes goes by `wall`."""
    with fair_shelf(tmp_path / "fair", wall) as opened:
        yield opened
