"""Slopes by going back over the steps, against the complex step; and the same steps once more."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.derive.all_figures import FORMULAS
from benchlog.derive.number import exponential, natural_log, plain, square_root
from benchlog.derive.trace import Trace, Traced
from benchlog.derive.working import again
from tests.derive.whole_bench import inputs_of, whole_bench

BENCH = whole_bench()
NUMBERS = [
    pytest.param(kind, formula, id=kind.key) for kind, formula in FORMULAS if kind.unit != ""
]
STEP = 1e-30
"""Imaginary step of a slope: its square vanishes, and nothing is subtracted (Squire, Trapp 1998)"""

positive = st.floats(0.1, 10.0)


def traced(formula):
    inputs = inputs_of(BENCH)
    inputs.trace = Trace()
    outcome = formula(inputs)
    trace, inputs.trace = inputs.trace, None
    return inputs, trace, outcome


def complex_slope(formula, inputs, key):
    stepped = again(formula, inputs, **{key: complex(inputs.best(key), STEP)})
    return getattr(stepped, "imag", 0.0) / STEP


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_slopes_are_those_of_the_complex_step(kind, formula):
    inputs, trace, outcome = traced(formula)
    assert plain(outcome) == plain(formula(inputs_of(BENCH)))
    slopes = trace.slopes(outcome) if isinstance(outcome, Traced) else {}
    for key in inputs.used:
        wanted = complex_slope(formula, inputs, key)
        assert slopes.get(key, 0.0) == pytest.approx(wanted, rel=1e-11, abs=1e-300)


@pytest.mark.parametrize(("kind", "formula"), NUMBERS)
def test_steps_once_more_are_the_formula_once_more(kind, formula):
    inputs, trace, outcome = traced(formula)
    other = {key: 1.03 * inputs.best(key) for key in inputs.used}
    if isinstance(outcome, Traced):
        same = {key: inputs.best(key) for key in inputs.used}
        wanted = [outcome.value, again(formula, inputs, **other), outcome.value]
        assert trace.again(outcome, [same, other, same]) == wanted
    assert plain(outcome) == plain(formula(inputs_of(BENCH)))


def every_step(x, y):
    """Each kind of step there is, with a number on either side of a constant."""
    ratio = (2.0 - x) / (3.0 / y + x * y) - (-x) * 1.5
    return natural_log(exponential(ratio / 10.0) + square_root(x)) * y**1.5 + 2 * x - x**2 + y / 4


@given(positive, positive)
def test_every_step_has_its_slope(x, y):
    trace = Trace()
    result = every_step(trace.input("x", x), trace.input("y", y))
    slopes = trace.slopes(result)
    assert result.value == every_step(x, y)
    assert slopes["x"] == pytest.approx(every_step(complex(x, STEP), y).imag / STEP, rel=1e-9)
    assert slopes["y"] == pytest.approx(every_step(x, complex(y, STEP)).imag / STEP, rel=1e-9)


@given(positive, positive)
def test_powers_have_both_slopes(x, y):
    trace = Trace()
    slopes = trace.slopes(trace.input("x", x) ** trace.input("y", y))
    assert slopes["x"] == pytest.approx(y * x ** (y - 1))
    assert slopes["y"] == pytest.approx(x**y * math.log(x), abs=1e-12)
    of_two = trace.slopes(2.0 ** trace.input("y", y))
    assert of_two["y"] == pytest.approx(2.0**y * math.log(2.0))


@given(st.floats(-3.0, 3.0))
def test_angles_have_their_slopes(x):
    trace = Trace()
    number = trace.input("x", x)
    assert trace.slopes(number.applied("sin"))["x"] == pytest.approx(math.cos(x))
    assert trace.slopes(number.applied("cos"))["x"] == pytest.approx(-math.sin(x))


def test_input_without_a_part_has_no_slope():
    trace = Trace()
    x, y = trace.input("x", 2.0), trace.input("y", 3.0)
    result = x * x
    later = y * x
    assert trace.slopes(result) == {"x": 4.0, "y": 0.0}
    assert trace.slopes(later) == {"x": 3.0, "y": 2.0}


def test_number_that_would_forget_its_making_is_refused():
    number = Trace().input("x", 2.0)
    with pytest.raises(TypeError):
        math.cos(number)
