"""Every figure's formula, worked with quantities: its dimension is its unit's."""

from __future__ import annotations

from dataclasses import replace

import numpy
import pytest

from benchlog.derive.all_figures import FORMULAS
from benchlog.derive.inputs import CannotWork
from benchlog.derive.working import again, from_si, work
from benchlog.measure.units import registry, si_unit
from tests.derive.found import u, value
from tests.derive.whole_bench import ATTRIBUTES, inputs_of, whole_bench

BENCH = whole_bench()
NUMBERS = [
    pytest.param(kind, formula, id=kind.key) for kind, formula in FORMULAS if kind.unit != ""
]
WORDS = [pytest.param(kind, formula, id=kind.key) for kind, formula in FORMULAS if kind.unit == ""]

BARE = {"turn": "count"}
"""A coil is counted: to the registry a turn is an angle, and would bring in 2π."""


def worked_with_quantities(formula, inputs):
    """The formula once more, every number that it used a quantity in SI."""
    formula(inputs)
    given = {
        key: registry().Quantity(inputs.best(key), BARE.get(used.unit, used.unit))
        for key, used in inputs.used.items()
    }
    return again(formula, inputs, **given)


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_formula_has_the_dimension_of_its_unit(kind, formula):
    inputs = inputs_of(BENCH)
    plain = formula(inputs)
    found = registry().Quantity(1, "") * worked_with_quantities(formula, inputs)
    assert found.dimensionality == registry().Unit(kind.unit).dimensionality
    assert found.m_as(si_unit(kind.unit)) == pytest.approx(plain)
    assert found.m_as(kind.unit) == pytest.approx(plain * from_si(kind.unit))


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_uncertain_inputs_make_an_uncertain_figure(kind, formula):
    inputs = inputs_of(BENCH)
    figure = work(kind, formula, inputs)
    loose = [term for term in figure.terms if getattr(term.number, "std_dev", 0.0) > 0]
    assert figure.quantity is not None
    if loose:
        assert figure.quantity.magnitude.std_dev > 0
        assert any(term.sensitivity for term in loose)
    assert loose or not any(finding.quantity is not None for finding in inputs.looked_at.values())


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_bounded_figures_lie_between_their_bounds(kind, formula):
    figure = work(kind, formula, inputs_of(BENCH))
    if kind.bounded:
        magnitude = figure.quantity.magnitude
        best = getattr(magnitude, "nominal_value", magnitude)
        assert figure.low <= best <= figure.high
    else:
        assert figure.low is figure.high is None


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_every_input_listed_is_an_input(kind, formula):
    """Without any reading at all, a figure that lists inputs cannot be worked."""
    if kind.inputs:
        with pytest.raises(CannotWork):
            formula(inputs_of({}))
    else:
        assert formula(inputs_of({})) == formula(inputs_of(BENCH))


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_every_input_used_is_listed(kind, formula):
    inputs = inputs_of(BENCH)
    formula(inputs)
    assert set(inputs.looked_at) <= set(kind.inputs)


@pytest.mark.parametrize(("kind", "formula"), WORDS)
def test_figures_without_a_unit_are_words(kind, formula):
    outcome = formula(inputs_of(BENCH))
    assert isinstance(outcome, str)
    assert outcome
    assert kind.inch_unit == ""


def in_inches(finding):
    """The same finding in the attribute's inch unit, as a reviewer who works in inches has it."""
    unit = ATTRIBUTES[finding.attribute].inch_unit
    return replace(finding, quantity=finding.quantity.to(unit)) if finding.quantity else finding


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_units_of_the_inputs_change_no_figure(kind, formula):
    other = {key: in_inches(finding) for key, finding in BENCH.items()}
    ours, theirs = (work(kind, formula, inputs_of(bench)) for bench in (BENCH, other))
    assert value(theirs, kind.unit) == pytest.approx(value(ours, kind.unit))
    assert u(theirs, kind.unit) == pytest.approx(u(ours, kind.unit))
    assert (theirs.low, theirs.high) == pytest.approx((ours.low, ours.high))


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_formula_takes_arrays_for_draws(kind, formula):
    inputs = inputs_of(BENCH)
    plain = formula(inputs)
    given = {key: numpy.full(3, inputs.best(key)) for key in inputs.used}
    assert again(formula, inputs, **given) == pytest.approx(plain)
