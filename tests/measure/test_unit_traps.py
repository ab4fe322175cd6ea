"""Units that are easily mistaken, against NIST SP 811 (2008), appendix B (figures from memory)."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.errors import EntryRefused, OurFault
from benchlog.measure.entry import parse_entry
from benchlog.measure.quantities import si_number, uncertainty_in, value_in
from benchlog.measure.units import convert, registry, same_dimension, to_si, unit_symbol

# said, usual unit, dimension, SI value, digits known. SP 811 B.8: psi 6.894 757 E+03 Pa; inch of
# water, conventional, 2.490 889 E+02 Pa; millimetre of water 9.806 65 Pa; mil 2.54 E−05 m; grain
# 6.479 891 E−05 kg; ounce (avoirdupois) 2.834 952 E−02 kg; ounce-force 2.780 139 E−01 N
SAID = [
    ("12 psig", "kilopascal", "pressure", 12 * 6894.757, 2e-7),
    ("12 psid", "kilopascal", "pressure", 12 * 6894.757, 2e-7),
    ("0 psig", "kilopascal", "pressure", 0.0, 0.0),
    ("4 inH2O", "pascal", "pressure", 4 * 249.0889, 2e-7),
    ('4 "H2O', "pascal", "pressure", 4 * 249.0889, 2e-7),
    ("4 in of water", "pascal", "pressure", 4 * 249.0889, 2e-7),
    ("3.5 in", "millimeter_H2O", "pressure", 3.5 * 249.0889, 2e-7),
    ("89 mm", "millimeter_H2O", "pressure", 89 * 9.80665, 1e-12),
    ("15 thou", "millimeter", "length", 15 * 2.54e-5, 1e-12),
    ("15 mil", "millimeter", "length", 15 * 2.54e-5, 1e-12),
    ("1/64 in", "millimeter", "length", 0.0254 / 64, 1e-12),
    ("3 7/16 in", "millimeter", "length", 3.4375 * 0.0254, 1e-12),
    ("330 gr", "gram", "mass", 330 * 6.479891e-5, 1e-12),
    ("330 g", "gram", "mass", 0.330, 1e-12),
    ("10.1 oz", "gram", "mass", 10.1 * 0.028349523125, 1e-12),
    ("1 lb 3.5 oz", "gram", "mass", 19.5 * 0.028349523125, 1e-12),
    ("10 oz", "newton", "force", 10 * 0.2780139, 2e-7),
    ("0.83 kg", "newton", "force", 0.83 * 9.80665, 1e-12),
    ("17 in lb", "newton * meter", "torque", 17 * 0.1129848, 3e-7),
    ("192 in2", "centimeter ** 2", "area", 192 * 6.4516e-4, 1e-12),
    ("5 oz/yd2", "gram / meter ** 2", "area_mass", 5 * 0.03390575, 2e-7),
    ("70 °F", "degree_Celsius", "temperature", (70 + 459.67) / 1.8, 1e-12),
    ("21 C", "degree_Celsius", "temperature", 294.15, 1e-12),
]  # fmt: skip


@pytest.mark.parametrize(("text", "usual", "dimension", "expected", "known"), SAID)
def test_entry_means_what_the_trade_means(
    text: str, usual: str, dimension: str, expected: float, known: float
) -> None:
    said = parse_entry(text, usual, dimension)
    assert to_si(said.value, said.unit)[0] == pytest.approx(expected, rel=known, abs=1e-15)


# Absolute pressure, volume and troy measure would be wrong by an atmosphere, a dimension, a tenth
@pytest.mark.parametrize(
    ("text", "usual", "dimension"),
    [
        ("12 psia", "kilopascal", "pressure"),
        ("80 kPa abs", "kilopascal", "pressure"),
        ("1 atm", "kilopascal", "pressure"),
        ("10 fl oz", "gram", "mass"),
        ("10 ozt", "gram", "mass"),
    ],
)
def test_what_could_mislead_is_refused(text: str, usual: str, dimension: str) -> None:
    with pytest.raises(EntryRefused, match=r"not a unit|several numbers|not understood"):
        parse_entry(text, usual, dimension)


# SP 811 B.8, and B.7 for its rounding: one unit, other, factor
FACTORS = [
    ("inch_H2O", "millimeter_H2O", 25.4),
    ("pound_force_per_square_inch", "inch_H2O", 27.6799),
    ("bar", "pound_force_per_square_inch", 14.50377),
    ("millimeter_Hg", "pascal", 133.3224),
    ("ounce", "grain", 437.5),
    ("pound", "ounce", 16.0),
    ("pound", "grain", 7000.0),
    ("inch", "thou", 1000.0),
    ("force_pound * inch", "meter * newton", 0.1129848),
    ("pound / foot ** 3", "gram / centimeter ** 3", 0.01601846),
    ("inch ** 2", "centimeter ** 2", 6.4516),
    ("foot ** 2", "meter ** 2", 0.09290304),
]


@pytest.mark.parametrize(("one", "other", "factor"), FACTORS)
def test_factors_hold_there_and_back(one: str, other: str, factor: float) -> None:
    assert convert(1.0, one, other) == pytest.approx(factor, rel=2e-6)
    assert convert(1.0, other, one) == pytest.approx(1 / factor, rel=2e-6)


def test_difference_of_temperatures_has_no_nought() -> None:
    # SP 811 B.8: an interval of 1 °F is 5.555 556 E−01 K, an interval of 1 °C is 1 K
    assert convert(1.0, "delta_degree_Fahrenheit", "kelvin") == pytest.approx(0.5555556, rel=1e-7)
    assert convert(9.0, "delta_degree_Fahrenheit", "delta_degree_Celsius") == pytest.approx(5.0)
    assert convert(1.0, "delta_degree_Celsius", "kelvin") == 1.0
    assert unit_symbol("delta_degree_Celsius") == "Δ°C"


@pytest.mark.parametrize("scale", ["degree_Celsius", "degree_Fahrenheit"])
@pytest.mark.parametrize("step", ["delta_degree_Celsius", "delta_degree_Fahrenheit"])
def test_difference_is_no_temperature(scale: str, step: str) -> None:
    assert not same_dimension(scale, step)
    assert not same_dimension(step, scale)
    with pytest.raises(OurFault, match="cannot be turned"):
        convert(10.0, step, scale)


def test_two_temperatures_differ_without_their_nought() -> None:
    registered = registry()
    warm, cold = (registered.Quantity(t, "degree_Celsius") for t in (100.0, 40.0))
    apart = warm - cold
    assert str(apart.units) == "delta_degree_Celsius"
    assert apart.m_as("kelvin") == pytest.approx(60.0)
    assert apart.m_as("delta_degree_Fahrenheit") == pytest.approx(108.0)


@given(st.floats(-60, 400), st.floats(0.01, 5))
def test_uncertainty_of_a_temperature_scales_only(value: float, u: float) -> None:
    warm = registry().Quantity(ufloat(value, u), "degree_Fahrenheit")
    assert uncertainty_in(warm, "degree_Celsius") == pytest.approx(u / 1.8)
    assert value_in(warm, "degree_Celsius") == pytest.approx((value - 32) / 1.8, abs=1e-9)
    inside = si_number(warm)
    assert inside.std_dev == pytest.approx(u / 1.8)
    assert inside.nominal_value == pytest.approx((value + 459.67) / 1.8)


@given(
    st.decimals(Decimal("0.001"), Decimal("9999"), places=3),
    st.sampled_from(["psi", "inH2O", "thou", "gr", "oz", "lbf", "in2", "oz/yd2", "°F"]),
)
def test_conversion_comes_back_to_what_was_said(number: Decimal, unit: str) -> None:
    dimensions = {
        "psi": "pressure", "inH2O": "pressure", "thou": "length", "gr": "mass", "oz": "mass",
        "lbf": "force", "in2": "area", "oz/yd2": "area_mass", "°F": "temperature",
    }  # fmt: skip
    said = parse_entry(f"{number} {unit}", "", dimensions[unit])
    value, si = to_si(said.value, said.unit)
    assert said.value == number
    assert convert(value, si, said.unit) == pytest.approx(float(number), rel=1e-9, abs=1e-9)
