"""Check values for the stated oil's viscosity, each with its source."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.derive.viscosity import (
    DYNAMIC,
    FIGURES,
    KINEMATIC,
    dynamic,
    kinematic,
    walther_constants,
)
from benchlog.derive.working import work
from tests.derive.found import figures, value
from tests.derive.oils import grade, of_dynamic, oil
from tests.derive.whole_bench import inputs_of


def worked(conditions):
    """Both figures of an oil; they want no reading."""
    return {k.key: work(k, formula, inputs_of({}, conditions)) for k, formula in FIGURES}


def mm2_s(conditions):
    return value(worked(conditions)["oil_kinematic_viscosity"], "millimeter**2/second")


# ASTM D341's form, a published worked example: 32 mm²/s at 40 °C and 5.4 at 100 °C make 8.5 at
# 80 °C. It counts from 273 (A 9.5259, B 3.7449); with 273.15, computed: A 9.53082, B 3.74658,
# 8.5332 mm²/s.
def test_worked_oil_has_its_constants():
    a, b = walther_constants(oil(32, 5.4, 80))
    assert a == pytest.approx(9.53082, abs=5e-6)
    assert b == pytest.approx(3.74658, abs=5e-6)
    assert mm2_s(oil(32, 5.4, 80)) == pytest.approx(8.5332, abs=5e-5)


def test_constants_and_figure_are_one_line():
    conditions = oil(32, 5.4, 63.0)
    a, b = walther_constants(conditions)
    by_constants = 10 ** (10 ** (a - b * math.log10(273.15 + 63.0))) - 0.7
    assert mm2_s(conditions) == pytest.approx(by_constants, rel=1e-12)
    sums = worked(conditions)["oil_kinematic_viscosity"].assumed
    assert any("A = 9.5308 and B = 3.7466" in said for said in sums)


# Computed from the form of ASTM D341; the two viscosities are those of everyday oils (from memory).
@pytest.mark.parametrize(
    ("v40", "v100", "wanted"),
    [
        (62, 10.5, {0: 541.6, 20: 158.15, 80: 16.781}),
        (110, 14.5, {0: 1358.9, 20: 324.7, 80: 24.646}),
        (44, 8.4, {0: 330.1, 20: 105.1, 80: 13.022}),
    ],
)
def test_everyday_oils_come_out(v40, v100, wanted):
    for celsius, viscosity in wanted.items():
        assert mm2_s(oil(v40, v100, celsius)) == pytest.approx(viscosity, rel=2e-4)


@pytest.mark.parametrize(("celsius", "wanted"), [(40, 62), (100, 10.5)])
def test_line_goes_through_both_points(celsius, wanted):
    assert mm2_s(oil(62, 10.5, celsius)) == pytest.approx(wanted)


oils = st.tuples(st.floats(20, 300), st.floats(0.05, 0.5)).filter(lambda o: o[0] * o[1] > 2.5)


@given(oils, st.floats(-10, 95), st.floats(1, 5))
def test_warmer_oil_is_thinner(stated, celsius, more):
    v40, share = stated
    cold, warm = (
        kinematic(inputs_of({}, oil(v40, v40 * share, t))) for t in (celsius, celsius + more)
    )
    assert warm < cold


@given(oils, st.floats(40, 100))
def test_between_the_points_lies_between_the_viscosities(stated, celsius):
    v40, share = stated
    found = kinematic(inputs_of({}, oil(v40, v40 * share, celsius))) * 1e6
    assert v40 * share * (1 - 1e-9) <= found <= v40 * (1 + 1e-9)


# Definition: 10 mm²/s × 850 kg/m³ = 8.5 mPa·s at 15 °C, where the density is stated.
def test_dynamic_is_kinematic_times_density():
    conditions = oil(62, 10.5, 15)
    found = worked(conditions)["oil_viscosity"]
    assert value(found, "millipascal*second") == pytest.approx(mm2_s(conditions) * 0.850)
    assert found.low == pytest.approx(found.high)


# Calculated: 85 °C above 15 °C, 0.065 to 0.080 % for each: 850 falls to between 792.2 and 803.0.
def test_density_falls_with_the_temperature():
    found = worked(oil(62, 10.5, 100))["oil_viscosity"]
    assert found.low == pytest.approx(10.5 * 0.7922)
    assert found.high == pytest.approx(10.5 * 0.80304, rel=1e-5)
    assert any("15 °C" in said for said in found.assumed)


# ASTM D1250, generalised lubricating oils (seen in published code): with β = 0.6278 ÷ ρ₁₅ the
# volume at T shrinks by exp(−β ΔT (1 + 0.8 β ΔT)), ΔT from 15 °C.
@pytest.mark.parametrize("density", [820.0, 850.0, 880.0, 900.0])
@pytest.mark.parametrize("celsius", [40.0, 80.0, 100.0, 120.0])
def test_density_bounds_hold_the_tables(density, celsius):
    share, warmer = 0.6278 / density, celsius - 15.0
    by_table = density * math.exp(-share * warmer * (1 + 0.8 * share * warmer))
    found = worked(oil(62, 10.5, celsius, density))["oil_viscosity"]
    least, most = (end / mm2_s(oil(62, 10.5, celsius)) * 1000 for end in (found.low, found.high))
    assert least <= by_table <= most


def test_chosen_viscosity_comes_out():
    found = worked(of_dynamic(8.7))["oil_viscosity"]
    assert value(found, "millipascal*second") == pytest.approx(8.7)


# SAE J300, editions 2015 to 2021 (found in published copies).
@pytest.mark.parametrize(
    ("said", "low", "below"),
    [("20", 6.9, 9.3), ("30", 9.3, 12.5), ("5W-30", 9.3, 12.5), ("15W-40", 12.5, 16.3)],
)
def test_grade_alone_gives_its_limits(said, low, below):
    found = worked(grade(said))["oil_kinematic_viscosity"]
    assert (found.low, found.high) == pytest.approx((low, below))
    assert any("J300" in sentence for sentence in found.assumed)


@pytest.mark.parametrize("celsius", [40, 80, 99, 101])
def test_grade_says_nothing_at_another_temperature(celsius):
    for figure in worked(grade("30", celsius)).values():
        assert figure.quantity is None
        assert f"none at {celsius} °C" in figure.refusal


@pytest.mark.parametrize(("v40", "v100"), [(62.0, 0.0), (0.0, 10.5)])
def test_one_viscosity_alone_falls_back_on_the_grade(v40, v100):
    conditions = replace(grade("30"), oil_v40=v40, oil_v100=v100)
    found = worked(conditions)["oil_kinematic_viscosity"]
    assert (found.low, found.high) == pytest.approx((9.3, 12.5))


@pytest.mark.parametrize(
    ("conditions", "reason"),
    [
        (grade("10W"), "'10W' is no grade with limits at 100 °C"),
        (oil(10.5, 62, 80), "no thinner at 100 °C"),
        (oil(10.5, 10.5, 80), "no thinner at 100 °C"),
        (oil(6, 1.5, 80), "thinner than 2 mm²/s"),
        (oil(10, 2.5, 180), "thinner than 2 mm²/s"),
        (oil(62, 10.5, -60), "No engine oil is in use at -60 °C"),
        (oil(62, 10.5, 300), "No engine oil is in use at 300 °C"),
    ],
)
def test_absurd_oil_is_refused(conditions, reason):
    for figure in worked(conditions).values():
        assert figure.quantity is None
        assert reason in figure.refusal


def test_density_of_nothing_is_refused():
    found = worked(oil(62, 10.5, 80, density=0))
    assert "density stated for the oil is not above zero" in found["oil_viscosity"].refusal
    assert found["oil_kinematic_viscosity"].refusal == ""


@pytest.mark.parametrize(
    ("celsius", "warned"), [(39, True), (40, False), (100, False), (120, True)]
)
def test_beyond_the_points_is_warned_of(celsius, warned):
    warnings = worked(oil(62, 10.5, celsius))["oil_kinematic_viscosity"].warnings
    assert any("drawn on" in warning for warning in warnings) is warned


def test_oil_needs_no_reading_and_is_judged_by_nobody():
    found = figures(conditions=oil(62, 10.5, 80))
    for kind in (KINEMATIC, DYNAMIC):
        assert found[kind.key].readings == ()
        assert kind.bounded
        assert kind.judged == "input"


def test_grade_is_one_unknown_for_all_specimens():
    """The same oil in two filters cancels where they are compared."""
    inputs = inputs_of({}, grade("30"))
    one = work(DYNAMIC, dynamic, inputs)
    again = inputs_of({}, grade("30"))
    other = work(DYNAMIC, dynamic, replace(again, common=inputs.common))
    assert one.quantity.magnitude.std_dev > 0
    assert (one.quantity - other.quantity).magnitude.std_dev == pytest.approx(0, abs=1e-12)
