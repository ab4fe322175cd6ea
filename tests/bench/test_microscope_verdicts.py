"""How often two sets of fields are called different, when they are and when they are not.

First fields as draws from a normal law, by spread and number of fields. Then openings of drawn
mats, whose fields spread as random fibres make them: each trial takes its fields anew from those
drawn. Both at the full 1,000 trials; the ordinary tests hold the first kind alone.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.microscope.comparing import opening_difference
from benchlog.microscope.figures import Scale, opening_figures
from benchlog.microscope.openings import openings
from tests.microscope.drawn_fibres import Mat, fibres, laid

TRIALS = 1000
GAP = 0.20
SIZE = (800, 600)
FIELDS_DRAWN = 30
THIN = 3.0
"""Pixels a fibre, so that a small field holds as many openings as twelve megapixels do at 14."""

Sets = Callable[[np.random.Generator], tuple[list[float], list[float]]]


def called_different(sets: Sets, stated: float | None) -> float:
    """Share of trials in which two sets of fields are called different."""
    rng = np.random.default_rng(5)
    called = 0
    for _ in range(TRIALS):
        first, second = sets(rng)
        called += opening_difference(first, second, sampling=stated).answer != "cannot tell"
    return called / TRIALS


def normal(gap: float, spread: float, count: int) -> Sets:
    """Fields that spread normally by a share of their mean, the second medium's larger by `gap`."""

    def sets(rng: np.random.Generator) -> tuple[list[float], list[float]]:
        first, second = 50.0 * (1.0 + spread * rng.standard_normal((2, count)))
        return first.tolist(), ((1.0 + gap) * second).tolist()

    return sets


def by_normal_law() -> list[str]:
    rows = [f"{'spread of fields':<22}fields   one medium   a fifth apart   by fields alone"]
    for spread in (0.04, 0.06, 0.08, 0.10):
        for count in (3, 4, 6):
            false = called_different(normal(0.0, spread, count), spread)
            told = called_different(normal(GAP, spread, count), spread)
            alone = called_different(normal(GAP, spread, count), None)
            rows.append(f"{spread:<22.0%}{count:<9}{false:<13.1%}{told:<16.1%}{alone:.1%}")
            assert false < 0.05
            if spread <= 0.06:
                assert told > 0.80
    return rows


def drawn_fields() -> tuple[np.ndarray, float]:
    """D50 in pixels of fields of one medium, and their typical stated sampling."""
    sizes, stated = [], []
    for seed in range(500, 500 + FIELDS_DRAWN):
        mat = Mat(width=THIN, size=SIZE, seed=seed)
        rng = np.random.default_rng(seed)
        owner, _ = laid(np.zeros(SIZE[::-1], np.float32), mat, fibres(mat, rng, 0.6), 1.0)
        made = opening_figures(openings(owner < 0), 0.6, Scale(1.0), float(SIZE[0] * SIZE[1]))
        d50 = next(figure for figure in made if figure.key == "D50")
        sizes.append(d50.value)
        stated.append(d50.sampling / d50.value)
    return np.array(sizes), float(np.median(stated))


def by_drawn_mats() -> list[str]:
    sizes, stated = drawn_fields()

    def apart(gap: float) -> Sets:
        def sets(rng: np.random.Generator) -> tuple[list[float], list[float]]:
            six = rng.choice(sizes, 6, replace=False)
            return six[:3].tolist(), ((1.0 + gap) * six[3:]).tolist()

        return sets

    false, told = called_different(apart(0.0), stated), called_different(apart(GAP), stated)
    spread = float(np.std(sizes, ddof=1) / sizes.mean())
    assert false < 0.05
    assert told > 0.80
    return [
        f"drawn mats, {FIELDS_DRAWN} fields: D50 spreads by {spread:.1%}, stated {stated:.1%}",
        f"three fields each: one medium called two in {false:.1%}, a fifth apart in {told:.1%}",
    ]


@pytest.mark.timeout(900)
def test_verdicts_by_simulation(benchmark: BenchmarkFixture) -> None:
    if benchmark.disabled:
        pytest.skip("thousands of trials: run with --benchmark-only")
    rows = benchmark.pedantic(lambda: by_normal_law() + by_drawn_mats(), rounds=1, iterations=1)
    print("\n" + "\n".join(rows))
    benchmark.extra_info["rows"] = rows
