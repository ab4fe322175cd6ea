"""How far the microscope's figures lie from the truth, condition by condition, and what is refused.

Drawn mats and cylinders in a box, the same for every run. Errors are measured less true for the
very fibres in the picture. Beneath the table: how often the stated intervals hold the truth, of
the picture and of the medium that it is a field of. Printed and kept with the benchmark.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.errors import ScaleRefused
from benchlog.microscope.figures import Scale
from benchlog.microscope.measure import Measured, SetUp, measure
from benchlog.microscope.openings import openings
from benchlog.microscope.scale import find_scale
from tests.bench.accuracy_cases import LARGE, LOOKS, SMALL, SPREAD, Case, cases
from tests.microscope import drawn_scale
from tests.microscope.drawn_fibres import Drawn, Mat, drawn
from tests.microscope.voxel_box import Box, Projected, projected

WORST_D50 = 15.0
ONE = SetUp(Scale(1.0))
KNOWN = 16.0
"""Pixels across the reference fibres, all alike."""

COLUMNS = ("D50", "open area", "fibre mean", "fibre median", "D10", "D90")


@dataclass(frozen=True)
class Seen:
    """One picture: what was measured, and what is true of it."""

    case: Case
    got: Measured
    truth: dict[str, float]

    def error(self, key: str) -> float | None:
        """Return measured less true: points of open area, else per cent."""
        figure = self.got.figures.get(key)
        if figure is None:
            return None
        if key == "open area":
            return 100.0 * (figure.value - self.truth[key])
        return 100.0 * (figure.value / self.truth[key] - 1.0)


def truth_of(made: Drawn | Projected) -> dict[str, float]:
    """Return what is true of a drawing by geometry alone."""
    sizes = openings(~made.mask)
    many = made.widths if isinstance(made, Drawn) else made.diameters
    order = np.argsort(many)
    running = np.cumsum(made.lengths[order])

    def at(share: float) -> float:
        return float(np.interp(share * running[-1], running, many[order]))

    return {
        "D10": sizes.d10, "D50": sizes.d50, "D90": sizes.d90, "D95": sizes.d95,
        "open area": 1.0 - float(made.mask.mean()),
        "fibre mean": float(np.average(many, weights=made.lengths)),
        "fibre median": at(0.5), "fibre P10": at(0.1), "fibre P90": at(0.9),
    }  # fmt: skip


def seen(case: Case, mat: Mat | Box) -> Seen:
    made = projected(mat) if isinstance(mat, Box) else drawn(mat)
    return Seen(case, measure(made.picture, ONE), truth_of(made))


def row(case: Case, of_it: list[Seen]) -> str:
    refused = sum(one.got.verdict == "refused" for one in of_it)
    cells = []
    for key in COLUMNS:
        errors = [e for one in of_it if (e := one.error(key)) is not None]
        cells.append(f"{'/'.join(f'{e:+.1f}' for e in errors) or '-':>13}")
    return f"{case.look + ': ' + case.name:<46}{refused}/{len(of_it)} " + "".join(cells)


@dataclass
class Held:
    """How often an interval of two standard uncertainties held the truth."""

    picture: list[bool] = field(default_factory=list)
    medium: list[bool] = field(default_factory=list)


def coverage(all_seen: list[Seen]) -> dict[str, Held]:
    """Return how often each figure's interval holds the picture's truth, and the medium's.

    The medium of plain mats: their open area and their widths are what was drawn from; their D50
    is that of all plain mats together, in fibre widths.
    """
    plain = [one for one in all_seen if one.case.plain]
    of_width = float(np.mean([one.truth["D50"] / one.case.width for one in plain]))
    open_share = float(np.mean([one.truth["open area"] for one in plain]))
    held: dict[str, Held] = defaultdict(Held)
    for one in all_seen:
        width = one.case.width
        medium = {
            "D50": of_width * width,
            "open area": open_share,
            "fibre mean": width * float(np.exp(SPREAD**2 / 2.0)),
            "fibre median": width,
        }
        for key, figure in one.got.figures.items():
            reach = 2.0 * figure.u
            held[key].picture.append(abs(figure.value - one.truth[key]) <= reach)
            if one.case.plain and key in medium:
                held[key].medium.append(abs(figure.value - medium[key]) <= reach)
    return held


def told(held: dict[str, Held]) -> list[str]:
    rows = [f"{'within two standard uncertainties':<36}picture's truth   medium's truth"]
    for key, one in held.items():
        medium = f"{np.mean(one.medium):.0%} of {len(one.medium)}" if one.medium else "-"
        picture = f"{np.mean(one.picture):.0%} of {len(one.picture)}"
        rows.append(f"{key:<36}{picture:<18}{medium}")
    return rows


def table() -> tuple[list[str], list[Seen]]:
    """Return the rows of the table, the intervals' beneath it, and all pictures."""
    rows = [f"{'condition':<46}refused" + "".join(f"{name:>13}" for name in COLUMNS)]
    all_seen = []
    for case in cases():
        of_it = [seen(case, mat) for mat in case.mats]
        rows.append(row(case, of_it))
        all_seen += of_it
    return rows + told(coverage(all_seen)), all_seen


