"""Finding a value on the pages, and stepping from one to the next."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.tasks.sheet_places import (
    NumberPlace,
    first_place,
    map_beside,
    place_at,
    read_places,
    save_places,
    step_from,
)

WALL = NumberPlace(1, 100.0, 200.0, 60.0, 12.0, "can_wall", "a")
BESIDE = replace(WALL, left=180.0, specimen_id="b")
BELOW = replace(WALL, top=230.0, key="can_height")
LATER = replace(WALL, page=3, top=80.0)
ALL = (LATER, BELOW, BESIDE, WALL)

boxes = st.builds(
    NumberPlace, st.integers(0, 30), *[st.floats(0, 800, allow_nan=False)] * 4, st.text(), st.text()
)


@given(st.lists(boxes, max_size=5))
def test_map_comes_back_as_written(tmp_path_factory: pytest.TempPathFactory, made: list) -> None:
    sheet = tmp_path_factory.mktemp("map") / "sheet.pdf"
    save_places(sheet, made)
    assert read_places(sheet) == tuple(made)


def test_no_map_means_no_places(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.pdf"
    assert read_places(sheet) == ()
    map_beside(sheet).write_text("[{]")
    assert read_places(sheet) == ()


@pytest.mark.parametrize(
    ("page", "x", "y", "found"),
    [
        (1, 130, 206, WALL), (1, 200, 206, BESIDE), (1, 98, 206, WALL), (1, 90, 206, None),
        (1, 130, 225, None), (1, 130, 236, BELOW), (2, 130, 206, None), (3, 130, 85, LATER),
    ],
)  # fmt: skip
def test_point_finds_its_box(page: int, x: float, y: float, found: NumberPlace | None) -> None:
    assert place_at(ALL, page, x, y) == found


def test_nearest_of_touching_boxes() -> None:
    close = replace(WALL, top=212.0, key="can_height")
    assert place_at((WALL, close), 1, 130, 211) == WALL
    assert place_at((WALL, close), 1, 130, 213) == close


def test_value_is_found_near_first() -> None:
    assert first_place(ALL, ("can_wall", "a"), near=3) == LATER
    assert first_place(ALL, ("can_wall", "a"), near=2) == LATER, "as the map has it"
    assert first_place(ALL, ("gone", "a")) is None


def test_steps_go_as_one_reads() -> None:
    order, now = [], None
    for _ in range(5):
        now = step_from(ALL, now, 0, 1)
        order.append(now)
    assert order == [WALL, BESIDE, BELOW, LATER, LATER]
    assert step_from(ALL, WALL, 0, -1) == WALL
    assert step_from(ALL, LATER, 3, -1) == BELOW


def test_steps_begin_on_the_page_in_view() -> None:
    assert step_from(ALL, None, 2, 1) == LATER
    assert step_from(ALL, None, 2, -1) == BELOW
    assert step_from((), None, 0, 1) is None
    gone = replace(WALL, key="gone")
    assert step_from(ALL, gone, 1, 1) == WALL
