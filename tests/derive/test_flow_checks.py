"""Check values for permeability, face velocity and pressure drop, each with its source."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.derive.flow import (
    FACE_VELOCITY,
    PRESSURE_DROP,
    PRESSURE_DROP_ESTIMATED,
    face_velocity,
    pressure_drop,
    pressure_drop_estimated,
)
from benchlog.derive.inputs import Common
from benchlog.derive.permeability import (
    AIR_PA_S,
    PERMEABILITY,
    PERMEABILITY_ESTIMATED,
    davies,
    permeability,
    permeability_estimated,
)
from benchlog.derive.working import again, work
from benchlog.measure.state import State
from benchlog.trade.conditions import usual_conditions
from tests.derive.found import ALPHA, figures, number, u, value, without, word
from tests.derive.oils import grade, of_dynamic
from tests.derive.whole_bench import inputs_of

# The worked strip (invented, computed): 192.00 in² exposed, 168.547 g/m², 0.64 mm, solidity
# 0.17326 with 1520 kg/m³; fibres of 20 µm; 500 L/(m²·s) of air at 200 Pa; 30 L/min of oil.
WORKED = {
    finding.attribute: finding
    for finding in (
        number("media_length", 48.0, "inch"),
        number("media_width", 4.10, "inch"),
        number("media_hidden", 0.10, "inch"),
        number("media_mass", 21.4, "gram"),
        number("media_thickness", 0.64, "millimeter", contact_pressure_kpa=20.0),
        number("fibre_width", 20.0, "micrometer"),
        number("media_air_flow", 500.0, "liter/meter**2/second"),
        number("media_air_pressure", 200.0, "pascal"),
        word("media_kind", "cellulose"),
    )
}


def worked_but(*others):
    return {**WORKED, **{finding.attribute: finding for finding in others}}


# Calculated: 30 L/min = 5.0e-4 m³/s over 0.123871 m² (192.00 in²) is 4.0365 mm/s.
def test_face_velocity_comes_out():
    found = work(FACE_VELOCITY, face_velocity, inputs_of(WORKED))
    assert value(found, "millimeter/second") == pytest.approx(4.0365, abs=5e-5)
    assert any("30 L/min" in said for said in found.assumed)


def test_no_flow_has_no_face_velocity():
    still = replace(usual_conditions(), flow_l_min=0.0)
    for key in ("face_velocity", "pressure_drop", "pressure_drop_estimated"):
        found = figures(*WORKED.values(), conditions=still)[key]
        assert found.refusal == "The oil flow stated is not above zero; state one."


# Published tables of air at 1 atm, Pa·s at 15, 20 and 25 °C; the standard atmosphere at 15 °C has
# 1.789e-5 (from memory), which lies within the last digit.
@pytest.mark.parametrize("viscosity", [1.802e-5, 1.825e-5, 1.849e-5, 1.789e-5])
def test_air_of_a_room_lies_within_the_interval(viscosity):
    low, high = AIR_PA_S
    assert low - 0.5e-7 <= viscosity <= high + 0.5e-7


# Darcy, calculated with air of 1.82e-5 Pa·s, the middle of the assumed interval:
# 1.82e-5 × 0.64e-3 × 0.5 ÷ 200 = 2.9120e-11 m².
def test_air_flow_gives_the_permeability():
    found = work(PERMEABILITY, permeability, inputs_of(WORKED))
    assert value(found, "meter**2") == pytest.approx(2.9120e-11, rel=1e-5)
    # JCGM 100, 4.3.7: air anywhere from 1.79 to 1.85e-5 Pa·s, rectangular.
    share = 0.03 / 1.82 / 3**0.5
    assert u(found, "meter**2") == pytest.approx(2.9120e-11 * share, rel=1e-5)


# Darcy, calculated: oil of 8.7 mPa·s through the worked strip at 30 L/min: 771.8 Pa, 0.1119 psi.
def test_air_flow_gives_the_pressure_drop():
    found = work(PRESSURE_DROP, pressure_drop, inputs_of(WORKED, of_dynamic(8.7)))
    assert value(found, "pascal") == pytest.approx(771.8, abs=0.05)
    assert value(found, "pound_force_per_square_inch") == pytest.approx(0.1119, abs=5e-5)
    assert found.low < 0.7718 < found.high


# Davies, Proc. Inst. Mech. Eng. B1 (1952) 185, computed: solidity 0.17326, fibres of 20 µm:
# 6.7115e-11 m².
def test_davies_comes_out():
    assert davies(20e-6, 0.17326) == pytest.approx(6.7115e-11, rel=2e-5)


# The same with oil of 10 mPa·s at 30 L/min, all of the width seen counting: 384.91 Pa.
def test_estimate_with_the_whole_fibre_width_comes_out():
    inputs = inputs_of(WORKED, of_dynamic(10.0))
    whole = again(pressure_drop_estimated, inputs, fibre_width_share=1.0)
    assert whole == pytest.approx(384.91, abs=0.01)
    found = work(PRESSURE_DROP_ESTIMATED, pressure_drop_estimated, inputs)
    assert found.low < 0.38491 < 4 * 0.38491 < found.high


# Calculated: by Davies the worked strip with fibres of 20 µm would pass 1152 L/(m²·s) of air at
# 200 Pa; what passes 500 there behaves like fibres of 13.2 µm, what passes 300 like 10.2 µm.
@pytest.mark.parametrize(("width", "passes"), [(20.0, 1.152), (13.17, 0.5), (10.20, 0.3)])
def test_width_that_counts_follows_from_the_air_flow(width, passes):
    found = davies(width * 1e-6, 0.17326) * 200 / (1.82e-5 * 0.64e-3)
    assert found == pytest.approx(passes, rel=1e-3)


@pytest.mark.parametrize(
    ("passes", "within"), [(500, True), (300, True), (1100, True), (150, False)]
)
def test_bounds_of_the_estimate_hold_usual_sheets(passes, within):
    flow = number("media_air_flow", passes, "liter/meter**2/second")
    inputs = inputs_of(worked_but(flow))
    measured = value(work(PERMEABILITY, permeability, inputs), "micrometer**2")
    estimated = work(PERMEABILITY_ESTIMATED, permeability_estimated, inputs_of(WORKED))
    assert (estimated.low < measured < estimated.high) is within


def test_measured_route_is_the_one_to_go_by():
    both = figures(*WORKED.values())
    assert both["pressure_drop"].quantity is not None
    assert any("go by" in warning for warning in both["pressure_drop_estimated"].warnings)
    alone = figures(*worked_but(without("media_air_flow", State.NOT_MEASURED)).values())
    assert alone["pressure_drop"].refusal == "No air flow through the media: not measured."
    assert alone["pressure_drop_estimated"].quantity is not None
    assert not any("go by" in warning for warning in alone["pressure_drop_estimated"].warnings)


def test_measured_pressure_drop_wants_no_thickness():
    found = figures(*worked_but(without("media_thickness", State.SPOILED)).values())
    assert found["permeability"].refusal == "No media thickness: spoiled."
    assert found["pressure_drop"].refusal == ""


@pytest.mark.parametrize(("thick", "outside"), [(0.64, False), (2.0, True), (0.35, True)])
def test_solidity_outside_the_range_is_warned_of(thick, outside):
    # Davies found 0.06 to 0.30; 168.5 g/m² at 2.0 mm is 0.055, at 0.35 mm it is 0.317.
    sheet = number("media_thickness", thick, "millimeter", contact_pressure_kpa=20.0)
    found = figures(*worked_but(sheet).values())["permeability_estimated"]
    assert any("outside 0.06 to 0.30" in warning for warning in found.warnings) is outside


def test_pressure_drop_says_what_it_does_not_show():
    for kind in (PRESSURE_DROP, PRESSURE_DROP_ESTIMATED):
        assert kind.bounded
        for word_wanted in ("clean, flat sheet", "loaded filter", "efficiency", "engine"):
            assert word_wanted in kind.beside
    assert "without a flow test" in PERMEABILITY_ESTIMATED.beside


def test_every_assumption_is_named():
    found = figures(*WORKED.values())["pressure_drop"]
    told = " ".join(found.assumed)
    for what in ("30 L/min", "62 mm²/s", "80 °C", "850 kg/m³", "Air of 15 to 25 °C", "as air did"):
        assert what in told
    estimated = " ".join(figures(*WORKED.values())["pressure_drop_estimated"].assumed)
    for what in ("1490 to 1550 kg/m³", "Half to all of the fibre width"):
        assert what in estimated


# SAE J300: a grade alone spans 9.3 to 12.5 mm²/s at 100 °C, so the bounds lie at least as far
# apart.
def test_grade_alone_widens_the_bounds():
    found = figures(*WORKED.values(), conditions=grade("30"))["pressure_drop"]
    assert found.high / found.low > 12.5 / 9.3
    cold = figures(*WORKED.values(), conditions=grade("30", 80))["pressure_drop"]
    assert "limits at 100 °C alone" in cold.refusal


@given(st.floats(1.05, 5))
def test_pressure_drop_scales_with_what_is_in_it(factor):
    def drop(bench, conditions=None):
        return pressure_drop(inputs_of(bench, conditions))

    base, usual = drop(WORKED), usual_conditions()
    faster = replace(usual, flow_l_min=usual.flow_l_min * factor)
    assert drop(WORKED, faster) == pytest.approx(base * factor)
    longer = number("media_length", 48.0 * factor, "inch")
    assert drop(worked_but(longer)) == pytest.approx(base / factor)
    tighter = number("media_air_pressure", 200.0 * factor, "pascal")
    assert drop(worked_but(tighter)) == pytest.approx(base * factor)
    opener = number("media_air_flow", 500.0 * factor, "liter/meter**2/second")
    assert drop(worked_but(opener)) == pytest.approx(base / factor)
    colder = replace(usual, oil_temperature_c=80 - factor)
    assert drop(WORKED, colder) > base


@given(st.floats(1e-6, 50e-6), st.floats(0.02, 0.6), st.floats(1.01, 1.5))
def test_finer_fibres_and_fuller_sheets_are_tighter(width, filled, factor):
    assert davies(width * factor, filled) == pytest.approx(davies(width, filled) * factor**2)
    assert davies(width, filled * factor) < davies(width, filled) / factor**1.5 * (1 + 1e-12)


@given(st.floats(0.1, 0.9))
def test_flow_of_two_parts_of_a_strip_adds_up(part):
    """At one pressure drop, what passes the whole strip passes its two parts together."""
    velocity, length = 0.0, 48.0
    for share in (part, 1 - part):
        piece = worked_but(number("media_length", length * share, "inch"))
        flow = replace(usual_conditions(), flow_l_min=30.0 * share)
        assert pressure_drop(inputs_of(piece, flow)) == pytest.approx(
            pressure_drop(inputs_of(WORKED))
        )
        velocity += face_velocity(inputs_of(piece, flow)) * share
    assert velocity == pytest.approx(face_velocity(inputs_of(WORKED)))


def test_same_oil_and_air_cancel_between_two_filters():
    common = Common()
    one, other = (
        work(
            PRESSURE_DROP,
            pressure_drop,
            replace(inputs_of(WORKED), specimen=specimen, common=common),
        )
        for specimen in (ALPHA, replace(ALPHA, id="b"))
    )
    assert one.quantity.magnitude.std_dev > 0
    assert (one.quantity - other.quantity).magnitude.std_dev == pytest.approx(0, abs=1e-12)