@pytest.mark.timeout(3600)
def test_accuracy_by_condition(benchmark: BenchmarkFixture) -> None:
    if benchmark.disabled:
        pytest.skip("a table of minutes: run with --benchmark-only")
    rows, all_seen = benchmark.pedantic(table, rounds=1, iterations=1)
    print("\n" + "\n".join(rows))
    benchmark.extra_info["rows"] = rows
    measured = [one for one in all_seen if one.got.verdict == "measured"]
    assert len(measured) > 50
    for one in measured:
        where = f"{one.case.look}: {one.case.name}"
        assert abs(one.error("D50") or 0.0) <= WORST_D50, where
        if "large" in one.case.name and one.case.look != "bright core, below":
            hold_the_aims(one, where)
    assert typical_median_error(measured) <= 6.0
    for key, held in coverage(all_seen).items():
        # 95 % and what chance may take off that in so many pictures.
        for inside in (held.picture, held.medium):
            low = 0.95 - 2.0 * (0.95 * 0.05 / max(len(inside), 1)) ** 0.5
            assert not inside or np.mean(inside) >= low, key


def hold_the_aims(one: Seen, where: str) -> None:
    """Hold what is promised of a sharp picture of 1280 × 960 pixels with separable layers."""
    assert abs(one.error("D50") or 0.0) <= 5.0, where
    if one.case.width >= 14.0:
        assert abs(one.error("open area") or 0.0) <= 3.0, where


def typical_median_error(measured: list[Seen]) -> float:
    """Return the root mean square error of the median diameter over looks, at 16 pixels a fibre.

    A single picture of some fifty fibres may be off by more than the aim: which of a fibre's
    stretches lie free is chance, and its stated sampling says so.
    """
    large = [one for one in measured if one.case.name == "16 px, large"]
    errors = [e for one in large if (e := one.error("fibre median")) is not None]
    assert len(errors) >= 4
    return float(np.sqrt(np.mean(np.square(errors))))


def with_reference() -> list[str]:
    """Return rows of median diameters at 11 pixels a fibre, without and with a known fibre.

    Flat fibres and those lit from below come within the aim. A round one lit from above does not:
    how round it is taken to be differs from picture to picture by more than the offset.
    """
    rows = [f"{'11 px and a reference fibre':<30}offset px   without, %   with, %"]
    for number, look in enumerate(("ribbon", "round", "round, below")):
        how = LOOKS[look]
        known = Mat(**{**how, "width": KNOWN, "spread": 0.0, "size": SMALL, "seed": 300 + number})  # type: ignore[arg-type]
        offset = measure(drawn(known).picture, ONE).figures["fibre median"].value - KNOWN
        made = drawn(Mat(**{**how, "width": 11.0, "size": LARGE, "seed": 320 + number}))  # type: ignore[arg-type]
        true = truth_of(made)["fibre median"]
        plain = measure(made.picture, ONE).figures["fibre median"]
        freed = measure(made.picture, SetUp(Scale(1.0), "automatic", offset))
        median = freed.figures["fibre median"]
        errors = [100.0 * (one.value / true - 1.0) for one in (plain, median)]
        rows.append(f"{look:<30}{offset:+.2f}       {errors[0]:+.1f}         {errors[1]:+.1f}")
        assert abs(median.value - true) <= 2.0 * median.u, look
        assert abs(errors[1]) <= (10.0 if look == "round" else 5.0), look
    return rows


@pytest.mark.timeout(1200)
def test_reference_fibre_at_eleven_pixels(benchmark: BenchmarkFixture) -> None:
    if benchmark.disabled:
        pytest.skip("half a minute: run with --benchmark-only")
    rows = benchmark.pedantic(with_reference, rounds=1, iterations=1)
    print("\n" + "\n".join(rows))
    benchmark.extra_info["rows"] = rows


SCALES: dict[str, dict[str, object]] = {
    "as it should be": {},
    "blur 4": {"blur": 4.0},
    "noise 0.1": {"noise": 0.1},
    "JPEG 30": {"jpeg": 30},
    "contrast 0.1": {"contrast": 0.1},
    "light fall-off 0.8": {"vignette": 0.8},
    "dirt": {"dirt": 20},
    "three lines missing": {"missing": (-3, 0, 5)},
    "turned 20 degrees": {"turned_deg": 20.0},
    "grid": {"grid": True},
    "15 lines": {"lines": 14},
    "only fifth marks left": {"period": 10.0, "blur": 4.0},
}


def scales() -> list[str]:
    rows = [f"{'stage micrometer':<28}refused  median and largest error, %"]
    rng = np.random.default_rng(3)
    for name, spoiled in SCALES.items():
        errors, refused = [], 0
        for seed in range(5):
            how = {"period": rng.uniform(12, 50), "turned_deg": rng.uniform(-5, 5), **spoiled}
            scale = drawn_scale.Scale(size=(1000, 750), seed=seed, **how)  # type: ignore[arg-type]
            try:
                found = find_scale(drawn_scale.drawn(scale)).px_per_division
            except ScaleRefused:
                refused += 1
                continue
            errors.append(100 * abs(found / scale.period - 1))
        said = f"{np.median(errors):.4f}  {max(errors):.4f}" if errors else "-"
        rows.append(f"{name:<28}{refused}/5      {said}")
        assert max(errors, default=0.0) <= 0.1, name
    return rows


@pytest.mark.timeout(600)
def test_scale_by_condition(benchmark: BenchmarkFixture) -> None:
    if benchmark.disabled:
        pytest.skip("a table of half a minute: run with --benchmark-only")
    rows = benchmark.pedantic(scales, rounds=1, iterations=1)
    print("\n" + "\n".join(rows))
    benchmark.extra_info["rows"] = rows
