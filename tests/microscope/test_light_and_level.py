"""Evening out the light, and finding the level between fibre and opening."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.ndimage import gaussian_filter

from benchlog.microscope.evening import evened_by_sides, evened_by_tiles
from benchlog.microscope.level import levels_of, soft_share
from benchlog.microscope.masking import bright_mask, cleaned, light_of

SHAPE = (240, 320)


def bars(width: int = 12, gap: int = 28, slope: float = 0.3) -> np.ndarray:
    """Slanting bars of one width; gaps of another."""
    y, x = np.mgrid[: SHAPE[0], : SHAPE[1]]
    return np.mod(x + slope * y, width + gap) < width


def fall_off(ratio: float) -> np.ndarray:
    y, x = np.mgrid[: SHAPE[0], : SHAPE[1]]
    away = np.hypot(x / SHAPE[1] - 0.5, y / SHAPE[0] - 0.5) / np.hypot(0.5, 0.5)
    return 1 - (1 - 1 / ratio) * away**2


def blurred(light: np.ndarray, sigma: float = 0.9) -> np.ndarray:
    return gaussian_filter(light, sigma).astype(np.float32)


@settings(max_examples=6, deadline=None)
@given(st.floats(1.05, 3.5))
def test_fall_off_is_taken_out(ratio):
    mask = bars()
    light = blurred(np.where(mask, 0.8, 0.1) * fall_off(ratio))
    evened = evened_by_sides(light, mask)
    assert evened.ratio == pytest.approx(ratio, rel=0.2)
    inside = cleaned(mask) & (evened.light > np.median(evened.light[mask]) * 0.5)
    near, far = evened.light[100:140, 140:180], evened.light[:30, :40]
    bright = [np.percentile(part, 95) for part in (near, far)]
    assert bright[0] == pytest.approx(bright[1], rel=0.08)
    assert inside.any()


def test_steep_fall_off_is_seen_to_be_steep():
    mask = bars()
    light = blurred(np.where(mask, 0.8, 0.1) * fall_off(6.0))
    assert evened_by_sides(light, mask).ratio > 3.5  # a smooth surface falls short of the corners


def test_dense_fibres_are_not_taken_for_light():
    mask = bars()
    mask[:, 200:] |= bars(12, 14)[:, 200:]  # twice as dense on the right
    light = blurred(np.where(mask, 0.8, 0.1))
    assert evened_by_sides(light, mask).ratio < 1.15
    assert evened_by_tiles(light).ratio > 1.3  # what the second round is for


@pytest.mark.parametrize(("low", "high"), [(0.05, 0.8), (0.3, 0.5), (0.02, 0.06)])
def test_the_level_lies_half_way(low, high):
    levels = levels_of(blurred(np.where(bars(), high, low)))
    assert levels.middle == pytest.approx((low + high) / 2, abs=0.12 * (high - low))
    assert levels.contrast == pytest.approx(high - low, rel=0.1)
    assert np.ptp(levels.local) < 0.15 * (high - low)


def test_the_level_follows_the_place():
    tone = np.broadcast_to(np.linspace(0.4, 1.0, SHAPE[1]), SHAPE)
    levels = levels_of(blurred(np.where(bars(), tone, 0.05)))
    assert levels.local[:, 300].mean() > 1.1 * levels.local[:, 20].mean()


def test_noise_is_read_off_flat_ground():
    rng = np.random.default_rng(4)
    light = np.where(bars(), 0.8, 0.1) + rng.normal(0, 0.02, SHAPE)
    assert levels_of(light.astype(np.float32)).noise == pytest.approx(0.02, rel=0.15)


def test_sharp_edges_win_over_soft_ones():
    deep = gaussian_filter(np.where(bars(14, 60, -0.4), 0.4, 0.05), 4.0)
    light = blurred(np.where(bars(10, 70), 0.9, deep))
    mask = bright_mask(light, levels_of(light))
    assert np.mean(mask ^ bars(10, 70)) < 0.02


def test_a_soft_second_layer_shows_in_the_outline():
    sharp, soft = bars(10, 70), bars(14, 60, -0.4)
    one = blurred(np.where(sharp, 0.9, 0.05))
    two = np.maximum(one, gaussian_filter(np.where(soft, 0.9, 0.05), 4.0)).astype(np.float32)
    assert soft_share(one, sharp) < 0.05
    assert soft_share(two, two > 0.45) > 0.2
    assert soft_share(one, np.zeros(SHAPE, dtype=bool)) == 0.0


def test_specks_and_pinholes_go():
    mask = bars()
    spoiled = mask.copy()
    spoiled[5:8, 20:23] = True
    hole = np.argwhere(mask[100:110])[40] + [100, 0]
    spoiled[hole[0], hole[1]] = ~spoiled[hole[0], hole[1]]
    again = cleaned(spoiled)
    assert np.mean(again ^ mask) < 0.002


@pytest.mark.parametrize(("bright", "answer"), [(True, "above"), (False, "below")])
def test_fibres_are_the_side_of_even_width(bright, answer):
    rng = np.random.default_rng(3)
    y, x = np.mgrid[: SHAPE[0], : SHAPE[1]]
    fibre = np.zeros(SHAPE, dtype=bool)
    for _ in range(14):
        angle, away = rng.uniform(0, np.pi), rng.uniform(-200, 200)
        fibre |= np.abs((x - 160) * np.sin(angle) - (y - 120) * np.cos(angle) - away) < 5
    assert light_of(fibre if bright else ~fibre) == answer
