"""Check values for the openings of the centre tube, each with its source."""

from __future__ import annotations

import math

import pytest

from tests.derive.found import figures, number, u, value, word

BORE = number("outlet_bore", 18.5, "mm", 0.05)


def holes(count, diameter, u_diameter=0.0, *more):
    return figures(
        number("tube_hole_count", count, "count"),
        number("tube_hole_diameter", diameter, "mm", u_diameter),
        *more,
    )


# Geometry of circles: 96 holes of 3 mm are 96 x 7.0686 = 678.58 mm²; against a bore of 18.5 mm,
# 268.80 mm², that is 2.5245 (calculated).
def test_open_area_of_round_holes():
    found = holes(96, 3, 0.05, BORE)
    assert value(found["tube_area_from_holes"], "mm**2") == pytest.approx(678.58, abs=0.005)
    assert value(found["tube_to_outlet"], "dimensionless") == pytest.approx(2.5245, abs=5e-5)
    area = found["tube_area_from_holes"]
    assert u(area, "mm**2") / value(area, "mm**2") == pytest.approx(2 * 0.05 / 3)


def test_read_area_comes_before_the_holes():
    found = holes(96, 3, 0.05, BORE, number("tube_open_area", 537.6, "mm**2", 5))["tube_to_outlet"]
    assert value(found, "dimensionless") == pytest.approx(2.0, abs=1e-3)
    assert found.readings == ("tube_open_area-a", "outlet_bore-a")


@pytest.mark.parametrize(("area", "warned"), [(680, False), (700, False), (900, True)])
def test_two_ways_to_the_area_are_compared(area, warned):
    found = holes(96, 3, 0.05, number("tube_open_area", area, "mm**2", 10))["tube_area_from_holes"]
    assert any("another open area than was read" in w for w in found.warnings) == warned


def test_named_thread_gives_the_outlet():
    found = holes(96, 3, 0.05, word("thread_code", "M20x1.5"))["tube_to_outlet"]
    middle = math.pi / 4 * ((18.376 + 18.676) / 2) ** 2  # ISO 965 class 6H limits
    assert value(found, "dimensionless") == pytest.approx(678.58 / middle, rel=1e-4)


AMPLE, LESS = "Ample", "Less than the outlet's area"
NEAR = "Too near the outlet's area to tell"


# Ratios to 268.80 mm² with a standard uncertainty of 2 %: within 4 % of 1 nothing can be said
# (JCGM 100 Table G.2: 95 % lie within 1.96 u).
@pytest.mark.parametrize(
    ("area", "said"),
    [(300, AMPLE), (283, AMPLE), (271.5, NEAR), (266.1, NEAR), (255, LESS), (100, LESS)],
)
def test_tube_is_ample_or_not(area, said):
    found = figures(BORE, number("tube_open_area", area, "mm**2", 5.4))["tube_ample"]
    assert found.word == said
    assert found.readings == ("tube_open_area-a", "outlet_bore-a")


@pytest.mark.parametrize(("count", "said"), [(20, AMPLE), (13, NEAR), (8, LESS)])
def test_inlet_is_ample_or_not(count, said):
    found = figures(
        BORE,
        number("inlet_hole_count", count, "count"),
        number("inlet_hole_diameter", 5.1, "mm", 0.06),
    )["inlet_ample"]
    assert found.word == said
    assert found.kind.judged.value == "identity"


def test_equal_areas_without_uncertainty_are_ample():
    found = figures(
        number("outlet_bore", 20, "mm"),
        number("inlet_hole_count", 4, "count"),
        number("inlet_hole_diameter", 10, "mm"),
    )["inlet_ample"]
    assert found.word == AMPLE


def test_missing_inputs_are_named():
    assert figures(BORE)["tube_to_outlet"].refusal == "No open area of the tube: not measured."
    assert holes(96, 3)["tube_to_outlet"].refusal == (
        "No bore of the outlet: not measured. No thread: not measured."
    )
    assert figures(number("tube_hole_count", 9, "count"))["tube_area_from_holes"].refusal == (
        "No diameter of the holes in the tube: not measured."
    )
