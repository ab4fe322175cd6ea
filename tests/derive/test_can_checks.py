"""Check values for the can's wall, each with its source."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal

import pytest

from benchlog.derive.all_figures import figures_of
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.observe import Observer
from benchlog.measure.reading import Reading, Said
from benchlog.measure.state import State
from benchlog.trade.conditions import usual_conditions
from benchlog.trade.steel import load_steels, yield_span
from tests.derive.found import ALPHA, figures, number, u, value

PSI_KPA = 6.894757


def at_pressure(kpa):
    return replace(usual_conditions(), can_pressure_kpa=kpa)


def can(diameter, wall, unit, kpa=700.0, **u_of):
    return figures(
        number("can_diameter", diameter, unit, u_of.get("u_diameter", 0.0)),
        number("can_wall", wall, unit, u_of.get("u_wall", 0.0)),
        conditions=at_pressure(kpa),
    )


# Thin-wall hoop stress p D / 2t (Shigley, Roark; from memory), calculated: 100 psi, 3.000 in,
# 0.015 in: 10 000 psi = 68.948 MPa; 300 psi: 206.84 MPa; 500 psi at 0.020 in: 258.55 MPa.
@pytest.mark.parametrize(
    ("psi", "wall", "stress_mpa"),
    [(100, 0.015, 68.948), (300, 0.015, 206.84), (500, 0.020, 258.55)],
)
def test_hoop_stress_comes_out(psi, wall, stress_mpa):
    found = can(3.0, wall, "inch", psi * PSI_KPA)["can_hoop_stress"]
    assert value(found, "megapascal") == pytest.approx(stress_mpa, rel=1e-4)
    assert found.kind.inch_unit == "psi"
    if psi == 100:
        assert value(found, "psi") == pytest.approx(10_000, rel=1e-4)


def test_stated_pressure_is_said_and_exact():
    found = can(76.2, 0.38, "mm", 350.0, u_diameter=0.02)["can_hoop_stress"]
    assert found.assumed == ("The pressure in the can is stated as 350 kPa; it was not measured.",)
    assert u(found, "MPa") / value(found, "MPa") == pytest.approx(0.02 / 76.2)


# Barlow p = 2 S t / D, 76.2 x 0.38 mm, calculated: 140 MPa 13.96 bar = 202.5 psi; 280 MPa
# 27.93 bar = 405.0 psi. Yield strengths: EN 10130, DC01 140 to 280 MPa (found).
def test_yield_pressure_is_bounded_by_its_steels():
    found = can(76.2, 0.38, "mm")["can_yield_pressure"]
    assert (found.low, found.high) == pytest.approx((1396, 2793), rel=5e-4)
    assert found.low / PSI_KPA == pytest.approx(202.5, abs=0.1)
    assert found.high / PSI_KPA == pytest.approx(405.0, abs=0.1)
    assert value(found, "bar") == pytest.approx(20.94, abs=0.005)  # 210 MPa, calculated
    assert found.kind.bounded
    assert "not a burst test" in found.kind.beside
    assert "140 to 280 MPa" in found.assumed[0]


def test_readings_widen_the_bounds_too():
    sure = can(76.2, 0.38, "mm")["can_yield_pressure"]
    read = can(76.2, 0.38, "mm", u_wall=0.0038)["can_yield_pressure"]
    # 1 % of the wall at 95 % is 1.96 % of the pressure (JCGM 100 5.1.2, Table G.2).
    assert read.low == pytest.approx(sure.low * (1 - 0.0196), rel=1e-4)
    assert read.high == pytest.approx(sure.high * (1 + 0.0196), rel=1e-4)


# Lame, hoop at the bore p (ro² + ri²) / (ro² - ri²) (Roark; from memory): ri 37.72, ro 38.10 mm,
# 2 MPa gives 199.53 MPa; p D / 2t 200.53 MPa. Calculated; within 0.5 %.
def test_thin_wall_lies_near_lame():
    inner, outer, pressure = 37.72, 38.10, 2.0
    lame = pressure * (outer**2 + inner**2) / (outer**2 - inner**2)
    assert lame == pytest.approx(199.53, abs=0.005)
    found = value(can(2 * outer, outer - inner, "mm", 2000.0)["can_hoop_stress"], "MPa")
    assert found == pytest.approx(200.53, abs=0.005)
    assert found == pytest.approx(lame, rel=0.0051)
    # On the side of safety: the outside diameter makes the stress the larger of the two.
    assert found > lame


# Shigley, Roark (from memory): thin where D/t is above 20.
@pytest.mark.parametrize(("wall", "warned"), [(0.38, False), (3.8, False), (3.9, True), (10, True)])
def test_thick_wall_is_warned_of(wall, warned):
    found = can(76.2 if wall != 3.8 else 76.2 + 1e-3, wall, "mm")
    for key in ("can_diameter_over_wall", "can_hoop_stress", "can_yield_pressure"):
        assert any("thin wall do not hold" in w for w in found[key].warnings) == warned
    assert value(found["can_diameter_over_wall"], "dimensionless") == pytest.approx(
        76.2 / wall, rel=1e-4
    )


CALLIPER = Instrument("c", "Calliper", InstrumentKind.CALLIPER, "millimeter", 0.01, 0.05)


def reading(key, said, instrument="c"):
    said_mm = Said(f"{said} mm", Decimal(said), "millimeter")
    return Reading(
        f"{key}-1", "lineup", "a", key, 1, State.MEASURED, said_mm.text,
        datetime(2026, 5, 4, tzinfo=UTC), 0.0, said=said_mm, instrument_id=instrument,
    )  # fmt: skip


def observed(instruments, used):
    observer = Observer(instruments)
    sizes = {"can_diameter": "76.20", "can_inside": "75.44"}
    findings = {
        key: observer.observe(key, "a", [reading(key, said, used[key])], "millimeter")
        for key, said in sizes.items()
    }
    return figures_of(findings, ALPHA)["can_wall_from_diameters"]


def test_zero_error_of_one_calliper_cancels():
    # JCGM 100 F.1.2.3: one calliper's error of ±0.05 mm is in both diameters and leaves the wall.
    # What is left is the step of 0.01 mm: 0.01/sqrt(12) twice in quadrature, halved.
    one = observed([CALLIPER], {"can_diameter": "c", "can_inside": "c"})
    assert value(one, "mm") == pytest.approx(0.38)
    assert u(one, "mm") == pytest.approx(0.01 / 12**0.5 * 2**0.5 / 2)
    # Two callipers do not share it: 0.05/sqrt(3) twice in quadrature, halved, joins in.
    other = replace(CALLIPER, id="d")
    two = observed([CALLIPER, other], {"can_diameter": "c", "can_inside": "d"})
    apart = (2 * (0.01**2 / 12 + 0.05**2 / 3)) ** 0.5 / 2
    assert u(two, "mm") == pytest.approx(apart)
    assert u(two, "mm") > 9 * u(one, "mm")


def test_difference_stands_in_for_the_micrometer():
    found = figures(
        number("can_diameter", 76.2, "mm", 0.01),
        number("can_inside", 75.44, "mm", 0.01),
        conditions=at_pressure(2000.0),
    )
    assert value(found["can_hoop_stress"], "MPa") == pytest.approx(200.53, abs=0.005)
    # Both diameters and their difference: correlations through one reading (JCGM 100 5.2).
    lengths = {"can_diameter": (76.2, 0.01), "can_inside": (75.44, 0.01)}
    (outside, uo), (inside, ui) = lengths.values()
    slopes = (
        (1 / (outside - inside) - outside / (outside - inside) ** 2),
        (outside / (outside - inside) ** 2),
    )
    ratio_u = ((slopes[0] * uo) ** 2 + (slopes[1] * ui) ** 2) ** 0.5
    assert u(found["can_hoop_stress"], "MPa") == pytest.approx(2.0 * ratio_u, rel=1e-9)


@pytest.mark.parametrize(("wall", "warned"), [(0.38, False), (0.40, False), (0.45, True)])
def test_two_ways_to_the_wall_are_compared(wall, warned):
    found = figures(
        number("can_diameter", 76.2, "mm", 0.02),
        number("can_inside", 75.44, "mm", 0.02),
        number("can_wall", wall, "mm", 0.005),
    )["can_wall_from_diameters"]
    assert any("than the micrometer does" in w for w in found.warnings) == warned
    assert found.readings == ("can_diameter-a", "can_inside-a")


@pytest.mark.parametrize(
    ("inside", "wall", "said"),
    [
        (76.2, None, "as wide inside as outside"),
        (80.0, None, "as wide inside as outside"),
        (None, 38.1, "thicker than the can is wide"),
        (None, -0.4, "not above zero"),
        (None, None, "No can wall: not measured."),
    ],
)
def test_absurd_cans_are_refused(inside, wall, said):
    findings = [number("can_diameter", 76.2, "mm")]
    if inside:
        findings.append(number("can_inside", inside, "mm"))
    if wall:
        findings.append(number("can_wall", wall, "mm"))
    for key in ("can_diameter_over_wall", "can_hoop_stress", "can_yield_pressure"):
        found = figures(*findings)[key]
        assert found.quantity is None
        assert said in found.refusal


def test_steels_are_those_of_the_standard():
    # EN 10130, steel makers' tables (found): Re of DC01 140-280, DC03 140-240, DC04 140-210 MPa.
    spans = {steel.key: steel.yield_mpa for steel in load_steels()}
    assert spans == {"DC01": (140, 280), "DC03": (140, 240), "DC04": (140, 210)}
    assert yield_span() == (140, 280)
