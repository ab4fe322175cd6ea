"""What every figure obeys: units, dimensions, the way it moves, and more doubt from more doubt."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.derive.all_figures import FORMULAS
from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import plain
from benchlog.derive.working import Formula, again, work
from benchlog.measure.finding import Finding
from benchlog.measure.unit_words import UNITS_SAID
from benchlog.measure.units import convert, registry
from tests.derive.found import u, value
from tests.derive.which_way import NEITHER, STILL, WAYS
from tests.derive.whole_bench import ATTRIBUTES, SHARE, inputs_of, whole_bench

BENCH = whole_bench()
NUMBERS = [(kind, formula) for kind, formula in FORMULAS if kind.unit]
EACH = pytest.mark.parametrize(("kind", "formula"), NUMBERS, ids=lambda x: getattr(x, "key", None))
FEW = settings(max_examples=10, deadline=None)
BASES = ("[length]", "[mass]", "[time]", "[temperature]", "[money]")


@st.composite
def benches(draw: st.DrawFn) -> dict[str, float]:
    """Sizes for the whole bench, every one a little larger or smaller."""
    sizes = {}
    for key, finding in BENCH.items():
        if finding.quantity is not None and ATTRIBUTES[key].dimension not in ("count", "turn"):
            best = finding.quantity.magnitude.nominal_value
            sizes[key] = best * draw(st.sampled_from((0.998, 0.999, 1.0, 1.001, 1.002)))
    return sizes


def other_units(key: str) -> list[str]:
    """Every unit in which the attribute may be said."""
    word = ATTRIBUTES[key].dimension or "count"
    return [unit for unit, (measures, _) in UNITS_SAID.items() if measures == word]


def in_unit(finding: Finding, unit: str) -> Finding:
    """The same finding as if it had been read in another unit, turned by factors alone."""
    assert finding.quantity is not None
    number, own = finding.quantity.magnitude, str(finding.quantity.units)
    factor = convert(1.0, own, unit)
    return replace(finding, quantity=registry().Quantity(number * factor, unit))


def but(bench: dict[str, Finding], finding: Finding) -> Inputs:
    return inputs_of({**bench, finding.attribute: finding})


@EACH
def test_every_input_may_be_said_in_every_unit(kind: FigureKind, formula: Formula) -> None:
    ours = work(kind, formula, inputs_of(BENCH))
    for key in (t.key for t in ours.terms if t.key in BENCH):
        for unit in other_units(key):
            theirs = work(kind, formula, but(BENCH, in_unit(BENCH[key], unit)))
            assert value(theirs, kind.unit) == pytest.approx(value(ours, kind.unit), rel=1e-9)
            assert u(theirs, kind.unit) == pytest.approx(u(ours, kind.unit), rel=1e-9)
            if ours.low is not None:
                assert (theirs.low, theirs.high) == pytest.approx((ours.low, ours.high), rel=1e-9)


@FEW
@given(factors=st.lists(st.floats(0.2, 5.0), min_size=5, max_size=5), sizes=benches())
def test_figure_scales_as_its_dimension(factors: list[float], sizes: dict[str, float]) -> None:
    """Another metre, kilogram, second, kelvin or currency: the number follows its unit."""
    bench = whole_bench(**sizes)
    for kind, formula in NUMBERS:
        inputs = inputs_of(bench)
        before = plain(formula(inputs))
        other = {k: used.best * scale_of(used.unit, factors) for k, used in inputs.used.items()}
        wanted = before * scale_of(kind.unit, factors)
        assert again(formula, inputs, **other) == pytest.approx(wanted, rel=1e-9), kind.key


def scale_of(unit: str, factors: list[float]) -> float:
    powers = dict(registry().Unit(unit).dimensionality) if unit else {}
    assert set(powers) <= set(BASES)
    scale = 1.0
    for base, factor in zip(BASES, factors, strict=True):
        scale *= factor ** powers.get(base, 0)
    return scale


def ways_of(key: str) -> dict[str, int]:
    return {each[1:]: 1 if each[0] == "+" else -1 for each in WAYS[key].split()}


def test_every_figure_is_known_to_move_or_says_why_not() -> None:
    assert WAYS.keys() | NEITHER.keys() == {kind.key for kind, _ in NUMBERS}
    assert not WAYS.keys() & NEITHER.keys()


@FEW
@given(sizes=benches(), by=st.floats(1.0001, 1.001))
def test_figure_moves_the_way_it_must(sizes: dict[str, float], by: float) -> None:
    bench = whole_bench(**sizes)
    for kind, formula in (each for each in NUMBERS if each[0].key not in NEITHER):
        inputs = inputs_of(bench)
        before = plain(formula(inputs))
        ways = ways_of(kind.key)
        assert ways.keys() | set(STILL.get(kind.key, "").split()) == inputs.used.keys()
        for key, way in ways.items():
            moved = inputs.best(key) * by if inputs.best(key) else by - 1.0
            after = again(formula, inputs, **{key: moved})
            assert (after - before) * way > 0, (kind.key, key)


@FEW
@given(sizes=benches(), factor=st.floats(1.01, 5.0))
def test_less_sure_input_never_makes_a_surer_figure(sizes: dict[str, float], factor: float) -> None:
    bench = whole_bench(**sizes)
    for kind, formula in NUMBERS:
        before = work(kind, formula, inputs_of(bench))
        for term in (t for t in before.terms if t.key in bench):
            after = work(kind, formula, but(bench, less_sure(bench[term.key], factor)))
            assert value(after, kind.unit) == value(before, kind.unit)
            if term.sensitivity:
                assert u(after, kind.unit) > u(before, kind.unit), (kind.key, term.key)
            else:
                assert u(after, kind.unit) == pytest.approx(u(before, kind.unit))
            if before.low is not None:
                assert after.low <= before.low
                assert after.high >= before.high


def less_sure(finding: Finding, factor: float) -> Finding:
    assert finding.quantity is not None
    best, spread = finding.quantity.magnitude.nominal_value, finding.quantity.magnitude.std_dev
    number = ufloat(best, factor * spread)
    return replace(finding, quantity=registry().Quantity(number, finding.quantity.units))


@FEW
@given(sizes=benches())
def test_figure_of_readings_is_never_exact(sizes: dict[str, float]) -> None:
    """Each reading here is known to a hundredth of itself: the figure to its share of that."""
    bench = whole_bench(**sizes)
    for kind, formula in NUMBERS:
        figure = work(kind, formula, inputs_of(bench))
        read = [t for t in figure.terms if t.key in bench and t.sensitivity]
        least = max((abs(t.sensitivity * t.number.nominal_value) * SHARE for t in read), default=0)
        assert u(figure, kind.unit) >= least * (1 - 1e-9), kind.key
        assert bool(read) <= (u(figure, kind.unit) > 0.0), kind.key


@EACH
def test_figure_without_one_of_its_readings_says_so(kind: FigureKind, formula: Formula) -> None:
    """No reading is left out silently: without it the figure is another sum, or none at all."""
    whole = inputs_of(BENCH)
    formula(whole)
    for key in whole.used.keys() & BENCH.keys():
        lacking = inputs_of({k: f for k, f in BENCH.items() if k != key})
        refused = refusal_of(formula, lacking)
        assert refused or key not in lacking.used


def refusal_of(formula: Formula, inputs: Inputs) -> str:
    try:
        formula(inputs)
    except CannotWork as reason:
        return str(reason)
    return ""
