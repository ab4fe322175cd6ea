"""What is printed with its uncertainty is read back as the same, in every unit that is taken."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.measure.entry import parse_entry
from benchlog.measure.rounding import interval_text, short, with_uncertainty
from benchlog.measure.unit_words import UNITS_SAID
from benchlog.measure.units import canonical, convert, registry, si_unit
from benchlog.trade.sequence_file import load_sequence
from tests.derive.as_said import SEQUENCES

K = 1.959964  # normal quantile for 95 %, JCGM 100 table G.1
units = st.sampled_from(sorted(UNITS_SAID))
sizes = st.floats(0.01, 9e4)
shares = st.floats(1e-4, 0.3)

PRINTED = {
    unit: attribute.dimension or "count"
    for name in SEQUENCES
    for attribute in load_sequence(name).attributes
    if attribute.is_number
    for unit in (attribute.unit, attribute.inch_unit)
}


def quantity(value: float, u: float, unit: str):
    return registry().Quantity(ufloat(value, u), unit)


@given(units, sizes, shares)
def test_value_and_expanded_uncertainty_read_back(unit: str, value: float, share: float) -> None:
    u = share * value
    said = parse_entry(with_uncertainty(quantity(value, u, unit), unit), unit, UNITS_SAID[unit][0])
    assert canonical(said.unit) == canonical(unit)
    assert said.high is not None
    # Two digits of U are kept, so that half of the last place is at most a twentieth of U.
    assert abs(float(said.value) - value) <= 0.051 * K * u
    assert float(said.high - said.value) == pytest.approx(K * u, rel=0.051)


@given(units, sizes, shares)
def test_short_form_reads_back_to_what_is_known(unit: str, value: float, share: float) -> None:
    u = share * value
    said = parse_entry(short(quantity(value, u, unit), unit), unit, UNITS_SAID[unit][0])
    assert canonical(said.unit) == canonical(unit)
    assert abs(float(said.value) - value) <= 0.051 * K * u
    assert said.low is said.high is None


@given(units, st.integers(1, 9999), st.integers(1, 9999))
def test_interval_reads_back(unit: str, low: int, wide: int) -> None:
    high = low + wide
    said = parse_entry(interval_text(low, min(high, 9999 + low), unit), unit, UNITS_SAID[unit][0])
    assert (said.low, said.high) == (low, high)
    assert canonical(said.unit) == canonical(unit)


@given(units, st.integers(1, 99_999))
def test_exact_value_has_no_plus_minus(unit: str, value: int) -> None:
    text = with_uncertainty(registry().Quantity(float(value), unit), unit)
    said = parse_entry(text, unit, UNITS_SAID[unit][0])
    assert "±" not in text
    assert (said.value, said.high) == (value, None)


@pytest.mark.parametrize("unit", sorted(PRINTED))
def test_every_unit_of_an_attribute_is_printed_and_taken(unit: str) -> None:
    text = with_uncertainty(quantity(12.34, 0.05, unit), unit)
    said = parse_entry(text, unit, PRINTED[unit])
    assert canonical(said.unit) == canonical(unit)
    assert said.value == Decimal("12.340")
    assert said.high == Decimal("12.438")


@given(units, sizes)
def test_other_unit_of_a_dimension_says_the_same(unit: str, value: float) -> None:
    word = UNITS_SAID[unit][0]
    for other in (u for u, (said, _) in UNITS_SAID.items() if said == word):
        there = convert(value, unit, other)
        assert convert(there, other, si_unit(unit)) == pytest.approx(
            convert(value, unit, si_unit(unit)), rel=1e-9
        )
