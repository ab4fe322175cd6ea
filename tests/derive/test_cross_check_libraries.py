"""Random measurement models, worked here and by three libraries: GTC, metrolopy, uncertainties."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from benchlog.derive.inputs import Inputs
from benchlog.measure.coverage import degrees_of_freedom
from tests.derive.drawn_models import normal, worked


@dataclass(frozen=True)
class Model:
    """Shared variables, inputs that are sums of them, and a sum of products of powers of those.

    `variables` are (value, u, degrees of freedom); `mixtures` give each input's weights;
    `terms` give a factor and an exponent for each input.
    """

    variables: tuple[tuple[float, float, float], ...]
    mixtures: tuple[tuple[float, ...], ...]
    terms: tuple[tuple[float, tuple[float, ...]], ...]

    def inputs(self, variables: list[Any]) -> list[Any]:
        return [
            sum(weight * v for weight, v in zip(weights, variables, strict=True) if weight)
            for weights in self.mixtures
        ]

    def result(self, inputs: list[Any]) -> Any:
        total: Any = 0.0
        for factor, exponents in self.terms:
            product: Any = factor
            for number, exponent in zip(inputs, exponents, strict=True):
                if exponent:
                    product = product * number**exponent
            total = total + product
        return total


@st.composite
def models(draw: st.DrawFn) -> Model:
    size = draw(st.integers(2, 4))
    width = draw(st.integers(2, 3))
    value, share = st.floats(0.5, 5.0), st.floats(1e-3, 0.2)
    freedom = st.one_of(st.integers(1, 60).map(float), st.just(math.inf))
    variables = [(x, x * draw(share), draw(freedom)) for x in draw(_lists(value, size))]
    weight = st.one_of(st.just(0.0), st.floats(0.1, 2.0))
    mixtures = [draw(_lists(weight, size)) for _ in range(width)]
    assume(all(any(weights) for weights in mixtures))
    exponent = st.sampled_from([0.0, 1.0, -1.0, 2.0, 0.5, -1.5, 3.0])
    terms = [
        (draw(st.sampled_from([1.0, -0.7, 2.5])), tuple(draw(_lists(exponent, width))))
        for _ in range(draw(st.integers(1, 3)))
    ]
    return Model(tuple(variables), tuple(map(tuple, mixtures)), tuple(terms))


def _lists(of: st.SearchStrategy[Any], size: int) -> st.SearchStrategy[list[Any]]:
    return st.lists(of, min_size=size, max_size=size)


def ours(model: Model) -> tuple[float, float, float]:
    """Value, standard uncertainty and degrees of freedom by the figures' own machinery."""
    variables = [normal(f"v{n}", *each) for n, each in enumerate(model.variables)]
    keys = [f"x{n}" for n in range(len(model.mixtures))]

    def formula(inputs: Inputs) -> Any:
        return model.result([inputs.number(key) for key in keys])

    figure, _ = worked(formula, dict(zip(keys, model.inputs(variables), strict=True)))
    assert figure.quantity is not None
    magnitude = figure.quantity.magnitude
    assume(hasattr(magnitude, "std_dev"))
    parts = [abs(size) for size in magnitude.error_components().values()]
    # Where terms cancel, digits are lost by everybody alike; those are no comparison.
    size = sum(abs(f) * _product(model, e) for f, e in model.terms)
    assume(max(parts, default=0.0) > 1e-5 * size)
    return magnitude.nominal_value, magnitude.std_dev, degrees_of_freedom(magnitude)


def _product(model: Model, exponents: tuple[float, ...]) -> float:
    best = model.inputs([value for value, _, _ in model.variables])
    return math.prod(x**e for x, e in zip(best, exponents, strict=True))


@settings(max_examples=120, deadline=None)
@given(models())
def test_gtc_agrees_on_uncertainty_and_freedom(model: Model) -> None:
    from GTC import ureal

    value, u, freedom = ours(model)
    theirs = model.result(model.inputs([ureal(*each) for each in model.variables]))
    assert value == pytest.approx(theirs.x, rel=1e-9, abs=1e-9)
    assert u == pytest.approx(theirs.u, rel=1e-9)
    if math.isfinite(freedom) and freedom < 1e5:  # GTC calls a million infinite
        assert freedom == pytest.approx(theirs.df, rel=1e-6)
    else:
        assert theirs.df > 9e4


@settings(max_examples=60, deadline=None)
@given(models())
def test_metrolopy_agrees_on_uncertainty_and_freedom(model: Model) -> None:
    import metrolopy

    value, u, freedom = ours(model)
    theirs = model.result(
        model.inputs([metrolopy.gummy(x, u=u, dof=dof) for x, u, dof in model.variables])
    )
    assert value == pytest.approx(theirs.x, rel=1e-9, abs=1e-9)
    assert u == pytest.approx(theirs.u, rel=1e-9)
    if math.isfinite(freedom) and freedom < 5e3:  # metrolopy calls ten thousand infinite
        # metrolopy takes a little over 1 for 1: 1.0000014 was seen to come out as 1
        assert freedom == pytest.approx(theirs.dof, rel=1e-5)
    else:
        assert theirs.dof > 4e3


@settings(max_examples=60, deadline=None)
@given(models())
def test_uncertainties_agrees_when_given_the_whole_model(model: Model) -> None:
    value, u, _ = ours(model)
    theirs = model.result(
        model.inputs([normal(f"v{n}", *each) for n, each in enumerate(model.variables)])
    )
    assert value == pytest.approx(theirs.nominal_value, rel=1e-9, abs=1e-9)
    assert u == pytest.approx(theirs.std_dev, rel=1e-9)
