"""What is printed can be typed again."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import EntryRefused
from benchlog.measure.dimensions import DIMENSIONS
from benchlog.measure.entry import parse_entry, step_said
from benchlog.measure.rounding import estimate_text, interval_text, rounded
from benchlog.measure.unit_words import UNITS_SAID
from benchlog.measure.units import canonical, convert, dimension_of, to_si, unit_symbol

numbers = st.decimals(Decimal("-99999"), Decimal("99999"), places=3, allow_nan=False)


@given(numbers)
def test_decimal_number_round_trips(number: Decimal) -> None:
    assert str(parse_entry(f"{number} mm", "inch", "length").value) == str(number)


@given(numbers)
def test_decimal_comma_means_the_same(number: Decimal) -> None:
    whole, places = f"{number:.2f}".split(".")
    with_comma = parse_entry(f"{whole},{places} g", "gram", "mass")
    assert with_comma.value == parse_entry(f"{whole}.{places} g", "gram", "mass").value


@given(st.integers(0, 99), st.integers(1, 63))
def test_sixty_fourths_are_exact(whole: int, top: int) -> None:
    said = parse_entry(f"{whole} {top}/64 in", "millimeter", "length")
    assert said.value * 64 == whole * 64 + top
    assert to_si(said.value, said.unit)[0] == pytest.approx((whole + top / 64) * 0.0254, rel=1e-12)


@given(st.integers(1, 9_000), st.integers(1, 900))
def test_printed_interval_reads_back(low: int, width: int) -> None:
    said = parse_entry(interval_text(low, low + width, "psi"), "kilopascal", "pressure")
    assert (said.low, said.high) == (low, low + width)
    assert canonical(said.unit) == canonical("psi")


@given(st.floats(0.001, 9e4), st.floats(1e-4, 50.0))
def test_printed_value_reads_back_within_rounding(value: float, u: float) -> None:
    text, width = rounded(value, u)
    said = parse_entry(f"{text} ± {width} mm", "inch", "length")
    assert said.value == pytest.approx(Decimal(text))
    assert abs(float(said.value) - value) <= 0.051 * u
    assert said.high is not None
    assert float(said.high - said.value) == pytest.approx(u, rel=0.051)


@pytest.mark.parametrize("unit", sorted(UNITS_SAID))
def test_every_printed_symbol_can_be_typed(unit: str) -> None:
    word = UNITS_SAID[unit][0]
    said = parse_entry(f"7 {unit_symbol(unit)}", unit, word)
    assert canonical(said.unit) == canonical(unit)


@pytest.mark.parametrize("unit", sorted(UNITS_SAID))
def test_every_unit_measures_what_is_said(unit: str) -> None:
    word = UNITS_SAID[unit][0]
    assert dimension_of(unit) == word or (word == "hardness" and dimension_of(unit) == "ratio")


@given(st.sampled_from(sorted(UNITS_SAID)), st.floats(0.01, 1e4))
def test_there_and_back_changes_nothing(unit: str, value: float) -> None:
    si = DIMENSIONS[UNITS_SAID[unit][0]].si_unit
    assert convert(convert(value, unit, si), si, unit) == pytest.approx(value, rel=1e-12)


def test_estimate_is_printed_with_its_interval() -> None:
    assert estimate_text(5.0, 4.5, 5.5, "turn") == "about 5 turns (4.5 to 5.5)"


@pytest.mark.parametrize("typed", ["16 tpi", "16TPI", "16 threads per inch", "16 threads/in"])
def test_threads_in_an_inch_are_a_pitch(typed: str) -> None:
    # ASME B1.1: the pitch is one over the threads in an inch; 16 of them are 1.5875 mm
    said = parse_entry(typed, "millimeter", "length")
    assert (said.value, said.unit, said.text) == (Decimal("0.0625"), "inch", typed)
    # 15 and 17 threads in an inch are 0.0667 and 0.0588 in: the next blades of the gauge
    assert float(step_said(said)) == pytest.approx(1 / 256)


@pytest.mark.parametrize("typed", ["0 tpi", "tpi", "16 tpi 2", "1/2 tpi"])
def test_no_threads_are_no_pitch(typed: str) -> None:
    with pytest.raises(EntryRefused):
        parse_entry(typed, "millimeter", "length")


def test_threads_are_no_weight() -> None:
    with pytest.raises(EntryRefused):
        parse_entry("16 tpi", "gram", "mass")
