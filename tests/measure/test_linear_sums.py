"""Sums laid out at once, against the same sums as the library keeps them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import covariance_matrix, ufloat

from benchlog.measure.linear import about
from benchlog.measure.quantities import si_number, unit_of
from benchlog.measure.units import registry

factors = st.floats(-5.0, 5.0).filter(lambda factor: abs(factor) > 1e-3)


@given(factors, factors, st.floats(-100.0, 100.0))
def test_sum_is_the_librarys_own(first, second, value):
    x, y = ufloat(3.0, 0.2), ufloat(5.0, 0.1)
    mixed = x - 2.0 * y
    ours = about(value, ((first, x), (second, mixed)))
    theirs = value + first * (x - 3.0) + second * (mixed + 7.0)
    assert ours.nominal_value == value
    assert ours.std_dev == pytest.approx(theirs.std_dev)
    assert covariance_matrix([ours, x])[0][1] == pytest.approx(covariance_matrix([theirs, x])[0][1])


def test_nothing_uncertain_leaves_a_float():
    assert about(2.0, ((3.0, 4.0), (0.0, ufloat(1.0, 0.1)))) == 2.0
    assert isinstance(about(2.0, ((3.0, 4.0),)), float)


def test_order_of_parts_is_that_of_the_moves():
    x, y = ufloat(1.0, 0.1), ufloat(1.0, 0.2)
    assert list(about(0.0, ((1.0, y), (1.0, x))).derivatives) == [y, x]


@pytest.mark.parametrize(
    ("unit", "value", "si", "factor"),
    [
        ("inch", 2.0, 0.0508, 0.0254),  # NIST SP 811 B.8
        ("degree_Fahrenheit", 68.0, 293.15, 5 / 9),  # NIST SP 811 B.8
        ("ounce", 1.0, 0.028349523125, 0.028349523125),  # NIST SP 811 B.8, exact by the pound
    ],
)
def test_quantity_comes_to_si_with_its_uncertainty(unit, value, si, factor):
    quantity = registry().Quantity(ufloat(value, 0.1), unit)
    assert si_number(quantity).nominal_value == pytest.approx(si, rel=1e-12)
    assert si_number(quantity).std_dev == pytest.approx(0.1 * factor, rel=1e-12)
    assert unit_of(quantity) == unit
