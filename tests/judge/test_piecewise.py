"""Piecewise linear functions of an uncertain number."""

from itertools import pairwise
from math import erf, exp, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.judge.piecewise import Spread, pass_through, place_of, steepest, value_at
from benchlog.judge.rules import Anchor

RAMP = (Anchor(0.0, 0.0), Anchor(10.0, 10.0))
TENT = (Anchor(0.0, 2.0), Anchor(4.0, 10.0), Anchor(6.0, 10.0), Anchor(12.0, 1.0))

spreads = st.sampled_from(Spread)


@st.composite
def shapes(draw):
    places = draw(st.lists(st.integers(-50, 50), min_size=2, max_size=5, unique=True))
    worths = draw(st.lists(st.floats(0, 10), min_size=len(places), max_size=len(places)))
    return tuple(Anchor(float(a), w) for a, w in zip(sorted(places), worths, strict=True))


@pytest.mark.parametrize(
    ("x", "wanted"), [(-3, 2), (0, 2), (2, 6), (4, 10), (5, 10), (9, 5.5), (12, 1), (99, 1)]
)
def test_straight_between_and_flat_outside(x, wanted):
    assert value_at(TENT, x) == pytest.approx(wanted)


@given(shapes(), st.floats(-100, 100))
def test_without_uncertainty_it_is_the_value(anchors, x):
    passed = pass_through(anchors, x, 0.0, Spread.NORMAL)
    assert passed.expected == value_at(anchors, x)
    assert passed.uncertainty == 0.0


@pytest.mark.parametrize("spread", Spread)
def test_far_from_anchors_only_the_slope_counts(spread):
    passed = pass_through(RAMP, 5.0, 0.1, spread)
    assert passed.expected == pytest.approx(5.0)
    assert passed.uncertainty == pytest.approx(0.1)
    assert passed.slope == pytest.approx(1.0)
    assert passed.rest == pytest.approx(0.0, abs=1e-7)


# The half-normal distribution: mean u·√(1/2π), variance u²·(1/2 - 1/2π).
def test_normal_on_an_anchor_gets_half_of_each_side():
    passed = pass_through(RAMP, 10.0, 1.0, Spread.NORMAL)
    assert passed.expected == pytest.approx(10 - 1 / sqrt(2 * pi))
    assert passed.uncertainty == pytest.approx(sqrt(1 / 2 - 1 / (2 * pi)))
    assert passed.slope == pytest.approx(0.5)


# Half of a rectangle of half-width a = u·√3: mean a/4, mean square a²/6.
def test_rectangle_on_an_anchor_gets_half_of_each_side():
    a = sqrt(3)
    passed = pass_through(RAMP, 10.0, 1.0, Spread.RECTANGULAR)
    assert passed.expected == pytest.approx(10 - a / 4)
    assert passed.uncertainty == pytest.approx(sqrt(a**2 / 6 - a**2 / 16))


# The expected value of a clipped normal: x·Φ(x/u) + u·φ(x/u), below only (Φ the normal's own).
def test_clipped_below_by_the_known_formula():
    x, u = 0.7, 0.5
    phi, density = (1 + erf(x / u / sqrt(2))) / 2, exp(-((x / u) ** 2) / 2) / sqrt(2 * pi)
    assert pass_through(RAMP, x, u, Spread.NORMAL).expected == pytest.approx(x * phi + u * density)


def by_quadrature(anchors, x, u, spread):
    """Mean and standard deviation by plain summing over 20,001 places."""
    reach = 9.0 if spread is Spread.NORMAL else sqrt(3)
    count = 20_001
    places = [-reach + 2 * reach * (i + 0.5) / count for i in range(count)]
    weights = [exp(-z * z / 2) if spread is Spread.NORMAL else 1.0 for z in places]
    worths = [value_at(anchors, x + u * z) for z in places]
    total = sum(weights)
    mean = sum(w * v for w, v in zip(weights, worths, strict=True)) / total
    square = sum(w * (v - mean) ** 2 for w, v in zip(weights, worths, strict=True)) / total
    return mean, sqrt(square)


@pytest.mark.parametrize("spread", Spread)
@pytest.mark.parametrize(("x", "u"), [(4, 1), (5, 3), (11, 0.4), (-2, 5), (30, 8)])
def test_agrees_with_quadrature(x, u, spread):
    passed = pass_through(TENT, x, u, spread)
    mean, deviation = by_quadrature(TENT, x, u, spread)
    assert passed.expected == pytest.approx(mean, abs=1e-4)
    assert passed.uncertainty == pytest.approx(deviation, abs=1e-4)


@given(shapes(), st.floats(-100, 100), st.floats(0, 50), spreads)
def test_stays_within_the_worths(anchors, x, u, spread):
    worths = [anchor.value for anchor in anchors]
    passed = pass_through(anchors, x, u, spread)
    assert min(worths) - 1e-9 <= passed.expected <= max(worths) + 1e-9
    assert 0 <= passed.uncertainty <= (max(worths) - min(worths)) / 2 + 1e-6


@given(shapes(), st.floats(-100, 100), st.floats(1e-3, 50), spreads)
def test_following_and_free_parts_make_the_whole(anchors, x, u, spread):
    passed = pass_through(anchors, x, u, spread)
    parts = (passed.slope * u) ** 2 + passed.rest**2
    assert parts == pytest.approx(passed.uncertainty**2, rel=1e-6, abs=1e-6)


@given(shapes(), st.floats(-60, 60), st.floats(0.01, 20), st.floats(1, 5))
def test_steepest_slope_only_grows_with_reach(anchors, x, reach, more):
    near = steepest(anchors, x - reach, x + reach)
    far = steepest(anchors, x - reach * more, x + reach * more)
    assert abs(far) >= abs(near)


@given(shapes(), st.floats(0, 10), st.floats(-60, 60))
def test_place_of_a_value_has_that_value(anchors, worth, near):
    place = place_of(anchors, worth, near)
    if place is None:
        assert not any(
            min(a.value, b.value) <= worth <= max(a.value, b.value) and a.value != b.value
            for a, b in pairwise(anchors)
        )
    else:
        assert value_at(anchors, place) == pytest.approx(worth, abs=1e-6)


def test_place_is_the_nearest_of_several():
    assert place_of(TENT, 6.0, near=1.0) == pytest.approx(2.0)
    assert place_of(TENT, 5.5, near=11.0) == pytest.approx(9.0)
