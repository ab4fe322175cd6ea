"""How long figures with uncertainty take, against the same models in three other libraries."""

from __future__ import annotations

import time
from collections.abc import Callable
from statistics import median
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from benchlog.derive.all_figures import FIGURE_KINDS, FORMULAS, figures_of
from benchlog.derive.figure import Figure
from benchlog.derive.inputs import Common, Inputs
from benchlog.derive.working import from_si, work
from benchlog.trade.conditions import usual_conditions
from benchlog.trade.material import fibre_density_of
from tests.bench.reference_models import LIBRARIES, MODELS, Library, inputs_for, worked
from tests.bench.six_specimens import COUNT, Ready, six_specimens

ROUNDS = 15
DOZEN = tuple((kind, formula) for kind, formula in FORMULAS if kind.key in MODELS)


def fibre() -> tuple[float, float]:
    stated = fibre_density_of("cellulose")
    assert stated is not None
    return stated.low_kg_m3, stated.high_kg_m3


def our_dozen(bench: tuple[Ready, ...]) -> list[dict[str, tuple[float, float]]]:
    """The twelve figures of each specimen, value and u in SI: as `figures_of` works them."""
    common, conditions = Common(), usual_conditions()
    found = []
    for ready in bench:
        inputs = Inputs(ready.findings, ready.specimen, conditions, common)
        made = [work(kind, formula, inputs.afresh()) for kind, formula in DOZEN]
        found.append({figure.kind.key: in_si(figure) for figure in made})
    return found


def in_si(figure: Figure) -> tuple[float, float]:
    assert figure.quantity is not None, figure.refusal
    magnitude, factor = figure.quantity.magnitude, from_si(figure.kind.unit)
    return magnitude.nominal_value / factor, magnitude.std_dev / factor


def agree(ours: list[dict[str, Any]], theirs: list[dict[str, Any]]) -> None:
    for mine, other in zip(ours, theirs, strict=True):
        assert mine.keys() == other.keys() == MODELS.keys()
        for key, (value, u) in mine.items():
            assert value == pytest.approx(other[key][0], rel=1e-9)
            assert u == pytest.approx(other[key][1], rel=1e-9)
            assert u > 0.0


def timed(work: Callable[[], object], into: list[float]) -> None:
    began = time.perf_counter()
    work()
    into.append(time.perf_counter() - began)


@pytest.mark.parametrize("library", LIBRARIES, ids=lambda library: library.name)
def test_dozen_figures_against_a_library(library: Library, benchmark: BenchmarkFixture) -> None:
    bench = six_specimens()
    numbers, density = inputs_for(library, bench), fibre()
    agree(our_dozen(bench), worked(library, numbers, density))
    theirs_s: list[float] = []

    def theirs_first() -> tuple[tuple[object, ...], dict[str, object]]:
        timed(lambda: worked(library, numbers, density), theirs_s)
        return (bench,), {}

    benchmark.pedantic(our_dozen, setup=theirs_first, rounds=ROUNDS, iterations=1)

    if benchmark.stats is not None:
        ratio = benchmark.stats.stats.median / median(theirs_s)
        benchmark.extra_info["theirs_median_ms"] = round(median(theirs_s) * 1000, 2)
        benchmark.extra_info["ratio_to_theirs"] = round(ratio, 2)
        print(f"\ntwelve figures of six: {ratio:.2f} times {library.name}")


def test_all_figures_of_six_specimens(benchmark: BenchmarkFixture) -> None:
    """Every figure; per figure, against one of the twelve in the fastest library."""
    bench = six_specimens()
    numbers, density = {a.name: inputs_for(a, bench) for a in LIBRARIES}, fibre()
    theirs_s: dict[str, list[float]] = {library.name: [] for library in LIBRARIES}

    def all_of_them() -> list[dict[str, Figure]]:
        common = Common()
        return [figures_of(r.findings, r.specimen, None, common) for r in bench]

    def theirs_first() -> tuple[tuple[object, ...], dict[str, object]]:
        for a in LIBRARIES:
            timed(lambda a=a: worked(a, numbers[a.name], density), theirs_s[a.name])
        return (), {}

    found = benchmark.pedantic(all_of_them, setup=theirs_first, rounds=ROUNDS, iterations=1)

    worked_out = sum(f.quantity is not None for each in found for f in each.values())
    assert all(len(each) == len(FIGURE_KINDS) for each in found)
    assert worked_out >= COUNT * 40
    if benchmark.stats is not None:
        each = benchmark.stats.stats.median / worked_out
        per = {name: median(s) / (COUNT * len(MODELS)) for name, s in theirs_s.items()}
        told = {name: round(each / theirs, 2) for name, theirs in per.items()}
        benchmark.extra_info["figures"] = worked_out
        benchmark.extra_info["each_us"] = round(each * 1e6)
        benchmark.extra_info["times_one_of_theirs"] = told
        print(f"\nall {worked_out} figures: {each * 1e6:.0f} µs each, times one of theirs: {told}")
