"""Drawn mats of known truth: measured within the aims, or refused with the right reason."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from benchlog.microscope.figures import Scale
from benchlog.microscope.measure import Measured, SetUp, measure, quick_gates
from benchlog.microscope.openings import openings
from benchlog.microscope.picture import GreyPicture
from tests.microscope.drawn_fibres import Drawn, Mat, drawn
from tests.microscope.voxel_box import Box, projected

UM_PER_PX = 0.8
SETUP = SetUp(Scale(UM_PER_PX, 0.008))


FIELD = {"width": 11.0, "size": (460, 345)}


@cache
def mat(**how: object) -> Drawn:
    return drawn(Mat(**how))  # type: ignore[arg-type]


@cache
def seen(**how: object) -> Measured:
    return measure(mat(**how).picture, SETUP)


STYLES = [
    ("ribbon", "above"), ("round", "above"), ("glass", "above"),
    ("ribbon", "below"), ("round", "below"),
]  # fmt: skip


@pytest.mark.parametrize(("style", "light"), STYLES)
def test_figures_against_the_drawing(style, light):
    how = {"style": style, "light": light, "seed": 2, **FIELD}
    got, truth = seen(**how), mat(**how)
    assert got.verdict == "measured"
    assert got.light == light
    true = openings(~truth.mask)
    d50 = got.figures["D50"]
    assert d50.value == pytest.approx(true.d50 * UM_PER_PX, rel=0.05)
    assert got.figures["open area"].value == pytest.approx(truth.open_share, abs=0.03)
    assert got.figures["fibre mean"].value == pytest.approx(truth.mean_width * UM_PER_PX, rel=0.08)
    assert abs(d50.value - true.d50 * UM_PER_PX) < 2 * d50.u


def test_thick_fibres_within_six_percent():
    how = {"width": 16.0, "size": (760, 570), "style": "round", "seed": 5}
    got, truth = seen(**how), mat(**how)
    median = got.figures["fibre median"]
    assert median.value == pytest.approx(truth.width_at(0.5) * UM_PER_PX, rel=0.06)


def test_a_reference_fibre_takes_the_offset_out():
    how = {"seed": 2, "light": "below", "style": "round", **FIELD}
    plain = seen(**how).figures["fibre median"]
    freed = measure(mat(**how).picture, SetUp(SETUP.scale, "below", 0.4)).figures["fibre median"]
    assert freed.value == pytest.approx(plain.value - 0.4 * UM_PER_PX, abs=0.02)
    assert freed.systematic < 0.75 * plain.systematic
    assert freed.value == pytest.approx(mat(**how).width_at(0.5) * UM_PER_PX, rel=0.05)


@pytest.mark.parametrize(
    ("style", "light", "deep"),
    [
        ("ribbon", "above", ((0.6, 1.5), (0.4, 2.5))),
        ("round", "above", ((0.75, 1.5), (0.5, 2.5))),
        ("ribbon", "above", ((0.75, 3.0), (0.5, 6.0))),
        ("round", "below", ((0.75, 3.0), (0.5, 6.0))),
    ],
    ids=str,
)
def test_bright_deep_layers_are_refused(style, light, deep):
    got = seen(style=style, light=light, deep=deep, **FIELD)
    assert got.verdict == "refused"
    assert any("layers cannot be told apart" in reason for reason in got.reasons)
    assert got.figures == {}


@pytest.mark.parametrize(
    ("spoiled", "reason"),
    [
        ({"exposure": 0.01}, "too dark"),
        ({"exposure": 3.0}, "pure white"),
        ({"vignette": 12.0}, "too uneven"),
        ({"blur": 4.5}, "blurred"),
        ({"width": 4.0}, "too few pixels wide"),
        ({"style": "core", "light": "below", "width": 18.0}, "does not look like fibres"),
        ({"width": 26.0}, "too few openings"),
    ],
    ids=str,
)
def test_bad_pictures_are_refused(spoiled, reason):
    got = seen(**{**FIELD, **spoiled})
    assert got.verdict == "refused"
    assert any(reason in why for why in got.reasons), got.reasons
    assert not got.figures
    assert got.histogram is None


@pytest.mark.parametrize("kind", ["even", "noise", "grain"])
def test_no_fibres_no_figures(kind):
    rng = np.random.default_rng(1)
    light = np.full((300, 400), 0.5, np.float32)
    if kind != "even":
        light += rng.normal(0, 0.1, light.shape).astype(np.float32)
    if kind == "grain":
        light = np.kron(light[::6, ::6], np.ones((6, 6), np.float32))
    got = measure(GreyPicture(np.clip(light, 0, 1), 400, 300, 8, False, 1, "PNG"), SETUP)
    assert got.verdict == "refused"
    assert got.reasons


def test_harmless_spoiling_leaves_d50():
    plain = seen(**FIELD).figures["D50"].value
    for how in ({"noise": 0.04, "vignette": 3.0}, {"jpeg": 40, "sharpened": 1.0}):
        assert seen(**how, **FIELD).figures["D50"].value == pytest.approx(plain, rel=0.03), how


def test_gates_are_told_with_value_and_limit():
    gates = {gate.key: gate for gate in seen(**FIELD).gates}
    assert set(gates) >= {
        "brightness", "white", "evenness", "contrast", "sharpness", "pixels a fibre",
        "fibre-like", "level swing", "open area swing", "soft edges", "openings across",
    }  # fmt: skip
    assert all(gate.outcome == "passed" for gate in gates.values()), gates
    assert gates["evenness"].value == pytest.approx(1.5, rel=0.3)


def test_quick_gates_need_no_fibres():
    outcomes = [gate.outcome for gate in quick_gates(mat(exposure=0.01, **FIELD).picture)]
    assert outcomes == ["refused", "passed", "passed"]


def test_every_part_of_the_uncertainty_is_there():
    figures = seen(**FIELD).figures
    d50, median = figures["D50"], figures["fibre median"]
    assert d50.calibration == pytest.approx(0.01 * d50.value)
    assert d50.u == pytest.approx(np.sqrt(d50.sampling**2 + d50.systematic**2 + d50.calibration**2))
    assert median.sampling > figures["fibre mean"].sampling > 0
    assert figures["open area"].calibration == 0


def test_histogram_holds_all_length():
    histogram = seen(**FIELD).histogram
    assert histogram is not None
    assert sum(histogram.shares) == pytest.approx(1.0)
    assert len(histogram.edges) == len(histogram.shares) + 1


def test_a_blend_shows_two_heaps():
    how = {"width": 10.0, "second_width": 24.0, "spread": 0.06, "size": (800, 600)}
    histogram = seen(**how).histogram
    assert histogram is not None
    middles = np.array(histogram.edges[:-1]) + np.diff(histogram.edges) / 2
    shares = np.array(histogram.shares)
    thin = shares[np.abs(middles / UM_PER_PX - 10) < 3].sum()
    thick = shares[np.abs(middles / UM_PER_PX - 24) < 5].sum()
    assert thin > 0.2
    assert thick > 0.2
    assert thin + thick > 0.85


def test_lengths_scale_with_the_scale():
    twice = measure(mat(**FIELD).picture, SetUp(Scale(2 * UM_PER_PX)))
    for key, figure in seen(**FIELD).figures.items():
        factor = 1 if key == "open area" else 2
        assert twice.figures[key].value == pytest.approx(factor * figure.value)


def test_steps_are_told_and_can_stop():
    told = []
    measure(mat(**FIELD).picture, SETUP, lambda done, total, _what: told.append((done, total)))
    assert told == [(i, 5) for i in range(5)]

    def stop(done: int, total: int, what: str) -> None:
        if done == 2:
            raise InterruptedError

    with pytest.raises(InterruptedError):
        measure(mat(**FIELD).picture, SETUP, stop)


@pytest.mark.parametrize("seed", [4])
def test_cylinders_in_a_box(seed):
    box = projected(Box(seed=seed))
    got = measure(box.picture, SETUP)
    assert got.verdict == "measured", got.reasons
    assert got.light == "above"
    true = openings(~box.mask)
    assert got.figures["D50"].value == pytest.approx(true.d50 * UM_PER_PX, rel=0.06)
    assert got.figures["open area"].value == pytest.approx(1 - box.mask.mean(), abs=0.04)
    mean = got.figures["fibre mean"]
    assert mean.value == pytest.approx(box.mean_diameter * UM_PER_PX, rel=0.10)
