"""No figure without its inputs, and always a plain reason."""

from dataclasses import replace
from decimal import Decimal

import pytest

from benchlog.derive.all_figures import FIGURE_KINDS
from benchlog.measure.state import WITHOUT_VALUE, State
from tests.derive.found import ALPHA, figures, number, without

STRIP = {
    "media_length": number("media_length", 1200, "millimeter"),
    "media_width": number("media_width", 62, "millimeter"),
    "media_hidden": number("media_hidden", 7, "millimeter"),
    "media_mass": number("media_mass", 12, "gram"),
    "media_thickness": number("media_thickness", 0.6, "millimeter", contact_pressure_kpa=50.0),
}


def strip_but(*others):
    kept = {**STRIP, **{finding.attribute: finding for finding in others}}
    return figures(*kept.values())


def test_nothing_recorded_refuses_every_figure():
    found = figures(specimen=replace(ALPHA, price=None))
    assert set(found) == {kind.key for kind in FIGURE_KINDS}
    for figure in found.values():
        if figure.kind.inputs:
            assert figure.quantity is None
            assert figure.word is None
            assert figure.refusal.endswith((": not measured.", ": not answered.", "is needed."))


@pytest.mark.parametrize("state", WITHOUT_VALUE)
def test_missing_input_names_itself_and_its_state(state):
    found = strip_but(without("media_length", state))
    for key in ("exposed_area", "whole_area", "basis_weight", "sheet_density", "area_per_price"):
        assert found[key].refusal == f"No strip length: {state.value}."
    assert strip_but(without("media_mass", state))["basis_weight"].refusal == (
        f"No dry weight of the strip: {state.value}."
    )


def test_width_without_hidden_part_is_refused():
    found = strip_but(without("media_hidden", State.SPOILED))
    assert found["exposed_area"].refusal == "No width hidden by the end caps: spoiled."
    assert found["whole_area"].refusal == ""


def test_exposed_width_stands_in_for_the_hidden():
    found = strip_but(
        without("media_hidden", State.SPOILED), number("media_exposed_width", 55, "millimeter")
    )
    assert found["exposed_area"].quantity.to("centimeter**2").magnitude == pytest.approx(660)
    assert found["exposed_area"].readings == ("media_length-a", "media_exposed_width-a")


@pytest.mark.parametrize("hidden", [62, 80])
def test_all_hidden_is_absurd(hidden):
    found = strip_but(number("media_hidden", hidden, "millimeter"))["exposed_area"]
    assert found.quantity is None
    assert found.refusal == (
        "The end caps would hide the whole width of the strip; read both widths again."
    )


def test_less_than_nothing_hidden_is_absurd():
    found = strip_but(number("media_hidden", -1, "millimeter"))["exposed_area"]
    assert "below zero" in found.refusal


@pytest.mark.parametrize("key", ["media_length", "media_width", "media_mass", "media_thickness"])
@pytest.mark.parametrize("absurd", [0, -3])
def test_nothing_or_less_is_refused(key, absurd):
    unit = str(STRIP[key].quantity.units)
    found = strip_but(number(key, absurd, unit))["sheet_density"]
    assert found.quantity is None
    assert found.refusal.endswith("is not above zero; read it again.")


def test_no_pleats_have_no_depth():
    found = strip_but(number("pleat_count", 0, "count"))["pleat_depth"]
    assert found.refusal == "The pleat count is not above zero; read it again."


@pytest.mark.parametrize(
    ("price", "said"),
    [(None, "No price stated: not answered."), (Decimal(0), "The price stated is nothing")],
)
def test_price_is_needed(price, said):
    found = figures(*STRIP.values(), specimen=replace(ALPHA, price=price))["area_per_price"]
    assert found.quantity is None
    assert found.refusal.startswith(said)


def test_estimate_in_marks_the_figure():
    about = number("media_length", 1200, "millimeter", state=State.ESTIMATE)
    found = strip_but(about, number("inlet_hole_count", 6, "count"))
    assert found["exposed_area"].estimate
    assert found["sheet_density"].estimate
    assert not strip_but()["exposed_area"].estimate


def test_density_carries_the_foot_pressure():
    found = strip_but()
    assert found["sheet_density"].contact_pressure_kpa == 50.0
    assert found["basis_weight"].contact_pressure_kpa is None


def test_readings_behind_a_figure_are_listed_once():
    found = strip_but()["area_per_price"]
    assert found.readings == ("media_length-a", "media_width-a", "media_hidden-a")
    assert found.kind.formula
    assert found.specimen_id == "a"
