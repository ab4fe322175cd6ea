"""The compiled loops against SciPy's plain ones."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.ndimage import distance_transform_edt, gaussian_filter, map_coordinates

from benchlog.microscope.kernels import (
    distance_inside,
    outlines,
    pieces,
    sampled,
    slopes,
    smoothed,
)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000), st.floats(0.02, 0.98))
def test_distances_are_exact(seed, share):
    mask = np.random.default_rng(seed).random((40, 53)) < share
    mask[7, 11] = False
    assert distance_inside(mask) == pytest.approx(distance_transform_edt(mask), abs=1e-4)


def test_blur_is_the_gaussian():
    values = np.random.default_rng(2).random((60, 70)).astype(np.float32)
    wide = gaussian_filter(values, 2.0, mode="mirror", truncate=5.0)
    assert smoothed(values, 2.0) == pytest.approx(wide, abs=2e-3)


def test_slopes_of_a_plane():
    y, x = np.mgrid[:30, :40].astype(np.float32)
    gx, gy = slopes(3 * x - 2 * y, 1.0)
    assert gx[8:-8, 8:-8] == pytest.approx(3.0, abs=1e-4)
    assert gy[8:-8, 8:-8] == pytest.approx(-2.0, abs=1e-4)


def test_between_pixels_lies_the_cubic():
    y, x = np.mgrid[:40, :50]
    wave = np.sin(x / 6.0) * np.cos(y / 7.0)
    across, down = np.linspace(5, 44, 60)[None, :], np.linspace(5, 34, 60)[None, :]
    expected = map_coordinates(wave, [down, across], order=3)
    # The compiled one takes places in steps of 1/32 pixel.
    assert sampled(wave.astype(np.float32), across, down) == pytest.approx(expected, abs=0.01)


def test_pieces_touch_at_corners():
    mask = np.eye(6, dtype=bool)
    mask[0, 4] = True
    labels, areas = pieces(mask)
    assert sorted(areas[1:]) == [1, 6]
    assert (labels > 0).sum() == 7


def test_outlines_have_their_holes():
    ring = np.zeros((40, 40), dtype=bool)
    ring[5:35, 5:35] = True
    ring[15:25, 15:25] = False
    assert len(outlines(ring)) == 2
