"""Single readings as they are printed: bare numbers in a table's unit, else words."""

from __future__ import annotations

from benchlog.measure.reading import Reading
from benchlog.measure.units import canonical, unit_symbol
from benchlog.sheet.numbers import symbol


def said(reading: Reading) -> str:
    """Return a reading as it was said; its state's word where it has no value."""
    if not reading.state.has_value:
        return reading.state.value
    if reading.said is None:
        return reading.text or reading.word or reading.state.value
    number = said_number(reading, "")
    unit = unit_symbol(reading.said.unit) if number == "1" else symbol(reading.said.unit)
    return f"{number} {unit}".rstrip()


def said_number(reading: Reading, unit: str) -> str:
    """Return a reading's number, bare where it was said in `unit` ("" for whatever unit)."""
    number = reading.said
    if number is None or not reading.state.has_value:
        return said(reading)
    text = f"{number.value:f}"
    if number.low is not None and number.high is not None:
        text = f"{number.low:f} to {number.high:f}"
    if number.approximate:
        text = f"~{text}"
    other = unit and canonical(number.unit) != canonical(unit)
    return f"{text} {symbol(number.unit)}".rstrip() if other else text
