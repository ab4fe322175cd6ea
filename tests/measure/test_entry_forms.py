"""Entry as people say it; the forms are common practice at a bench, no source."""

from __future__ import annotations

from decimal import Decimal

import pytest

from benchlog.measure.entry import parse_entry
from benchlog.measure.units import canonical

SINGLE = [
    # text, usual unit, dimension, value, unit
    ("3.52 in", "millimeter", "length", "3.52", "inch"),
    ('3 7/16"', "millimeter", "length", "3.4375", "inch"),
    ("3-7/16 in", "millimeter", "length", "3.4375", "inch"),
    ('1-1/2"', "millimeter", "length", "1.5", "inch"),
    ("7/16", "inch", "length", "0.4375", "inch"),
    ("3½″", "millimeter", "length", "3.5", "inch"),
    ("½ in", "millimeter", "length", "0.5", "inch"),
    ("2/3 turn", "turn", "turn", "0.666666667", "turn"),
    ("20 thou", "millimeter", "length", "20", "thou"),
    ("20 mil", "millimeter", "length", "20", "thou"),
    ("0.51mm", "inch", "length", "0.51", "millimeter"),
    ("0.51 MM", "inch", "length", "0.51", "millimeter"),
    ("380 µm", "millimeter", "length", "380", "micrometer"),
    ("380 μm", "millimeter", "length", "380", "micrometer"),
    ("287.40 g", "gram", "mass", "287.40", "gram"),
    ("10.1 oz", "gram", "mass", "10.1", "ounce"),
    ("1.2 lbs", "gram", "mass", "1.2", "pound"),
    ("12.5 ct", "gram", "mass", "12.5", "carat"),
    ("33 gr", "gram", "mass", "33", "grain"),
    ("33 grains", "gram", "mass", "33", "grain"),
    ("3,52", "inch", "length", "3.52", "inch"),
    ("0,510 mm", "inch", "length", "0.510", "millimeter"),
    ("1234,567 mm", "inch", "length", "1234.567", "millimeter"),
    (".5", "millimeter", "length", "0.5", "millimeter"),
    ("5.", "millimeter", "length", "5", "millimeter"),
    ("−3 °C", "degree_Celsius", "temperature", "-3", "degree_Celsius"),
    ("70 °F", "degree_Celsius", "temperature", "70", "degree_Fahrenheit"),
    ("80 kPa", "psi", "pressure", "80", "kilopascal"),
    ("0.8 bar", "psi", "pressure", "0.8", "bar"),
    ("0.1 MPa", "psi", "pressure", "0.1", "megapascal"),
    ("8 inH2O", "psi", "pressure", "8", "inch_H2O"),
    ('8" H₂O', "psi", "pressure", "8", "inch_H2O"),
    ("200 mm of water", "psi", "pressure", "200", "millimeter_H2O"),
    ("200 mmH2O", "psi", "pressure", "200", "millimeter_H2O"),
    ("89 mm", "millimeter_H2O", "pressure", "89", "millimeter_H2O"),
    ('8"', "millimeter_H2O", "pressure", "8", "inch_H2O"),
    ("12 psi", "millimeter_H2O", "pressure", "12", "pound_force_per_square_inch"),
    ("102 in²", "centimeter ** 2", "area", "102", "inch ** 2"),
    ("102 sq in", "centimeter ** 2", "area", "102", "inch ** 2"),
    ("660 cm^2", "inch ** 2", "area", "660", "centimeter ** 2"),
    ("161 g/m²", "gram / meter ** 2", "area_mass", "161", "gram / meter ** 2"),
    ("12 mL/h", "milliliter / hour", "volume_rate", "12", "milliliter / hour"),
    ("65 Shore A", "dimensionless", "hardness", "65", "dimensionless"),
    ("65", "dimensionless", "hardness", "65", "dimensionless"),
    ("52 pleats", "count", "count", "52", "count"),
    ("5 1/2", "count", "count", "5.5", "count"),
    ("270°", "turn", "turn", "270", "degree"),
    ("12 h", "minute", "time", "12", "hour"),
    ("0.5 N·m", "meter * newton", "torque", "0.5", "meter * newton"),
    ("13 ft-lb", "meter * newton", "torque", "13", "foot * force_pound"),
    ("0.83 kg", "newton", "force", "0.83", "force_kilogram"),
    ("8 lb", "newton", "force", "8", "force_pound"),
    ("4 ft 2 1/2 in", "millimeter", "length", "50.5", "inch"),
    ("4' 2\"", "millimeter", "length", "50", "inch"),
    ("1 lb 3.5 oz", "gram", "mass", "19.5", "ounce"),
    ("1e-3 m", "millimeter", "length", "0.001", "meter"),
]


