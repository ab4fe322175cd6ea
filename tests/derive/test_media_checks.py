"""Check values for area by two routes, thickness, solidity and porosity, each with its source."""

from dataclasses import replace
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.derive.inputs import Common
from benchlog.derive.solidity import SOLIDITY, solidity
from benchlog.derive.working import work
from benchlog.measure.state import State
from tests.derive.found import ALPHA, figures, number, u, value, without, word
from tests.derive.whole_bench import inputs_of, whole_bench

# Calculated (invented strip): 1200 × 55 mm exposed = 660 cm²; 2 × 50 pleats × 12 mm × 55 mm too.
STRIP = {
    "media_length": number("media_length", 1200, "millimeter"),
    "media_exposed_width": number("media_exposed_width", 55, "millimeter"),
    "pleat_count": number("pleat_count", 50, "count"),
    "pleat_depth_gauge": number("pleat_depth_gauge", 12, "millimeter"),
}

# The worked strip (invented, by hand and with uncertainties 3.2.3): 48.0 × 4.10 in, 21.4 g,
# 0.64 mm; solidity 0.1733 with fibres of 1520 kg/m³.
WORKED = (
    number("media_length", 48.0, "inch"),
    number("media_width", 4.10, "inch"),
    number("media_mass", 21.4, "gram"),
    number("media_thickness", 0.64, "millimeter", contact_pressure_kpa=20.0),
)


def strip_but(*others):
    kept = {**STRIP, **{finding.attribute: finding for finding in others}}
    return figures(*kept.values())


def test_both_routes_come_to_the_same_area():
    found = strip_but()
    assert value(found["exposed_area"], "centimeter**2") == pytest.approx(660)
    assert value(found["area_by_pleats"], "centimeter**2") == pytest.approx(660)
    assert value(found["area_routes"], "percent") == pytest.approx(0, abs=1e-9)


# Calculated: of 50 pleats one is 2 %, of 12 mm depth half a millimetre is 4 %.
@pytest.mark.parametrize(
    ("count", "depth", "share"), [(51, 12, 2.0), (49, 12, -2.0), (50, 12.5, 100 / 24)]
)
def test_miscount_and_depth_shift_the_cross_check(count, depth, share):
    found = strip_but(
        number("pleat_count", count, "count"), number("pleat_depth_gauge", depth, "millimeter")
    )
    assert value(found["area_routes"], "percent") == pytest.approx(share)
    assert value(found["area_by_pleats"], "centimeter**2") == pytest.approx(660 * (1 + share / 100))
    assert value(found["exposed_area"], "centimeter**2") == pytest.approx(660)


# Common practice, no source: routes that differ by more than 5 % ask for a second measurement.
@pytest.mark.parametrize(
    ("depth", "asked"), [(12, False), (12.59, False), (12.61, True), (11.41, False), (11.39, True)]
)
def test_more_than_five_hundredths_ask_for_a_second_measurement(depth, asked):
    found = strip_but(number("pleat_depth_gauge", depth, "millimeter"))["area_routes"]
    assert any("second time" in warning for warning in found.warnings) is asked
    assert found.refusal == ""


# JCGM 100, 5.1.6: in a product the shares of the uncertainties add in squares.
def test_uncertainty_of_the_pleat_route():
    found = strip_but(
        number("pleat_count", 50, "count", 0.5),
        number("pleat_depth_gauge", 12, "millimeter", 0.3),
        number("media_length", 1200, "millimeter", 2),
    )
    relative = sqrt((0.5 / 50) ** 2 + (0.3 / 12) ** 2)
    assert u(found["area_by_pleats"], "centimeter**2") == pytest.approx(660 * relative)
    routes = sqrt(relative**2 + (2 / 1200) ** 2)
    assert u(found["area_routes"], "percent") == pytest.approx(100 * routes)


def test_exposed_width_drops_out_of_the_comparison():
    wide = strip_but(number("media_exposed_width", 110, "millimeter"))
    assert value(wide["area_routes"], "percent") == pytest.approx(0, abs=1e-9)
    assert value(wide["area_by_pleats"], "centimeter**2") == pytest.approx(1320)


def test_pleat_route_is_refused_without_a_depth():
    found = strip_but(without("pleat_depth_gauge", State.COULD_NOT_TELL))
    for key in ("area_by_pleats", "area_routes"):
        assert found[key].refusal == "No pleat depth by gauge: could not tell."


