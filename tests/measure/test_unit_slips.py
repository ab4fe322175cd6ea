"""A number said in one unit and meant in another: the question names the likely one.

The factors are those of NIST SP 811: 1 in = 25.4 mm, 1 oz = 28.349523125 g, 1 psi = 6.894757 kPa.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import AskAgain
from benchlog.measure.entry import parse_entry
from benchlog.measure.ranges import check_range, likely_units
from benchlog.measure.units import convert
from benchlog.trade.sequence_file import load_sequence


def question(key, text, *, inch=False):
    """What the bench asks when `text` is typed for an attribute."""
    asked = load_sequence("spin_on").attribute(key)
    said = parse_entry(text, asked.inch_unit if inch else asked.unit, asked.dimension)
    with pytest.raises(AskAgain) as caught:
        check_range(
            convert(float(said.value), said.unit, asked.unit),
            asked.unit,
            (asked.soft.low, asked.soft.high),
            (asked.hard.low, asked.hard.high),
            asked.label,
            said=said,
        )
    return caught.value.what


@pytest.mark.parametrize(
    ("key", "text", "meant"),
    [
        ("media_thickness", "0.62 in", "0.62 mm"),
        ("media_thickness", "20", "20 thou"),
        ("media_thickness", "0.02", "0.02 in"),
        ("media_thickness", "620", "620 µm"),
        ("media_length", "48", "48 in"),
        ("media_length", "137", "137 cm"),
        ("media_width", "4.1", "4.1 in or 4.1 cm"),
        ("can_diameter", "76.1 in", "76.1 mm"),
        ("can_wall", "15", "15 thou"),
        ("whole_mass", "10.1", "10.1 oz"),
        ("whole_mass", "312.4 oz", "312.4 g"),
        ("media_mass", "0.42", "0.42 oz"),
        ("bypass_marked", "12", "12 psi"),
        ("bypass_marked", "1.1", "1.1 bar"),
        ("bypass_marked", "80 psi", "80 kPa"),
        ("bypass_marked", "12 bar", "12 psi"),
        ("bypass_force", "0.83", "0.83 lbf or 0.83 kgf"),
        ("spring_load", "8", "8 lbf or 8 kgf"),
    ],
)
def test_slip_of_the_unit_is_recognised(key, text, meant):
    assert f"Did you mean {meant}?" in question(key, text)


@pytest.mark.parametrize(
    ("text", "meant"), [("0.62", "0.62 mm"), ("20", "20 thou"), ("0.71", "0.71 mm")]
)
def test_bench_in_inches_recognises_it_too(text, meant):
    assert f"Did you mean {meant}?" in question("media_thickness", text, inch=True)


def test_no_unit_is_guessed_where_none_would_do():
    assert "Did you mean" not in question("pleat_count", "7")
    assert "Did you mean" not in question("media_thickness", "5000 m")


@given(st.floats(0.36, 1.19))
def test_the_likely_unit_puts_the_number_inside(size):
    said = parse_entry(f"{size:.3f} in", "millimeter", "length")
    for unit in likely_units("millimeter", (0.35, 1.2), said):
        assert unit != "inch"
        assert 0.35 <= convert(float(said.value), unit, "millimeter") <= 1.2


def test_an_interval_is_not_guessed_about():
    said = parse_entry("8-11 bar", "kilopascal", "pressure")
    assert likely_units("kilopascal", (55, 207), said) == ()
