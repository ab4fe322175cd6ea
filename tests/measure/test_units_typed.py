"""Units that reviewers type, metric and American, against NIST SP 811, B.8 (from memory)."""

from __future__ import annotations

import pytest

from benchlog.errors import EntryRefused
from benchlog.measure.dimensions import DIMENSIONS
from benchlog.measure.entry import parse_entry
from benchlog.measure.units import canonical, si_unit, to_si, unit_symbol

TYPED = [
    # typed, dimension, SI value
    ("1 gal/min", "volume_rate", 6.309020e-5),
    ("1 gpm", "volume_rate", 6.309020e-5),
    ("1 US gal/min", "volume_rate", 6.309020e-5),
    ("1 gal/h", "volume_rate", 1.051503e-6),
    ("1 fl oz/hr", "volume_rate", 2.957353e-5 / 3600),
    ("30 L/min", "volume_rate", 5.0e-4),
    ("30 L per minute", "volume_rate", 5.0e-4),
    ("6 mL / h", "volume_rate", 6e-6 / 3600),
    ("6 ml per hour", "volume_rate", 6e-6 / 3600),
    ("1 L/h", "volume_rate", 1e-3 / 3600),
    ("1 cfm/ft2", "face_flow", 5.08e-3),  # 1 cfm/ft² is 5.08 L/(m²·s): WO2015/110694
    ("1 ft³/min/ft²", "face_flow", 5.08e-3),
    ("1 ft/min", "face_flow", 5.08e-3),
    ("500 mm/s", "face_flow", 0.5),
    ("50 cm3/cm2/s", "face_flow", 0.5),
    ("500 L/m²·s", "face_flow", 0.5),
    ("500 L/(m² s)", "face_flow", 0.5),
    ("4.2 N/mm", "spring_rate", 4200.0),
    ("1 N/m", "spring_rate", 1.0),
    ("1 lbf/in", "spring_rate", 175.1268),
    ("1 lbs/in", "spring_rate", 175.1268),
    ("1 kgf/mm", "spring_rate", 9806.65),
    ("1 inHg", "pressure", 3386.389),
    ("1 mmHg", "pressure", 133.3224),
    ("1 torr", "pressure", 133.3224),
    ("1 hPa", "pressure", 100.0),
    ("1 kgf/cm²", "pressure", 98066.5),
    ("1 kg/cm2", "pressure", 98066.5),
    ("1 in Aq", "pressure", 249.0889),
    ("1 yd", "length", 0.9144),
    ("6.6 dm²", "area", 0.066),
    ("1 lbm", "mass", 0.45359237),
    ("1 osy", "area_mass", 0.03390575),
    ("161 g/sq m", "area_mass", 0.161),
]


@pytest.mark.parametrize(("text", "dimension", "expected"), TYPED)
def test_typed_unit_comes_to_si(text: str, dimension: str, expected: float) -> None:
    said = parse_entry(text, "", dimension)
    value, unit = to_si(said.value, said.unit)
    assert value == pytest.approx(expected, rel=1e-6)
    assert canonical(unit) == canonical(DIMENSIONS[dimension].si_unit) == canonical(si_unit(unit))


def test_gallon_is_printed_as_that_of_the_united_states() -> None:
    # An imperial gallon is 4.54609 L, that of the United States 3.785412 L: NIST SP 811 B.8
    assert unit_symbol("gallon / minute") == "US gal/min"
    assert to_si(parse_entry("1 gpm", "", "volume_rate").value, "gallon / minute")[0] * 60 == (
        pytest.approx(3.785412e-3, rel=1e-6)
    )


def test_bare_ounce_an_hour_is_neither_weight_nor_volume() -> None:
    with pytest.raises(EntryRefused, match="'oz/h' is not a unit known here"):
        parse_entry("1 oz/h", "", "volume_rate")


@pytest.mark.parametrize(("text", "dimension"), [("3 psi", "volume_rate"), ("3 gpm", "pressure")])
def test_unit_of_another_dimension_is_refused(text: str, dimension: str) -> None:
    with pytest.raises(EntryRefused, match="is asked for here"):
        parse_entry(text, "", dimension)