# Calculated: 263.355 kg/m³ over 1520, the middle of 1490 to 1550 (Morton and Hearle, table 5.1).
def test_worked_strip_has_its_solidity():
    found = figures(*WORKED, word("media_kind", "cellulose"))
    assert value(found["solidity"], "dimensionless") == pytest.approx(0.1733, abs=5e-5)
    assert value(found["porosity"], "dimensionless") == pytest.approx(1 - 0.1733, abs=5e-5)
    assert found["solidity"].low == pytest.approx(263.355 / 1550, abs=1e-5)
    assert found["solidity"].high == pytest.approx(263.355 / 1490, abs=1e-5)
    assert found["porosity"].low == pytest.approx(1 - 263.355 / 1490, abs=1e-5)
    assert found["porosity"].high == pytest.approx(1 - 263.355 / 1550, abs=1e-5)


def test_solidity_names_its_fibre_and_leaves_out_resin():
    figure = figures(*WORKED, word("media_kind", "cellulose"))["solidity"]
    assert any("1490 to 1550 kg/m³" in said and "resin" in said for said in figure.assumed)
    # Calculated: a quarter of the weight as resin of 1250 kg/m³ makes 1442 of 1520 kg/m³ and
    # 2024 of 2550 kg/m³: 5 % and 26 % more volume.
    cellulose, glass = (fibre * (0.75 / fibre + 0.25 / 1250) - 1 for fibre in (1520, 2550))
    assert cellulose == pytest.approx(1 / 20, abs=0.005)
    assert glass == pytest.approx(1 / 4, abs=0.015)
    assert "a twentieth with cellulose, by a quarter with glass" in figure.kind.beside


@pytest.mark.parametrize(
    ("kind", "reason"),
    [
        (word("media_kind", "wire_backed"), "No fibre density is stated for wire-backed media."),
        (
            word("media_kind", "could_not_tell"),
            "No fibre density is stated for undetermined media.",
        ),
        (without("media_kind", State.NOT_MEASURED), "No media kind: not measured."),
    ],
)
def test_solidity_wants_a_kind_with_a_fibre(kind, reason):
    found = figures(*WORKED, kind)
    assert found["solidity"].refusal == reason
    assert found["porosity"].refusal == reason


def test_denser_than_fibre_is_absurd():
    heavy = replace(WORKED[2], quantity=WORKED[2].quantity * 6)
    found = figures(*WORKED[:2], heavy, WORKED[3], word("media_kind", "cellulose"))
    assert "denser than its fibres" in found["solidity"].refusal
    assert "denser than its fibres" in found["porosity"].refusal


def solid(thick, mass):
    kept = {finding.attribute: finding for finding in WORKED}
    kept["media_thickness"] = number("media_thickness", thick, "millimeter")
    kept["media_mass"] = number("media_mass", mass, "gram")
    kept["media_kind"] = word("media_kind", "cellulose")
    return solidity(inputs_of(kept))


@given(st.floats(0.3, 3), st.floats(1.05, 1.5))
def test_thicker_or_lighter_sheet_is_less_solid(thick, factor):
    one = solid(thick, 21.4)
    assert solid(thick * factor, 21.4) == pytest.approx(one / factor)
    assert solid(thick, 21.4 / factor) == pytest.approx(one / factor)


def test_fibre_of_two_specimens_is_not_one_unknown():
    common, bench = Common(), whole_bench()
    one, other = (
        work(SOLIDITY, solidity, replace(inputs_of(bench), specimen=s, common=common))
        for s in (ALPHA, replace(ALPHA, id="b"))
    )
    assert (one.quantity - other.quantity).magnitude.std_dev > 0


@pytest.mark.parametrize("key", ["sheet_density", "solidity", "pleat_crowding", "permeability"])
def test_thickness_under_two_pressures_is_refused(key):
    bench = whole_bench()
    bench["media_thickness"] = replace(
        bench["media_thickness"], contact_pressure_kpa=None, mixed_pressure=True
    )
    found = figures(*bench.values())
    assert "more than one foot pressure" in found[key].refusal
    assert found["basis_weight"].refusal == ""


@pytest.mark.parametrize("key", ["sheet_density", "solidity", "pleat_crowding", "permeability"])
def test_thickness_without_a_pressure_is_warned_of(key):
    bench = whole_bench()
    assert not any("foot pressure" in w for w in figures(*bench.values())[key].warnings)
    bench["media_thickness"] = replace(bench["media_thickness"], contact_pressure_kpa=None)
    found = figures(*bench.values())[key]
    assert found.refusal == ""
    assert any("foot pressure" in warning for warning in found.warnings)


# Calculated: 0.60 ÷ 0.64 = 0.9375.
def test_folds_are_compared_with_flat_places():
    bench = whole_bench(media_thickness_tips=0.60)
    found = figures(*bench.values())["tips_to_flat"]
    assert value(found, "dimensionless") == pytest.approx(0.9375)
    bench["media_thickness_tips"] = replace(bench["media_thickness_tips"], contact_pressure_kpa=2.0)
    assert "different foot pressures" in figures(*bench.values())["tips_to_flat"].refusal
