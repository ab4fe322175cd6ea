"""Stated conditions, from what is typed to what figures are worked out for."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.tasks.plan import new_lineup
from benchlog.tasks.stated import (
    FIELDS,
    as_typed,
    conditions_of,
    grades,
    in_words,
    understood,
)
from benchlog.trade.conditions import usual_conditions
from benchlog.trade.sequence_file import load_sequence
from tests.small_trade import HandClock

USUAL = as_typed(usual_conditions())


def typed(**texts):
    return understood({**USUAL, **texts}, "30")


def test_usual_conditions_come_back_as_none():
    assert typed() is None


def test_new_lineup_states_the_usual():
    lineup = new_lineup(HandClock(), load_sequence("spin_on"), name="One")
    assert lineup.conditions is None
    assert conditions_of(lineup) == usual_conditions()


@pytest.mark.parametrize(
    ("field", "text", "value"),
    [
        ("can_pressure_kpa", "100 psi", 689.475729317),  # NIST SP 811 B.8: 1 psi = 6.894757 kPa
        ("oil_temperature_c", "212 °F", 100.0),  # NIST SP 811 B.9
        ("km_per_year", "9000 mi", 14484.096),  # NIST SP 811 B.8: 1 mi = 1.609344 km
        ("oil_density_kg_m3", "0.86 g/cm3", 860.0),
        ("oil_v40", "58,4 cSt", 58.4),  # NIST SP 811 B.8: 1 cSt = 1 mm²/s
        ("oil_v100", "9.8 mm²/s", 9.8),
        ("oil_v40", "", 0.0),
        ("flow_l_min", "12", 12.0),
    ],
)
def test_any_sensible_unit_is_taken(field, text, value):
    assert getattr(typed(**{field: text}), field) == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("flow_l_min", "", "Nothing was typed"),
        ("flow_l_min", "0", "cannot be believed"),
        ("flow_l_min", "about 30", "one number"),
        ("flow_l_min", "20-30", "one number"),
        ("oil_v40", "thick", "is no viscosity"),
        ("oil_v40", "nan", "is no viscosity"),
        ("oil_v40", "inf", "is no viscosity"),
        ("oil_temperature_c", "900", "cannot be believed"),
        ("can_pressure_kpa", "12 mm", "pressure"),
    ],
)
def test_what_cannot_stand_names_its_field(field, text, said):
    with pytest.raises(PlanRefused, match=said) as refusal:
        typed(**{field: text})
    assert refusal.value.field == field
    assert refusal.value.do


def test_oil_thicker_when_hot_is_refused():
    with pytest.raises(PlanRefused, match="no thinner") as refusal:
        typed(oil_v40="9", oil_v100="10")
    assert refusal.value.field == "oil_v100"


def test_unknown_grade_is_refused_with_the_known():
    with pytest.raises(PlanRefused, match="20, 30") as refusal:
        understood(USUAL, "35")
    assert refusal.value.field == "oil_grade"


@given(
    st.fixed_dictionaries(
        {f.key: st.floats(f.low, f.high).map(lambda v: round(v, 3)) for f in FIELDS}
    ).filter(lambda v: v["oil_v40"] > v["oil_v100"]),
    st.sampled_from(grades()),
)
def test_what_is_shown_reads_back_as_it_was(values, grade):
    stated = understood({key: f"{value:.3f}" for key, value in values.items()}, grade)
    shown = as_typed(stated or usual_conditions())
    assert understood(shown, grade) == stated


def test_all_that_is_stated_goes_in_one_line():
    usual = usual_conditions()
    assert in_words(usual) == (
        "oil flow 30 L/min; oil temperature 80 °C; viscosity at 40 °C 62 mm²/s; "
        "viscosity at 100 °C 10.5 mm²/s; oil density 850 kg/m³; pressure in the can 700 kPa; "
        "distance in a year 15000 km"
    )


def test_grade_is_said_where_it_counts():
    said = in_words(replace(usual_conditions(), oil_v40=0.0))
    assert said.startswith("oil of grade 30; oil flow")
    assert "40 °C" not in said
