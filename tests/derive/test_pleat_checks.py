"""Check values for depth, pitch and crowding of pleats, and tallies that must agree."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.derive.pleats import FIGURES, PLEAT_DEPTH
from benchlog.derive.working import work
from benchlog.measure.state import State
from tests.derive.as_said import said
from tests.derive.found import figures, number, u, value, without
from tests.derive.whole_bench import inputs_of


def pleated(count, thick=0.70, tube=30.0, outside=70.0):
    findings = (
        number("pleat_count", count, "count"),
        number("media_thickness", thick, "millimeter", contact_pressure_kpa=20.0),
        number("tube_outside", tube, "millimeter"),
        number("element_outside", outside, "millimeter"),
    )
    bench = {finding.attribute: finding for finding in findings}
    return {
        kind.key: work(kind, formula, inputs_of(bench))
        for kind, formula in FIGURES
        if kind is not PLEAT_DEPTH
    }


# Geometry, calculated: π × 30 mm ÷ 60 = 1.5708 mm; outside π × 70 ÷ 60 = 3.6652 mm.
def test_pitch_comes_out():
    found = pleated(60)
    assert value(found["pleat_pitch_core"], "millimeter") == pytest.approx(1.5708, abs=5e-5)
    assert value(found["pleat_pitch_outside"], "millimeter") == pytest.approx(3.6652, abs=5e-5)


# Geometry, calculated: 2 t N ÷ (π D).
@pytest.mark.parametrize(
    ("count", "thick", "tube", "crowding", "pressed"),
    [
        (60, 0.70, 30, 0.8913, False),
        (52, 0.90, 30, 0.9931, False),
        (44, 1.20, 30, 1.1205, True),
        (52, 0.90, 40, 0.7448, False),
    ],
)
def test_crowding_comes_out(count, thick, tube, crowding, pressed):
    found = pleated(count, thick, tube)["pleat_crowding"]
    assert value(found, "dimensionless") == pytest.approx(crowding, abs=5e-5)
    assert any("pressed" in warning for warning in found.warnings) is pressed


# Geometry, calculated: the most pleats that a tube of 30 mm takes side by side, N ÷ c rounded
# down: 67 of 0.70 mm, 52 of 0.90 mm, 39 of 1.20 mm.
@pytest.mark.parametrize(("thick", "most"), [(0.70, 67), (0.90, 52), (1.20, 39)])
def test_crowding_tells_how_many_would_fit(thick, most):
    found = pleated(50, thick)["pleat_crowding"]
    assert math.floor(50 / value(found, "dimensionless")) == most
    assert not any("pressed" in w for w in pleated(most, thick)["pleat_crowding"].warnings)
    assert any("pressed" in w for w in pleated(most + 1, thick)["pleat_crowding"].warnings)


# Geometry, calculated: a zigzag of 60 pleats between 30 and 70 mm has legs of 20.03594 mm for a
# radial depth of 20 mm, so the strip makes a pleat 0.18 % deeper than a gauge does.
def test_depth_from_the_strip_is_that_of_the_leg():
    half_pitch = math.pi / 60
    leg = math.sqrt(35**2 + 15**2 - 2 * 35 * 15 * math.cos(half_pitch))
    assert leg == pytest.approx(20.03594, abs=5e-6)
    found = figures(
        number("media_length", 120 * leg, "millimeter"), number("pleat_count", 60, "count")
    )
    assert value(found["pleat_depth"], "millimeter") == pytest.approx(20.03594, abs=5e-6)


@given(st.integers(8, 200), st.floats(0.1, 4), st.floats(10, 100), st.floats(1.01, 3))
def test_crowding_grows_with_sheet_and_count(count, thick, tube, factor):
    base = value(pleated(count, thick, tube)["pleat_crowding"], "dimensionless")
    for other, by in (
        (pleated(count * factor, thick, tube), factor),
        (pleated(count, thick * factor, tube), factor),
        (pleated(count, thick, tube * factor), 1 / factor),
    ):
        assert value(other["pleat_crowding"], "dimensionless") == pytest.approx(base * by)


@given(st.integers(8, 200), st.floats(0.1, 4), st.floats(10, 100))
def test_crowding_is_two_sheets_in_a_pitch(count, thick, tube):
    found = pleated(count, thick, tube)
    pitch = value(found["pleat_pitch_core"], "millimeter")
    assert value(found["pleat_crowding"], "dimensionless") == pytest.approx(2 * thick / pitch)


# JCGM 100, 5.1.6: in a quotient the shares of the uncertainties add in squares.
def test_pitch_carries_both_uncertainties():
    found = figures(
        number("pleat_count", 50, "count", 0.5), number("tube_outside", 30, "millimeter", 0.1)
    )["pleat_pitch_core"]
    relative = math.hypot(0.5 / 50, 0.1 / 30)
    assert u(found, "millimeter") == pytest.approx(math.pi * 30 / 50 * relative)


USING_THE_COUNT = (
    "pleat_depth",
    "pleat_pitch_core",
    "pleat_pitch_outside",
    "pleat_crowding",
    "area_by_pleats",
    "area_routes",
)


def tallied(*tallies):
    return figures(
        said("pleat_count", *tallies),
        number("media_length", 1200, "millimeter"),
        number("media_exposed_width", 55, "millimeter"),
        number("media_thickness", 0.7, "millimeter", contact_pressure_kpa=20.0),
        number("pleat_depth_gauge", 12, "millimeter"),
        number("tube_outside", 30, "millimeter"),
        number("element_outside", 70, "millimeter"),
    )


@pytest.mark.parametrize("key", USING_THE_COUNT)
def test_tallies_that_disagree_are_warned_of(key):
    warnings = tallied("50", "51")[key].warnings
    assert any("do not agree (50, 51)" in warning for warning in warnings)


@pytest.mark.parametrize("key", USING_THE_COUNT)
@pytest.mark.parametrize("tallies", [("50",), ("50", "50"), ("50", "50", "50")])
def test_tallies_that_agree_are_not(key, tallies):
    figure = tallied(*tallies)[key]
    assert figure.refusal == ""
    assert not any("agree" in warning for warning in figure.warnings)


def test_pitch_is_refused_without_a_tube():
    found = figures(
        number("pleat_count", 50, "count"), without("tube_outside", State.NOT_APPLICABLE)
    )["pleat_pitch_core"]
    assert found.refusal == "No outside diameter of the tube: not applicable."
