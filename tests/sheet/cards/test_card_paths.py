"""Outlines of marks: where they reach, which way they wind, and what moving does to them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.sheet.cards.coverage import coverage
from benchlog.sheet.cards.look import Area
from benchlog.sheet.cards.paths import (
    Path,
    around,
    bar,
    bounds,
    circle,
    moved,
    polygon,
    rectangle,
    ring,
)

PLACES = st.floats(-200, 200)
SIZES = st.floats(1, 90)


def covered(path: Path) -> float:
    found = coverage(path, 1.0)
    return 0.0 if found is None else float(found[2].sum())


def corners(path: Path) -> list[tuple[float, ...]]:
    return [where[-2:] for step, where in path if step != "Z"]


def turning(path: Path) -> float:
    """Twice the signed area inside the corners: its sign is the way that they wind."""
    points = corners(path)
    return sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], points[0]], strict=True)
    )


def test_polygon_begins_draws_and_closes() -> None:
    path = polygon([(1, 2), (3, 4), (5, 0)])
    assert path == (("M", (1, 2)), ("L", (3, 4)), ("L", (5, 0)), ("Z", ()))


@given(PLACES, PLACES, SIZES, SIZES)
def test_rectangle_reaches_its_area(left: float, top: float, width: float, height: float) -> None:
    area = Area(left, top, left + width, top + height)
    assert bounds(rectangle(area)) == area
    assert abs(turning(rectangle(area))) == pytest.approx(2 * width * height, rel=1e-6)


@given(PLACES, PLACES, SIZES)
def test_circle_reaches_its_radius_and_no_further(x: float, y: float, r: float) -> None:
    area = bounds(circle(x, y, r))
    assert area is not None
    assert (area.left, area.top) == pytest.approx((x - r, y - r))
    assert (area.right, area.bottom) == pytest.approx((x + r, y + r))


@settings(max_examples=20)
@given(SIZES)
def test_circles_curves_stay_on_the_circle(r: float) -> None:
    # Handles of 4/3 (√2 − 1): the middle of each quarter lies on the circle to 1 in 10 000.
    path = circle(0, 0, r)
    pen = path[0][1]
    for step, where in path[1:]:
        if step != "C":
            continue
        ax, ay, bx, by, cx, cy = where
        middle = (
            (pen[0] + 3 * ax + 3 * bx + cx) / 8,
            (pen[1] + 3 * ay + 3 * by + cy) / 8,
        )
        assert math.hypot(*middle) == pytest.approx(r, rel=1e-4)
        pen = (cx, cy)


def test_cut_out_circle_winds_the_other_way() -> None:
    outer, inner = circle(50, 50, 20), circle(50, 50, 10, cut_out=True)
    assert turning(outer) * turning(inner) < 0
    assert covered(outer + inner) == pytest.approx(math.pi * (400 - 100), rel=1e-3)
    assert covered(outer + circle(50, 50, 10)) == pytest.approx(math.pi * 400, rel=1e-3)


def test_ring_is_hollow_in_its_middle() -> None:
    found = coverage(ring(50, 50, 30, 8), 1.0)
    assert found is not None
    left, top, share = found
    assert share[50 - top, 50 - left] == 0
    assert share[50 - top, 80 - left] == 1
    assert (left, top) == (16, 16)


@pytest.mark.parametrize("points", [3, 4, 6, 8])
def test_even_corners_lie_on_one_circle(points: int) -> None:
    path = around(10, 20, (7,), points)
    assert len(corners(path)) == points
    assert corners(path)[0] == pytest.approx((10, 13))
    assert all(math.hypot(x - 10, y - 20) == pytest.approx(7) for x, y in corners(path))


def test_star_takes_its_radii_in_turn() -> None:
    reach = [math.hypot(x, y) for x, y in corners(around(0, 0, (10, 4), 10))]
    assert reach == pytest.approx([10, 4] * 5)


@given(PLACES, PLACES, st.floats(3, 50), st.floats(0, 2 * math.pi), st.floats(1, 9))
def test_bar_is_as_thick_all_along(
    x: float, y: float, long: float, turn: float, wide: float
) -> None:
    end = x + long * math.cos(turn), y + long * math.sin(turn)
    one, two, three, four = corners(bar(x, y, *end, wide))
    assert math.dist(one, two) == pytest.approx(wide, rel=1e-6)
    assert math.dist(three, four) == pytest.approx(wide, rel=1e-6)
    assert math.dist(two, three) == pytest.approx(long, rel=1e-6)


@given(PLACES, PLACES, st.floats(0.1, 5))
def test_moving_scales_about_the_origin_first(x: float, y: float, scale: float) -> None:
    path = rectangle(Area(1, 2, 3, 5))
    area = bounds(moved(path, x, y, scale))
    assert area is not None
    assert (area.left, area.top) == pytest.approx((x + scale, y + 2 * scale))
    assert (area.width, area.height) == pytest.approx((2 * scale, 3 * scale))


def test_moving_by_nothing_changes_nothing() -> None:
    path = circle(3, 4, 5)
    assert moved(path, 0, 0) == path


def test_nothing_has_no_bounds() -> None:
    assert bounds(()) is None
    assert bounds((("Z", ()),)) is None
