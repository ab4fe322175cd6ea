"""How much of a pixel an outline covers, against areas by formula and another renderer."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw, ImageFont

from benchlog.sheet.cards.coverage import coverage
from benchlog.sheet.cards.letters import BOLD, REGULAR, outlines
from benchlog.sheet.cards.look import Area
from benchlog.sheet.cards.paths import Path, around, bar, circle, polygon, rectangle, ring
from benchlog.trade.resource_file import resources_folder


def total(path: Path, scale: float = 1.0) -> float:
    covered = coverage(path, scale)
    assert covered is not None
    return float(covered[2].sum())


def test_areas_are_those_of_the_formulas() -> None:
    # A circle of four cubic curves is larger than the true one by less than 3 in 10 000.
    assert total(circle(50.3, 40.7, 30)) == pytest.approx(math.pi * 900, rel=1e-3)
    assert total(ring(50, 50, 30, 10)) == pytest.approx(math.pi * (35**2 - 25**2), rel=1e-3)
    assert total(rectangle(Area(10.25, 10.5, 20, 20.125))) == pytest.approx(9.75 * 9.625)
    assert total(around(40, 40, (20,), 6)) == pytest.approx(1.5 * math.sqrt(3) * 400, abs=0.06)
    assert total(bar(10, 10, 40, 50, 8)) == pytest.approx(50 * 8, abs=0.06)


@given(
    st.lists(st.tuples(st.floats(0, 60), st.floats(0, 60)), min_size=3, max_size=3),
    st.sampled_from([0.5, 1.0, 2.0]),
)
def test_triangles_cover_half_their_cross_product(corners: list, scale: float) -> None:
    (ax, ay), (bx, by), (cx, cy) = corners
    area = abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay)) / 2
    path = polygon(corners)
    covered = coverage(path, scale)
    found = 0.0 if covered is None else covered[2].sum()
    # Corners are taken to a 1024th of a pixel: at most half that along 180 pixels of edge a scale.
    assert found == pytest.approx(area * scale**2, abs=180 * scale / 2048)


def test_no_share_leaves_nought_to_one() -> None:
    _, _, share = coverage(circle(20, 20, 10) + circle(24, 20, 10), 1.0) or (0, 0, np.array([2.0]))
    assert share.min() >= 0
    assert share.max() <= 1


def test_an_empty_path_covers_nothing() -> None:
    assert coverage((), 1.0) is None


@pytest.mark.parametrize("face", [REGULAR, BOLD])
@pytest.mark.parametrize("text", ["0123456789 ±−…", "AaBbRgQqØøÅÇç@&%", "Фильтр Ωμέγα", "אבגד ﺳﻼﻡ"])
def test_letters_match_another_renderer(face: str, text: str) -> None:
    for character in text.replace(" ", ""):
        size, x, baseline = 200, 60, 260
        canvas = Image.new("L", (460, 360))
        font = ImageFont.truetype(
            str(resources_folder() / "fonts" / face), size, layout_engine=ImageFont.Layout.BASIC
        )
        ImageDraw.Draw(canvas).text((x, baseline), character, fill=255, font=font, anchor="ls")
        theirs = np.asarray(canvas) / 255
        ours = np.zeros_like(theirs)
        covered = coverage(outlines(character, face, size, x, baseline), 1.0)
        assert covered is not None, character
        left, top, share = covered
        ours[top : top + share.shape[0], left : left + share.shape[1]] = share
        # That renderer moves stems to whole pixels; no part may be filled or empty for one alone.
        assert np.abs(ours - theirs).sum() < 0.06 * max(ours.sum(), 2000), character