@pytest.mark.parametrize(("text", "usual", "dimension", "value", "unit"), SINGLE)
def test_one_number_is_taken(text: str, usual: str, dimension: str, value: str, unit: str) -> None:
    said = parse_entry(text, usual, dimension)
    assert said.value == Decimal(value)
    assert canonical(said.unit) == canonical(unit)
    assert (said.low, said.high, said.approximate) == (None, None, False)
    assert said.text == text


INTERVALS = [
    ("8-11 psi", "8", "9.5", "11"),
    ("8–11", "8", "9.5", "11"),
    ("8 — 11", "8", "9.5", "11"),
    ("8 to 11 psi", "8", "9.5", "11"),
    ("8to11", "8", "9.5", "11"),
    ("8..11 psi", "8", "9.5", "11"),
    ("8 … 11 psi", "8", "9.5", "11"),
    ("8 psi - 11 psi", "8", "9.5", "11"),
    ("8 psi to 11", "8", "9.5", "11"),
    ("between 8 and 11 psi", "8", "9.5", "11"),
    ("from 8 to 11 psi", "8", "9.5", "11"),
    ("1/2-3/4", "0.5", "0.625", "0.75"),
    ("1 1/2 to 2 1/2", "1.5", "2", "2.5"),
    ("7,5-8,5", "7.5", "8", "8.5"),
    ("-5--3", "-5", "-4", "-3"),
    ("5 +/- 0.5", "4.5", "5", "5.5"),
    ("5 psi ± 0.5 psi", "4.5", "5", "5.5"),
    ("5 ± 10 %", "4.5", "5", "5.5"),
    ("5 psi ± 10%", "4.5", "5", "5.5"),
]


@pytest.mark.parametrize(("text", "low", "middle", "high"), INTERVALS)
def test_interval_keeps_both_ends(text: str, low: str, middle: str, high: str) -> None:
    said = parse_entry(text, "pound_force_per_square_inch", "pressure")
    assert (said.low, said.value, said.high) == (Decimal(low), Decimal(middle), Decimal(high))
    assert said.unit == "pound_force_per_square_inch"
    assert not said.approximate


@pytest.mark.parametrize(
    "word", ["~", "~ ", "≈", "about ", "About ", "approx. ", "around ", "ca. "]
)
def test_about_marks_approximate(word: str) -> None:
    said = parse_entry(f"{word}5", "turn", "turn")
    assert said.approximate
    assert said.value == 5
    assert said.low is None


def test_about_with_interval_keeps_it() -> None:
    said = parse_entry("~8-11 psi", "kilopascal", "pressure")
    assert (said.approximate, said.low, said.high) == (True, Decimal(8), Decimal(11))


def test_trailing_nought_is_kept() -> None:
    assert str(parse_entry("287.40 g", "gram", "mass").value) == "287.40"


def test_bare_count_needs_no_unit_given() -> None:
    assert parse_entry("52", "", "count").unit == "count"


@pytest.mark.parametrize("unit", ["count", "gram", "furlong per nothing"])
def test_unknown_dimension_still_takes_number(unit: str) -> None:
    assert parse_entry("52", unit, "no such word").unit == unit
