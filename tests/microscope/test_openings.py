"""Covering circles against brute force, geometry and the closed forms of random lines."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.microscope import openings as room
from benchlog.microscope.kernels import distance_inside
from benchlog.microscope.openings import circles_to_draw, openings, rough_diameters
from tests.microscope.covering import percentile_diameters, thickness
from tests.microscope.drawn_fibres import Mat, fibres, laid

SHARES = (0.10, 0.50, 0.90, 0.95)


def mask_of(mat: Mat) -> np.ndarray:
    rng = np.random.default_rng(mat.seed)
    canvas = np.zeros((mat.size[1], mat.size[0]), np.float32)
    return laid(canvas, mat, fibres(mat, rng, mat.open_share), 1.0)[0] >= 0


def test_exact_against_brute_force():
    open_mask = ~mask_of(Mat(size=(200, 160), width=7.0, open_share=0.55))
    ours = openings(open_mask)
    brute = percentile_diameters(open_mask, SHARES)
    # Brute force gives each pixel one of the few distances of the grid; ours lie between them.
    for mine, theirs in zip((ours.d10, ours.d50, ours.d90, ours.d95), brute, strict=True):
        assert mine == pytest.approx(theirs, abs=0.8)


@settings(max_examples=8, deadline=None)
@given(st.integers(1, 10_000), st.floats(0.35, 0.7))
def test_any_mat_against_brute_force(seed, open_share):
    open_mask = ~mask_of(Mat(size=(100, 80), width=6.0, open_share=open_share, seed=seed))
    brute, ours = thickness(open_mask)[open_mask], rough_diameters(open_mask, (0.5,))[0]
    # Few openings: the share jumps with the size, and must pass one half about where we say.
    assert np.mean(brute < ours - 1.0) <= 0.53
    assert np.mean(brute <= ours + 1.0) >= 0.47


@given(st.integers(6, 30))
def test_a_round_hole_is_its_own_size(radius):
    y, x = np.mgrid[-40:41, -40:41]
    hole = x**2 + y**2 < radius**2
    # Between pixel centres, from the middle to the first fibre: the radius, less than a pixel on.
    assert openings(hole).d50 == pytest.approx(2 * radius, abs=1.5)


def test_a_slot_is_as_wide_as_it_is():
    slot = np.zeros((200, 120), dtype=bool)
    slot[:, 40:61] = True
    found = openings(slot)
    assert (found.d10, found.d95) == pytest.approx((22, 22), abs=0.5)


def test_two_slots_share_by_area():
    slots = np.zeros((300, 200), dtype=bool)
    slots[:, 10:30] = True
    slots[:, 60:120] = True
    found = openings(slots)
    # A slot of an even number of pixels has no pixel in its middle: one is lost, or half of it.
    assert found.d10 == pytest.approx(20, abs=0.2)
    assert found.d50 == pytest.approx(60, abs=0.2)


def test_nothing_open_has_no_size():
    assert openings(np.zeros((80, 80), dtype=bool)).d50 == 0.0
    assert rough_diameters(np.zeros((80, 80), dtype=bool), (0.5,)) == [0.0]


def test_all_open_ends_at_the_frame():
    everything = np.ones((60, 80), dtype=bool)
    assert rough_diameters(everything, (0.5,))[0] == pytest.approx(200, rel=0.01)


def test_thinning_leaves_the_answer(monkeypatch: pytest.MonkeyPatch):
    open_mask = ~mask_of(Mat(size=(700, 500), width=9.0, open_share=0.6))
    whole = openings(open_mask)
    monkeypatch.setattr(room, "_THINNED_TO", 20_000)
    thinned = openings(open_mask)
    # So few openings that the share falls in steps: between two of them any size is as good.
    assert thinned.d10 == pytest.approx(whole.d10, rel=0.15)
    assert thinned.d50 == pytest.approx(whole.d50, rel=0.03)
    assert thinned.d90 == pytest.approx(whole.d90, rel=0.03)
    assert thinned.d95 == pytest.approx(whole.d95, rel=0.04)


def test_sizes_follow_one_another():
    found = openings(~mask_of(Mat(size=(400, 300))))
    assert 0 < found.d10 <= found.d50 <= found.d90 <= found.d95


def test_more_fibre_makes_smaller_openings():
    open_mask = ~mask_of(Mat(size=(400, 300)))
    fewer = open_mask & (distance_inside(open_mask) > 2.0)
    assert rough_diameters(fewer, (0.5,))[0] < rough_diameters(open_mask, (0.5,))[0]


def test_drawn_circles_touch_no_fibre_and_no_other():
    open_mask = ~mask_of(Mat(size=(400, 300)))
    circles = circles_to_draw(open_mask, 50)
    assert 10 < len(circles) <= 50
    reach = distance_inside(open_mask)
    for i, (x, y, r) in enumerate(circles):
        assert reach[int(y), int(x)] >= r - 1e-4
        others = circles[i + 1 :]
        assert (np.hypot(others[:, 0] - x, others[:, 1] - y) >= others[:, 2] + r - 1e-6).all()


def random_lines(tau: float, width: float, size: int, seed: int) -> np.ndarray:
    """Uniform isotropic straight lines of one width, `tau` of length per area."""
    rng = np.random.default_rng(seed)
    reach = size * 0.75  # a circle about the frame, wide enough for lines that graze it
    y, x = np.mgrid[:size, :size].astype(np.float32) - (size - 1) / 2
    fibre = np.zeros((size, size), dtype=bool)
    for _ in range(rng.poisson(2 * tau * reach)):  # Poisson: mean number of hits is tau·perimeter/π
        angle, away = rng.uniform(0, np.pi), rng.uniform(-reach, reach)
        fibre |= np.abs(x * np.sin(angle) - y * np.cos(angle) - away) < width / 2
    return fibre


def test_random_lines_leave_what_miles_says():
    # Miles 1964; Kallmes and Corte: open = exp(-tau·w), tau 0.02, w 15 -> 0.740818;
    # distance to the nearest fibre is exponential with mean 1/(2 tau) = 25 (check values, 4).
    tau, width = 0.02, 15.0
    masks = [random_lines(tau, width, 360, seed) for seed in range(30)]
    opened = [1 - m.mean() for m in masks]
    assert np.mean(opened) == pytest.approx(np.exp(-tau * width), abs=3 * np.std(opened) / 30**0.5)
    far = np.concatenate(
        [distance_inside(~m)[80:-80, 80:-80][~m[80:-80, 80:-80]][::17] for m in masks]
    )
    assert far.mean() - 0.5 == pytest.approx(1 / (2 * tau), rel=0.12)
    assert np.mean(far - 0.5 > 10) == pytest.approx(np.exp(-0.4), abs=0.04)
