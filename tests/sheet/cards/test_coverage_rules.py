"""Laws that covered area keeps: it moves, scales, adds up and turns with its outline."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.sheet.cards.coverage import FLAT_ENOUGH, coverage
from benchlog.sheet.cards.look import Area
from benchlog.sheet.cards.paths import Path, around, circle, moved, polygon, rectangle

PLACE = st.floats(0, 40)
ROUND = st.floats(2, 30)
SIDE = 100


def grid(path: Path, scale: float = 1.0) -> np.ndarray:
    """The covered shares on a fixed grid of pixels."""
    found = np.zeros((SIDE, SIDE))
    covered = coverage(path, scale)
    if covered is not None:
        left, top, share = covered
        found[top : top + share.shape[0], left : left + share.shape[1]] = share
    return found


@settings(max_examples=25)
@given(PLACE, PLACE, ROUND, st.integers(0, 20), st.integers(0, 20))
def test_whole_pixels_move_the_picture(x: float, y: float, r: float, right: int, down: int) -> None:
    shape = around(x + 35, y + 35, (min(r, 18.0),), 5)
    still, gone = coverage(shape, 1.0), coverage(moved(shape, right, down), 1.0)
    assert still is not None
    assert gone is not None
    assert (gone[0] - still[0], gone[1] - still[1]) == (right, down)
    # Corners are taken to a 1024th of a pixel.
    assert np.abs(gone[2] - still[2]).max() < 0.01


@settings(max_examples=25)
@given(ROUND)
def test_twice_the_scale_is_four_times_the_area(r: float) -> None:
    shape = circle(20, 20, min(r, 12.0))
    one, two = grid(shape).sum(), grid(shape, 2.0).sum()
    assert two == pytest.approx(4 * one, rel=0.01)


@settings(max_examples=25)
@given(st.floats(1, 60), st.floats(1, 60), st.floats(0.05, 0.95))
def test_halves_add_up_to_the_whole(width: float, height: float, at: float) -> None:
    middle = 5 + width * at
    whole = grid(rectangle(Area(5, 5, 5 + width, 5 + height)))
    left = grid(rectangle(Area(5, 5, middle, 5 + height)))
    right = grid(rectangle(Area(middle, 5, 5 + width, 5 + height)))
    assert np.abs(left + right - whole).max() < 0.003


@given(st.lists(st.tuples(st.floats(0, 90), st.floats(0, 90)), min_size=3, max_size=7))
def test_share_of_any_outline_is_a_share(points: list[tuple[float, float]]) -> None:
    shares = grid(polygon(points))
    assert shares.min() >= 0
    assert shares.max() <= 1


@given(st.lists(st.tuples(st.floats(0, 90), st.floats(0, 90)), min_size=3, max_size=6))
def test_way_round_makes_no_difference(points: list[tuple[float, float]]) -> None:
    forth, back = grid(polygon(points)), grid(polygon(points[::-1]))
    assert np.abs(forth - back).max() < 1e-9


def test_upside_down_is_upside_down() -> None:
    shape = [(10.0, 10.0), (40.0, 15.0), (22.0, 60.0)]
    turned = grid(polygon([(x, SIDE - y) for x, y in shape]))
    assert np.allclose(grid(polygon(shape)), turned[::-1], atol=0.002)


def test_hole_is_empty_and_its_edge_shared() -> None:
    outer, inner = Area(10, 10, 50, 50), Area(20.5, 20, 40, 40)
    hole = tuple(polygon([(inner.left, inner.top), (inner.left, inner.bottom),
                          (inner.right, inner.bottom), (inner.right, inner.top)]))  # fmt: skip
    shares = grid(rectangle(outer) + hole)
    assert shares[30, 30] == 0
    assert shares[30, 20] == pytest.approx(0.5)
    assert shares[30, 15] == 1


def test_outline_wound_twice_covers_once() -> None:
    square = rectangle(Area(10, 10, 20, 20))
    assert grid(square + square).sum() == pytest.approx(100)


def test_quadratic_curve_has_the_area_of_its_formula() -> None:
    # Archimedes: a parabola's segment is two thirds of base times height of the curve.
    arch: Path = (("M", (10.0, 60.0)), ("Q", (40.0, -20.0, 70.0, 60.0)), ("Z", ()))
    assert grid(arch).sum() == pytest.approx(2 / 3 * 60 * 40, rel=2e-3)


def test_cubic_curve_has_the_area_under_its_points() -> None:
    # The curve by its definition (Bernstein polynomials), its area by finely drawn trapezia.
    arch: Path = (("M", (10.0, 70.0)), ("C", (30.0, 30.0, 50.0, 30.0, 70.0, 70.0)), ("Z", ()))
    t = np.linspace(0, 1, 20001)
    x = 10 * (1 - t) ** 3 + 90 * t * (1 - t) ** 2 + 150 * t**2 * (1 - t) + 70 * t**3
    y = 70 * (1 - t) ** 3 + 90 * t * (1 - t) ** 2 + 90 * t**2 * (1 - t) + 70 * t**3
    under = float(np.sum((70 - (y[1:] + y[:-1]) / 2) * np.diff(x)))
    assert grid(arch).sum() == pytest.approx(under, rel=2e-3)


@pytest.mark.parametrize("scale", [0.5, 1.0, 2.0])
def test_curve_strays_by_less_than_it_may(scale: float) -> None:
    r = 20.0
    edge = grid(circle(24, 24, r), scale).sum()
    length = 2 * math.pi * r * scale
    assert abs(edge - math.pi * (r * scale) ** 2) <= FLAT_ENOUGH * length + 0.0003 * edge


def test_level_and_flat_outlines_cover_nothing() -> None:
    assert grid(polygon([(1, 5), (9, 5), (5, 5)])).sum() == 0
    assert grid(polygon([(5, 1), (5, 9), (5, 4)])).sum() == pytest.approx(0)


def test_outline_left_of_the_frame_has_its_place() -> None:
    found = coverage(rectangle(Area(-10.5, -3, -2, 4)), 1.0)
    assert found is not None
    assert found[:2] == (-11, -3)
    assert found[2].sum() == pytest.approx(8.5 * 7)
