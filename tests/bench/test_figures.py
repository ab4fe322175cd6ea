"""How long figures with uncertainty take, against the same models in three other libraries.

Processor time throughout, the two sides in turn: other work on the machine is not ours.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import partial
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

ROUNDS = 25
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


def in_turn(*sides: Callable[[], object]) -> list[float]:
    """Return each side's median processor time in seconds, round by round in turn."""
    taken: list[list[float]] = [[] for _ in sides]
    for _ in range(ROUNDS):
        for side, into in zip(sides, taken, strict=True):
            began = time.process_time()
            side()
            into.append(time.process_time() - began)
    return [median(each) for each in taken]


@pytest.mark.parametrize("library", LIBRARIES, ids=lambda library: library.name)
def test_dozen_figures_against_a_library(library: Library, benchmark: BenchmarkFixture) -> None:
    """Theirs give value and u; ours with slopes, bounds, readings, assumptions and warnings."""
    bench = six_specimens()
    numbers, density = inputs_for(library, bench), fibre()

    agree(benchmark(our_dozen, bench), worked(library, numbers, density))

    if benchmark.stats is not None:
        ours, theirs = in_turn(lambda: our_dozen(bench), lambda: worked(library, numbers, density))
        benchmark.extra_info["ours_ms"] = round(ours * 1000, 2)
        benchmark.extra_info["theirs_ms"] = round(theirs * 1000, 2)
        benchmark.extra_info["ratio_to_theirs"] = round(ours / theirs, 2)
        print(f"\ntwelve figures of six: {ours / theirs:.2f} times {library.name}")


def test_all_figures_of_six_specimens(benchmark: BenchmarkFixture) -> None:
    """Every figure there is, against the twelve alone in each library."""
    bench = six_specimens()
    numbers, density = [inputs_for(library, bench) for library in LIBRARIES], fibre()

    def all_of_them() -> list[dict[str, Figure]]:
        common = Common()
        return [figures_of(r.findings, r.specimen, None, common) for r in bench]

    found = benchmark(all_of_them)

    worked_out = sum(f.quantity is not None for each in found for f in each.values())
    assert all(len(each) == len(FIGURE_KINDS) for each in found)
    assert worked_out >= COUNT * 40
    if benchmark.stats is not None:
        sides = zip(LIBRARIES, numbers, strict=True)
        ours, *theirs = in_turn(
            all_of_them, *(partial(worked, library, each, density) for library, each in sides)
        )
        told = {a.name: round(ours / s, 2) for a, s in zip(LIBRARIES, theirs, strict=True)}
        benchmark.extra_info["figures"] = worked_out
        benchmark.extra_info["ours_ms"] = round(ours * 1000, 2)
        benchmark.extra_info["ratio_to_twelve_of_theirs"] = told
        print(f"\nall {worked_out} figures: {ours * 1000:.1f} ms, times twelve of theirs: {told}")
