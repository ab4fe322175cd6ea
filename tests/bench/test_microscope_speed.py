"""Covering circles and the whole analysis on twelve million pixels, against bare libraries.

The circles, on a quarter of them: scikit-image has no local thickness, so its side is the same
definition by two of its openings by discs, at the answers for D10 and D50 alone, which flatters
it. The analysis: against decoding the same file and one exact distance map by SciPy, in the same
run. Only ratios mean anything.
"""

from __future__ import annotations

import io
import time
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from pytest_benchmark.fixture import BenchmarkFixture
from scipy.ndimage import distance_transform_edt
from skimage.morphology import disk, opening

from benchlog.microscope.figures import Scale
from benchlog.microscope.measure import SetUp, measure
from benchlog.microscope.openings import openings
from benchlog.microscope.picture import read_picture
from tests.microscope.drawn_fibres import Mat, drawn

ROUNDS = 3


def twelve_megapixels() -> tuple[np.ndarray, np.ndarray]:
    """A picture of 4000 × 3000 pixels and its true mask, mirrored together from a smaller one."""
    made = drawn(Mat(size=(1000, 750), vignette=1.0, width=14.0, open_share=0.55, seed=6))

    def mirrored(small: np.ndarray) -> np.ndarray:
        wide = np.hstack([small, small[:, ::-1]] * 2)
        return np.vstack([wide, wide[::-1]] * 2)

    return mirrored(made.coded), mirrored(made.mask)


def by_disc(open_mask: np.ndarray, radius: float) -> float:
    """Share of the open area that an opening by a disc leaves, by scikit-image."""
    left = opening(open_mask, disk(round(radius), decomposition="sequence"))
    return float(left.sum() / open_mask.sum())


@pytest.mark.timeout(900)
def test_covering_circles(benchmark: BenchmarkFixture) -> None:
    if benchmark.disabled:
        pytest.skip("twelve million pixels: run with --benchmark-only")
    open_mask = ~twelve_megapixels()[1][:1500, :2000]
    found = benchmark.pedantic(openings, (open_mask,), rounds=ROUNDS, iterations=1)
    began = time.perf_counter()
    shares = [by_disc(open_mask, d / 2) for d in (found.d10, found.d50)]
    theirs = time.perf_counter() - began
    ratio = benchmark.stats.stats.median / theirs
    benchmark.extra_info["ratio_to_skimage"] = round(ratio, 3)
    print(f"\ncovering circles: {ratio:.3f} times two of scikit-image's openings by discs")
    print(f"shares left by those discs: {[round(s, 3) for s in shares]} (0.90, 0.50)")
    assert shares == pytest.approx([0.90, 0.50], abs=0.05)


@pytest.mark.timeout(900)
def test_whole_analysis(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    if benchmark.disabled:
        pytest.skip("twelve million pixels: run with --benchmark-only")
    coded, mask = twelve_megapixels()
    path = tmp_path / "field.jpg"
    Image.fromarray(coded).save(path, "JPEG", quality=92)

    def analysed() -> str:
        return measure(read_picture(path), SetUp(Scale(1.0), "above")).verdict

    verdict = benchmark.pedantic(analysed, rounds=ROUNDS, iterations=1)
    bare = []
    for _ in range(ROUNDS):
        began = time.perf_counter()
        with Image.open(io.BytesIO(path.read_bytes())) as image:
            values = np.asarray(image.convert("L"))
        distance_transform_edt(values > 60)
        bare.append(time.perf_counter() - began)
    ratio = benchmark.stats.stats.median / float(np.median(bare))
    benchmark.extra_info["ratio_to_bare"] = round(ratio, 2)
    print(f"\nwhole analysis: {ratio:.2f} times decoding and one distance map (aim: at most 4)")
    assert verdict == "measured"
    assert mask.size == coded.size
