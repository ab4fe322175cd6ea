"""How far two ways to one number are apart."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.derive.agreement import normalised_error, outside_interval, uncertain
from benchlog.derive.inputs import Common, Inputs
from benchlog.trade.conditions import usual_conditions
from tests.derive.found import ALPHA, number

numbers = st.floats(-1e3, 1e3)
spreads = st.floats(1e-3, 10)


# ISO 13528:2022, ISO/IEC 17043: 10.02 with U 0.03 against 9.97 with U 0.02 gives E_n 1.38675
# (calculated). U is 1.959964 times u here, as for infinite degrees of freedom (JCGM 100 G.2).
def test_published_rule_comes_out():
    first, second = ufloat(10.02, 0.03 / 1.959964), ufloat(9.97, 0.02 / 1.959964)
    assert normalised_error(first, second) == pytest.approx(1.38675, abs=2e-5)


# JCGM 100 F.1.2.3: what two results share cancels in their difference.
def test_shared_error_does_not_excuse_a_gap():
    zero = ufloat(0.0, 0.5)
    alone, shared = 10.0 + ufloat(0, 0.1), 10.5 + ufloat(0, 0.1)
    assert normalised_error(alone + zero, shared + zero) == pytest.approx(
        normalised_error(alone, shared)
    )


@given(numbers, spreads, numbers, spreads)
def test_order_does_not_matter(a, ua, b, ub):
    first, second = ufloat(a, ua), ufloat(b, ub)
    assert normalised_error(first, second) == pytest.approx(normalised_error(second, first))


def test_exact_numbers_agree_or_do_not():
    assert normalised_error(3.0, 3.0) == 0.0
    assert normalised_error(3.0, 3.1) == math.inf


@given(numbers, spreads, numbers, st.floats(0.01, 100))
def test_interval_counts_from_its_nearer_end(x, ux, low, wide):
    reading = ufloat(x, ux)
    found = outside_interval(reading, low, low + wide)
    if low <= x <= low + wide:
        assert found == 0.0
    else:
        end = low if x < low else low + wide
        assert found == pytest.approx(abs(x - end) / (1.959964 * ux), rel=1e-5)


def inputs_of(*findings):
    made = {finding.attribute: finding for finding in findings}
    return Inputs(made, ALPHA, usual_conditions(), Common())


def test_uncertain_number_is_the_linear_law():
    inputs = inputs_of(number("a", 3.0, "meter", 0.3), number("b", 4.0, "meter", 0.4))
    found = uncertain(lambda i: i.number("a") * i.number("b"), inputs)
    # JCGM 100 5.1.2: relative parts of 10 % each join to 14.1 %.
    assert found.nominal_value == pytest.approx(12.0)
    assert found.std_dev == pytest.approx(12.0 * math.hypot(0.1, 0.1))
    assert inputs.used == {}


def test_what_cannot_be_worked_has_no_number():
    assert uncertain(lambda i: i.number("a"), inputs_of()) is None
