"""What the command line says: plain numbers and words."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from benchlog.errors import EntryRefused, PictureRefused, ScaleRefused
from benchlog.microscope.answers import measure_picture, measure_scale
from benchlog.microscope.figures import Scale
from benchlog.microscope.measure import SetUp, measure
from benchlog.microscope.overlay import overlay_of
from benchlog.microscope.picture import GreyPicture, coded
from tests.microscope import drawn_scale
from tests.microscope.drawn_fibres import Mat, drawn


@pytest.fixture(scope="module")
def field(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("fields") / "field.png"
    Image.fromarray(drawn(Mat(size=(480, 360), width=11.0, seed=2)).coded).save(path)
    return path


@pytest.fixture(scope="module")
def ruler(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("scales") / "ruler.png"
    light = drawn_scale.drawn(drawn_scale.Scale(period=20.0)).light
    Image.fromarray(coded(light).round().astype(np.uint8)).save(path)
    return path


def test_a_picture_answers_in_json(field):
    got = measure_picture(field, 0.5, light="above", u_um_per_px=0.005)
    assert json.loads(json.dumps(got)) == got
    assert got["verdict"] == "measured"
    assert set(got["figures"]) >= {"D50", "D90", "D95", "open area", "fibre median"}
    d50 = got["figures"]["D50"]
    assert d50["u"] > d50["u_calibration"] == pytest.approx(0.01 * d50["value"])
    assert "no micron rating" in got["beside"]
    assert got["gates"]["sharpness"]["outcome"] == "passed"
    again = measure_picture(field, SetUp(Scale(0.5, 0.005), "above"))
    assert again == got


def test_a_refusal_says_why(field, tmp_path: Path):
    dark = tmp_path / "dark.png"
    with Image.open(field) as image:
        image.point(lambda v: v // 8).save(dark)
    got = measure_picture(dark, 0.5)
    assert got["verdict"] == "refused"
    assert any("too dark" in reason for reason in got["reasons"])
    assert got["figures"] == {}
    assert json.loads(json.dumps(got, allow_nan=False)) == got


@pytest.mark.parametrize("scale", [0.0, -1.0, float("nan"), float("inf")])
def test_no_scale_no_micrometres(field, scale):
    with pytest.raises(EntryRefused, match="no scale"):
        measure_picture(field, scale)


def test_odd_light_and_uncertainty_are_refused(field):
    with pytest.raises(EntryRefused, match="no direction of light"):
        measure_picture(field, 0.5, light="left")  # type: ignore[arg-type]
    with pytest.raises(EntryRefused, match="no uncertainty"):
        measure_picture(field, 0.5, u_um_per_px=-1.0)


def test_a_scale_answers_in_json(ruler):
    got = measure_scale(ruler, 10.0)
    assert json.loads(json.dumps(got)) == got
    assert got["px_per_division"] == pytest.approx(20.0, rel=1e-3)
    assert got["um_per_px"] == pytest.approx(0.5, rel=1e-3)
    assert got["lines_missing"] == 0


def test_a_scale_needs_its_division(ruler, field):
    with pytest.raises(EntryRefused, match="no division"):
        measure_scale(ruler, 0.0)
    with pytest.raises(ScaleRefused):
        measure_scale(field, 10.0)
    with pytest.raises(PictureRefused):
        measure_scale(ruler.parent / "none.png", 10.0)


def test_the_overlay_lies_on_the_fibres():
    mat = drawn(Mat(size=(480, 360), width=11.0, seed=2))
    seen = measure(mat.picture, SetUp(Scale(0.5)))
    assert seen.working is not None
    overlay = overlay_of(seen.working, most_circles=40)
    middles = np.concatenate(overlay.centrelines).round().astype(int)
    assert mat.mask[middles[:, 1], middles[:, 0]].mean() > 0.97
    assert len(overlay.circles) == 40
    centres = overlay.circles.round().astype(int)
    assert not mat.mask[centres[:, 1], centres[:, 0]].any()
    assert len(overlay.outlines) > 10


def test_the_overlay_of_a_reduced_picture_is_the_files():
    mat = drawn(Mat(size=(480, 360), width=11.0, seed=2))
    halved = GreyPicture(mat.picture.light, 960, 720, 8, False, 2, "JPEG")
    whole, twice = (measure(p, SetUp(Scale(0.5))) for p in (mat.picture, halved))
    assert whole.working is not None
    assert twice.working is not None
    assert overlay_of(twice.working).circles[:, 2] == pytest.approx(
        2 * overlay_of(whole.working).circles[:, 2]
    )
    assert twice.figures["D50"].value == pytest.approx(2 * whole.figures["D50"].value)


def test_refused_pictures_still_show_their_mask():
    dark = drawn(Mat(size=(320, 240), width=11.0, exposure=0.01))
    seen = measure(dark.picture, SetUp(Scale(0.5)))
    assert seen.working is not None
    assert overlay_of(seen.working).outlines
