"""Pixels per division against drawn stage micrometers whose period is known exactly."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.errors import PictureRefused, ScaleRefused
from benchlog.microscope.picture import GreyPicture
from benchlog.microscope.scale import find_scale
from benchlog.microscope.scale_lines import finer_hint, line_fit, rough_period
from tests.microscope.drawn_scale import Scale, drawn

AIM = 0.001
"""Aim of the scale: within 0.1 %."""


def as_picture(light: np.ndarray, reduced: int = 1) -> GreyPicture:
    height, width = light.shape
    grey = light.astype(np.float32)
    return GreyPicture(grey, width * reduced, height * reduced, 8, False, reduced, "PNG")


@pytest.mark.parametrize(
    "spoiled",
    [
        {},
        {"blur": 4.0, "period": 24.0},
        {"noise": 0.1},
        {"jpeg": 30},
        {"contrast": 0.1},
        {"vignette": 0.8},
        {"dirt": 12},
        {"missing": (-4, 0, 3)},
        {"turned_deg": 20.0},
        {"turned_deg": 45.0},
        {"turned_deg": 91.7},
        {"grid": True},
        {"bright": True},
        {"lines": 14, "period": 22.0},
        {"period": 6.0, "blur": 0.9},
        {"line": 0.5},
    ],
    ids=str,
)
def test_scale_within_a_thousandth(spoiled):
    scale = Scale(**spoiled)
    found = find_scale(drawn(scale))
    assert found.px_per_division == pytest.approx(scale.period, rel=AIM)
    assert found.u_px < AIM * scale.period
    assert found.residual < 0.02


@settings(max_examples=12, deadline=None)
@given(st.floats(7, 40), st.floats(-89, 89), st.integers(1, 99))
def test_any_period_and_any_turn(period, turned, seed):
    scale = Scale(period=period, turned_deg=turned, seed=seed)
    assert find_scale(drawn(scale)).px_per_division == pytest.approx(period, rel=AIM)


def test_lines_lie_where_they_were_drawn():
    scale = Scale(period=25.0, turned_deg=10.0)
    found = find_scale(drawn(scale))
    middles = found.lines.mean(axis=1)
    turn = np.deg2rad(scale.turned_deg)
    across = middles @ np.array([np.cos(turn), np.sin(turn)])
    assert np.diff(across) == pytest.approx(25.0, abs=0.3)
    along = found.lines[:, 1] - found.lines[:, 0]
    assert along @ np.array([np.cos(turn), np.sin(turn)]) == pytest.approx(0.0, abs=1.0)
    assert found.turned_deg == pytest.approx(10.0, abs=0.1)


def test_missing_lines_are_counted():
    found = find_scale(drawn(Scale(period=25.0, missing=(-4, 0, 1))))
    assert found.missing == 3
    assert any("3 lines" in note for note in found.notes)


def test_a_bent_lens_shows_as_curvature():
    straight = find_scale(drawn(Scale()))
    bent = find_scale(drawn(Scale(barrel=0.02)))
    assert straight.curvature < 0.002
    assert bent.curvature > 0.02
    assert bent.u_px > 5 * straight.u_px
    assert any("the lens bends it" in note for note in bent.notes)


@pytest.mark.parametrize("lost", [{"period": 10.0, "blur": 4.0}, {"period": 4.0, "blur": 0.8}])
def test_only_fifth_marks_is_refused(lost):
    with pytest.raises(ScaleRefused):
        find_scale(drawn(Scale(size=(800, 600), **lost)))


def test_too_few_lines_are_refused():
    with pytest.raises(ScaleRefused, match="Fewer than 10"):
        find_scale(drawn(Scale(lines=7, period=30.0)))


@pytest.mark.parametrize("seed", range(6))
def test_noise_and_grain_are_refused(seed):
    rng = np.random.default_rng(seed)
    grain = rng.normal(0.4, 0.1, (300, 400))
    if seed % 2:
        grain = np.add.reduce([np.roll(grain, (i, j), (0, 1)) for i in range(5) for j in range(5)])
        grain /= 25
    with pytest.raises(ScaleRefused):
        find_scale(as_picture(np.clip(grain, 0, 1)))


def test_an_even_field_is_refused():
    with pytest.raises(ScaleRefused) as refused:
        find_scale(as_picture(np.full((100, 120), 0.5)))
    assert isinstance(refused.value, PictureRefused)
    assert "in focus" in refused.value.do


def test_many_missing_lines_are_refused():
    gone = tuple(n for n in range(-40, 40) if n % 9 in (0, 1, 4, 6))
    with pytest.raises(ScaleRefused):
        find_scale(drawn(Scale(period=12.0, missing=gone)))


def test_a_reduced_picture_counts_the_files_pixels():
    whole = drawn(Scale())
    halved = GreyPicture(whole.light, 1280, 960, 8, False, 2, "JPEG")
    once, twice = find_scale(whole), find_scale(halved)
    assert twice.px_per_division == pytest.approx(2 * once.px_per_division)
    assert twice.lines == pytest.approx(2 * once.lines)


def test_micrometres_carry_slide_tilt_and_zoom():
    found = find_scale(drawn(Scale(period=20.0)))
    value, u = found.um_per_px(10.0)
    assert value == pytest.approx(0.5, rel=AIM)
    assert u / value == pytest.approx(0.01 / 3**0.5, rel=0.02)  # the chain, common practice
    assert found.um_per_px(10.0, 0.2)[1] / value == pytest.approx(0.0208, rel=0.02)


@given(st.floats(5, 40), st.floats(0, 1))
def test_a_pure_wave_has_its_period(period, phase):
    wave = np.cos(2 * np.pi * (np.arange(900) / period + phase)) + 2.0
    assert rough_period(wave) == pytest.approx(period, rel=0.02)
    fit = line_fit(wave, period)
    assert fit is not None
    assert fit.period == pytest.approx(period, rel=2e-4)


def test_an_even_profile_has_no_period():
    assert rough_period(np.ones(300)) == 0.0
    assert rough_period(np.linspace(0, 1, 300)) == 0.0


@pytest.mark.parametrize("within", [2, 4, 5, 10])
def test_a_faint_finer_comb_is_noticed(within):
    t = np.arange(2000) / 50.0
    marks = np.exp(-((t - np.round(t)) ** 2) / (2 * 0.11**2))
    assert not finer_hint(marks, 50.0, 0.0)
    assert finer_hint(marks + 0.8 * np.cos(2 * np.pi * within * t), 50.0, 0.0)
