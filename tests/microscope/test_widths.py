"""Centrelines, profiles and fitted widths of single fibres of known geometry."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.ndimage import gaussian_filter1d

from benchlog.microscope.centrelines import centrelines
from benchlog.microscope.edge_fit import fitted_widths
from benchlog.microscope.figures import Scale, independent_fibres, width_figures
from benchlog.microscope.gates import (
    contrast_gate,
    layer_gates,
    light_gates,
    open_gates,
    sharpness_gates,
)
from benchlog.microscope.kernels import distance_inside, smoothed
from benchlog.microscope.profiles import SAMPLES, profiles
from benchlog.microscope.widths import widths

SHAPE = (220, 260)


def bar(width: float, angle_deg: float, middle: tuple[float, float] = (130, 110)) -> np.ndarray:
    """Share of each pixel that a straight fibre covers."""
    y, x = np.mgrid[: SHAPE[0], : SHAPE[1]]
    turn = np.deg2rad(angle_deg)
    off = (x - middle[0]) * np.sin(turn) - (y - middle[1]) * np.cos(turn)
    return np.clip(width / 2 + 0.5 - np.abs(off), 0, 1)


@settings(max_examples=10, deadline=None)
@given(st.floats(7, 24), st.floats(0, 179))
def test_one_fibre_has_one_straight_line(width, angle):
    mask = bar(width, angle) > 0.5
    lines = centrelines(mask, distance_inside(mask))
    turn = np.deg2rad(angle)
    normal = np.abs(lines.nx * np.sin(turn) - lines.ny * np.cos(turn))
    assert np.median(normal) > 0.998
    off = (lines.x - 130) * np.sin(turn) - (lines.y - 110) * np.cos(turn)
    assert np.abs(off).max() < 1.0
    assert 2 * np.median(lines.half) == pytest.approx(
        width, abs=2.1
    )  # a bar along the grid may read 1 to 2 wide
    assert lines.lengths.sum() > 100


def test_crossings_are_left_out():
    mask = (bar(12, 20) + bar(12, 100)) > 0.5
    lines = centrelines(mask, distance_inside(mask))
    assert len(lines.first) == 4
    assert np.hypot(lines.x - 130, lines.y - 110).min() > 8


def test_nothing_has_no_lines():
    mask = np.zeros(SHAPE, dtype=bool)
    lines = centrelines(mask, distance_inside(mask))
    assert lines.lengths.size == 0
    assert profiles(mask.astype(np.float32), lines, True).accepted == 0.0


@pytest.mark.parametrize("upward", [True, False])
@pytest.mark.parametrize("width", [9.0, 14.3, 22.0])
def test_profiles_of_a_ribbon_find_its_edges(width, upward):
    cover = bar(width, 33)
    light = smoothed((0.1 + 0.7 * (cover if upward else 1 - cover)).astype(np.float32), 0.9)
    mask = cover > 0.5
    lines = centrelines(mask, distance_inside(mask))
    seen = profiles(light, lines, upward)
    assert seen.accepted > 0.98
    assert seen.steepest_width == pytest.approx(width, abs=0.2)
    level = np.full(SHAPE, 0.45, np.float32)
    found = widths(lines, seen, level, upward, 0.8)
    # One stretch alone tells blur from roundness badly, and says so.
    assert found.mean == pytest.approx(width, abs=0.3 + found.fit.doubt)
    assert found.fit.doubt < 0.09 * width
    assert found.mask_gap == pytest.approx(0.0, abs=0.3 + found.fit.doubt)
    # S of an ideal strip is w / (2.5 σ): σ of 0.9 with half a pixel's width and the sampling's.
    assert found.steepness == pytest.approx(width / (2.5 * 1.0), rel=0.15)


def rows(width: np.ndarray, blur: float, shape: str) -> tuple[np.ndarray, np.ndarray]:
    """Blurred profiles of fibres of given widths, and where they were sampled."""
    fine = np.linspace(-40, 40, 8001)
    light, offset = [], []
    for one in width:
        u = fine / (one / 2)
        limb = np.sqrt(np.clip(1 - u**2, 0, 1))
        inside = np.abs(u) <= 1
        shade = {"flat": 0.8 * inside, "round": 0.8 * limb, "rim": inside * (0.8 - 0.3 * limb)}
        soft = gaussian_filter1d(shade[shape], blur / (fine[1] - fine[0]))
        at = np.linspace(-1, 1, SAMPLES) * (1.35 * one / 2 + 5)
        light.append(0.05 + np.interp(at, fine, soft))
        offset.append(at)
    return np.array(light), np.array(offset)


@pytest.mark.parametrize("shape", ["flat", "round", "rim"])
@pytest.mark.parametrize("blur", [0.8, 1.2])
def test_widths_whatever_the_fibre_looks_like(shape, blur):
    true = np.linspace(11, 24, 12)
    light, offset = rows(true, blur, shape)
    start = true * {"flat": 1.0, "round": 0.9, "rim": 1.02}[shape]
    fit = fitted_widths(light, offset, start)
    assert fit.width == pytest.approx(true, abs=0.6)
    assert fit.blur == pytest.approx(blur, rel=0.25)
    low, high = {"flat": (-0.25, 0.25), "round": (0.7, 1.3), "rim": (-1.2, 0.05)}[shape]
    assert low < fit.roundness < high


def test_no_profiles_no_widths():
    none = np.zeros((0, SAMPLES))
    assert fitted_widths(none, none, np.zeros(0)).width.size == 0


def test_uncertainty_counts_fibres_not_profiles():
    mask = bar(14.0, 33) > 0.5
    lines = centrelines(mask, distance_inside(mask))
    light = smoothed(mask.astype(np.float32), 0.9)
    found = widths(lines, profiles(light, lines, True), np.full(SHAPE, 0.5, np.float32), True, 0.6)
    # n = 2 (W + H) L_A / π with L_A = -ln(open) / mean width, for long random lines.
    density = -np.log(0.6) / found.mean
    fibres = independent_fibres(found, 1600, 1200)
    assert fibres == pytest.approx(2 * 2800 * density / np.pi, rel=0.02)
    few, many = (width_figures(found, Scale(0.5), n, False)[0] for n in (25.0, 100.0))
    assert few.sampling == pytest.approx(2 * many.sampling)
    edge, alike = 0.8 / 3**0.5, found.fit.doubt  # pixels of half a micrometre
    assert few.systematic == pytest.approx(0.5 * np.hypot(edge, alike), rel=0.01)


def test_coarse_fibres_are_less_sure():
    systematic = {}
    for width in (9.0, 12.0):
        mask = bar(width, 33) > 0.5
        lines = centrelines(mask, distance_inside(mask))
        seen = profiles(smoothed(mask.astype(np.float32), 0.9), lines, True)
        found = widths(lines, seen, np.full(SHAPE, 0.5, np.float32), True, 0.6)
        rest = width_figures(
            replace(found, fit=replace(found.fit, doubt=0.0)), Scale(1.0), 50, True
        )
        systematic[width] = rest[1].systematic / found.percentile(0.5)
    assert systematic[9.0] == pytest.approx(0.15 / 3**0.5)  # the half-width that is warned of
    assert systematic[12.0] < 0.03


@pytest.mark.parametrize(
    ("gate", "outcome", "words"),
    [
        (light_gates(44, 0, 1)[0], "refused", "too dark"),
        (light_gates(46, 0, 1)[0], "passed", ""),
        (light_gates(90, 0.06, 1)[1], "refused", "pure white"),
        (light_gates(90, 0, 5.1)[2], "refused", "uneven"),
        (contrast_gate(4.9), "refused", "noise"),
        (sharpness_gates(1.9, 14, 1)[0], "refused", "blurred"),
        (sharpness_gates(1.9, 7, 1)[0], "refused", "too few pixels"),
        (sharpness_gates(2.5, 14, 1)[0], "warned", "soft"),
        (sharpness_gates(3.0, 6.9, 1)[1], "refused", "too few pixels"),
        (sharpness_gates(3.0, 9.0, 1)[1], "warned", "10 to 15 %"),
        (sharpness_gates(3.0, 14, 0.79)[2], "refused", "does not look like fibres"),
        (layer_gates(0.16, 0, 0)[0], "refused", "layers"),
        (layer_gates(0, 0.13, 0)[1], "refused", "layers"),
        (layer_gates(0, 0, 0.12)[2], "refused", "layers"),
        (layer_gates(0.14, 0, 0.10)[3], "refused", "layers"),
        (layer_gates(0.10, 0, 0.06)[3], "passed", ""),
        (open_gates(0.02, 10)[0], "refused", "Hardly anything is open"),
        (open_gates(0.98, 10)[1], "refused", "Hardly a fibre"),
        (open_gates(0.5, 6)[2], "refused", "too few openings"),
        (contrast_gate(float("nan")), "refused", "noise"),
    ],
    ids=str,
)
def test_each_gate_at_its_limit(gate, outcome, words):
    assert gate.outcome == outcome
    assert words in gate.words
