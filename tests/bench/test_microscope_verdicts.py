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
SIZE = (800, 600)
FIELDS_DRAWN = 20
THIN, THICK = 5.0, 6.0
"""Fibre widths of two media: openings grow with them, so that these lie a fifth apart."""

Fields = Callable[[np.random.Generator, int], list[float]]


def called_different(first: Fields, second: Fields, count: int, stated: float | None) -> float:
    """Share of trials in which `count` fields of each are called different."""
    rng = np.random.default_rng(5)
    called = 0
    for _ in range(TRIALS):
        one, other = first(rng, count), second(rng, count)
        called += opening_difference(one, other, sampling=stated).answer != "cannot tell"
    return called / TRIALS


def normal(middle: float, spread: float) -> Fields:
    """Fields that spread normally by a share of their mean."""
    return lambda rng, count: (middle * (1 + spread * rng.standard_normal(count))).tolist()


def by_normal_law() -> list[str]:
    rows = [f"{'spread of fields':<22}fields   one medium   a fifth apart   by fields alone"]
    for spread in (0.04, 0.06, 0.08, 0.10):
        for count in (3, 4, 6):
            one, other = normal(50.0, spread), normal(60.0, spread)
            false = called_different(one, one, count, spread)
            told = called_different(one, other, count, spread)
            alone = called_different(one, other, count, None)
            rows.append(f"{spread:<22.0%}{count:<9}{false:<13.1%}{told:<16.1%}{alone:.1%}")
            assert false < 0.05
            if spread <= 0.06:
                assert told > 0.80
    return rows


def drawn_fields(width: float, first_seed: int) -> tuple[np.ndarray, float]:
    """D50 in pixels of fields of one medium, and their typical stated sampling."""
    sizes, stated = [], []
    for seed in range(first_seed, first_seed + FIELDS_DRAWN):
        mat = Mat(width=width, size=SIZE, seed=seed)
        rng = np.random.default_rng(seed)
        owner, _ = laid(np.zeros(SIZE[::-1], np.float32), mat, fibres(mat, rng, 0.6), 1.0)
        found = openings(owner < 0)
        made = opening_figures(found, 0.6, Scale(1.0), float(SIZE[0] * SIZE[1]))
        d50 = next(figure for figure in made if figure.key == "D50")
        sizes.append(d50.value)
        stated.append(d50.sampling / d50.value)
    return np.array(sizes), float(np.median(stated))


def taken(sizes: np.ndarray) -> Fields:
    return lambda rng, count: rng.choice(sizes, count, replace=False).tolist()


def by_drawn_mats() -> list[str]:
    (thin, stated), (thick, _) = drawn_fields(THIN, 500), drawn_fields(THICK, 600)
    rng = np.random.default_rng(9)

    def halves(values: np.ndarray) -> tuple[Fields, Fields]:
        mixed = rng.permutation(values)
        return taken(mixed[::2]), taken(mixed[1::2])

    false = float(np.mean([called_different(*halves(thin), 3, stated) for _ in range(4)]))
    told = called_different(taken(thin), taken(thick), 3, stated)
    spread = float(np.std(thin, ddof=1) / thin.mean())
    assert false < 0.05
    assert told > 0.80
    return [
        f"drawn mats, {FIELDS_DRAWN} fields of each medium: D50 spreads by {spread:.1%}, stated "
        f"{stated:.1%}, media {thick.mean() / thin.mean() - 1:.0%} apart",
        f"three fields each: one medium called two in {false:.1%}, two told apart in {told:.1%}",
    ]


@pytest.mark.timeout(900)
def test_verdicts_by_simulation(benchmark: BenchmarkFixture) -> None:
    if benchmark.disabled:
        pytest.skip("thousands of trials: run with --benchmark-only")
    rows = benchmark.pedantic(lambda: by_normal_law() + by_drawn_mats(), rounds=1, iterations=1)
    print("\n" + "\n".join(rows))
    benchmark.extra_info["rows"] = rows
