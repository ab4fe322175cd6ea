"""How long a million draws of twelve figures take, against plain numpy with as many draws."""

from __future__ import annotations

import time
from statistics import median
from typing import Any

import numpy
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.derive.all_figures import FORMULAS, figures_of
from benchlog.derive.cross_check import draw_figure
from benchlog.derive.figure import Figure
from benchlog.derive.inputs import Common, Inputs
from benchlog.derive.working import from_si
from benchlog.measure.monte_carlo import Draws, interval
from benchlog.measure.part import Spread, part_of
from benchlog.trade.conditions import usual_conditions
from tests.bench.reference_models import MODELS
from tests.bench.six_specimens import Ready, six_specimens

TRIALS = 1_000_000
ROUNDS = 3
DOZEN = tuple((kind, formula) for kind, formula in FORMULAS if kind.key in MODELS)
ASSUMED = {"fibre_width_share": "width_share"}
"""Names of assumptions in the models, where they differ from the figures' own."""

Ends = dict[str, tuple[float, float]]


def our_ends(ready: Ready, figures: dict[str, Figure]) -> Ends:
    """Draw each figure, and return its 95 % interval in SI."""
    inputs = Inputs(ready.findings, ready.specimen, usual_conditions(), Common())
    found = {}
    for kind, formula in DOZEN:
        drawn = draw_figure(figures[kind.key], formula, inputs, Draws(TRIALS))
        low, high = interval(drawn)
        found[kind.key] = low / from_si(kind.unit), high / from_si(kind.unit)
    return found


def plain_ends(figures: dict[str, Figure]) -> Ends:
    """The same in plain numpy: whole arrays, the same generator, one draw of each variable."""
    found = {}
    for key, model in MODELS.items():
        stream = numpy.random.Generator(numpy.random.SFC64(7))
        drawn: dict[Any, Any] = {}
        numbers = {
            ASSUMED.get(term.key, term.key): plainly_drawn(term.number, drawn, stream)
            for term in figures[key].terms
        }
        low, high = numpy.quantile(model(numbers), (0.025, 0.975))
        found[key] = float(low), float(high)
    return found


def plainly_drawn(number: Any, drawn: dict[Any, Any], stream: numpy.random.Generator) -> Any:
    """Draws of a number from those of its variables, each drawn once."""
    total = getattr(number, "nominal_value", number)
    for variable, slope in getattr(number, "derivatives", {}).items():
        if variable not in drawn:
            drawn[variable] = of_variable(variable, stream)
        total = total + slope * drawn[variable]
    return total


def of_variable(variable: Any, stream: numpy.random.Generator) -> Any:
    part, u = part_of(variable.tag), variable.std_dev
    if part.spread is Spread.RECTANGULAR:
        half = u * 3**0.5
        return stream.uniform(-half, half, TRIALS)
    assert part.spread is Spread.REPEATS
    return u * stream.standard_t(part.freedom, TRIALS)


def test_draws_against_plain_numpy(benchmark: BenchmarkFixture) -> None:
    ready = six_specimens()[0]
    figures = figures_of(ready.findings, ready.specimen)

    ours = benchmark.pedantic(our_ends, (ready, figures), rounds=1)

    for key, ends in plain_ends(figures).items():
        width = ends[1] - ends[0]
        assert ours[key] == pytest.approx(ends, abs=0.01 * width)
    if benchmark.stats is not None:
        taken: dict[str, list[float]] = {"ours": [], "plain": []}
        for _ in range(ROUNDS):
            for name, side in (
                ("ours", lambda: our_ends(ready, figures)),
                ("plain", lambda: plain_ends(figures)),
            ):
                began = time.process_time()
                side()
                taken[name].append(time.process_time() - began)
        ratio = median(taken["ours"]) / median(taken["plain"])
        benchmark.extra_info["ours_s"] = round(median(taken["ours"]), 2)
        benchmark.extra_info["plain_s"] = round(median(taken["plain"]), 2)
        benchmark.extra_info["ratio_to_plain"] = round(ratio, 2)
        print(f"\na million draws of twelve figures: {ratio:.2f} times plain numpy")
