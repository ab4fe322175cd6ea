"""The stated conditions of a line-up as they are typed: flow, oil, pressure, distance a year."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from benchlog.errors import EntryRefused, PlanRefused
from benchlog.measure.entry import parse_entry
from benchlog.measure.plain_text import plain
from benchlog.measure.rounding import as_is
from benchlog.measure.units import convert, unit_symbol
from benchlog.trade.conditions import Conditions, usual_conditions
from benchlog.trade.oil_grade import load_oil_grades
from benchlog.trade.specimen import Lineup

VISCOSITY = "kinematic viscosity"
_VISCOSITY_UNITS = ("mm2/s", "cst")


@dataclass(frozen=True)
class StatedField:
    """One condition: its label, the unit of a bare number, and within what it can be believed."""

    key: str
    label: str
    help: str
    dimension: str
    unit: str
    low: float
    high: float
    may_be_empty: bool = False

    @property
    def symbol(self) -> str:
        """The printed unit of a bare number."""
        return "mm²/s" if self.dimension == VISCOSITY else unit_symbol(self.unit)


FIELDS = (
    StatedField(
        "flow_l_min",
        "Oil flow",
        "for face velocity and pressure drop",
        "volume_rate",
        "liter / minute",
        0.1,
        1000.0,
    ),
    StatedField(
        "oil_temperature_c",
        "Oil temperature",
        "for the oil's viscosity",
        "temperature",
        "degree_Celsius",
        -50.0,
        200.0,
    ),
    StatedField(
        "oil_v40",
        "Viscosity at 40 °C",
        "empty: the grade counts",
        VISCOSITY,
        "millimeter ** 2 / second",
        2.0,
        2000.0,
        may_be_empty=True,
    ),
    StatedField(
        "oil_v100",
        "Viscosity at 100 °C",
        "empty: the grade counts",
        VISCOSITY,
        "millimeter ** 2 / second",
        1.0,
        100.0,
        may_be_empty=True,
    ),
    StatedField(
        "oil_density_kg_m3",
        "Oil density",
        "at 15 °C, as data sheets give it",
        "density",
        "kilogram / meter ** 3",
        600.0,
        1200.0,
    ),
    StatedField(
        "can_pressure_kpa",
        "Pressure in the can",
        "for the stress in its wall",
        "pressure",
        "kilopascal",
        1.0,
        10000.0,
    ),
    StatedField(
        "km_per_year",
        "Distance in a year",
        "for the price of a year",
        "length",
        "kilometer",
        1.0,
        500000.0,
    ),
)
"""Every condition that is a number; the oil's grade is chosen from the table of grades."""


def grades() -> tuple[str, ...]:
    """Return the oil grades to choose from, thin to thick."""
    return tuple(grade.key for grade in load_oil_grades().grades)


def conditions_of(lineup: Lineup) -> Conditions:
    """Return what a line-up states; the usual conditions unless it says otherwise."""
    return lineup.conditions or usual_conditions()


def as_typed(conditions: Conditions) -> dict[str, str]:
    """Return every condition as one would type it, by key; what is not known is empty."""
    texts = {}
    for field in FIELDS:
        value = getattr(conditions, field.key)
        known = value or not field.may_be_empty
        texts[field.key] = f"{as_is(value)} {field.symbol}" if known else ""
    return texts


def in_words(conditions: Conditions) -> str:
    """Return all that is stated in one line; the oil's grade only where it counts."""
    oil_known = conditions.oil_v40 and conditions.oil_v100
    parts = [] if oil_known else [f"oil of grade {conditions.oil_grade}"]
    typed = as_typed(conditions)
    parts += [f"{f.label[0].lower()}{f.label[1:]} {typed[f.key]}" for f in FIELDS if typed[f.key]]
    return "; ".join(parts)


def understood(texts: Mapping[str, str], grade: str) -> Conditions | None:
    """Return the conditions that were typed, None when they are the usual ones.

    Raises PlanRefused, naming the field, for a text that is no number of its dimension, a value
    that cannot be believed, and an oil that is thicker hot than cold.
    """
    values = {field.key: _value(field, texts.get(field.key, "")) for field in FIELDS}
    if values["oil_v40"] and values["oil_v40"] <= values["oil_v100"]:
        raise PlanRefused(
            "The oil would be no thinner at 100 °C than at 40 °C.",
            "Look at its data sheet again; the larger number belongs to 40 °C.",
            field="oil_v100",
        )
    if grade not in grades():
        raise PlanRefused(
            f"'{grade}' is no grade of the table.",
            f"Choose one of {', '.join(grades())}.",
            field="oil_grade",
        )
    stated = replace(usual_conditions(), oil_grade=grade, **values)
    return None if stated == usual_conditions() else stated


def _value(field: StatedField, text: str) -> float:
    if field.may_be_empty and not text.strip():
        return 0.0
    value = _viscosity(field, text) if field.dimension == VISCOSITY else _number(field, text)
    if not field.low <= value <= field.high:
        raise PlanRefused(
            f"{field.label}: {as_is(value)} {field.symbol} cannot be believed.",
            f"Type {as_is(field.low)} to {as_is(field.high)} {field.symbol}.",
            field=field.key,
        )
    return value


def _number(field: StatedField, text: str) -> float:
    try:
        said = parse_entry(text, field.unit, field.dimension)
    except EntryRefused as refusal:
        raise PlanRefused(f"{field.label}: {refusal.what}", refusal.do, field=field.key) from None
    if said.approximate or said.low is not None:
        raise PlanRefused(
            f"{field.label}: a stated condition is one number.",
            "Figures are worked out for just that number, so nothing is uncertain about it.",
            field=field.key,
        )
    # Twelve digits: what was typed in another unit and back is what was typed.
    return float(f"{convert(float(said.value), said.unit, field.unit):.12g}")


def _viscosity(field: StatedField, text: str) -> float:
    number = plain(text).casefold()
    for unit in _VISCOSITY_UNITS:
        number = number.removesuffix(unit).strip()
    try:
        value = float(number.replace(",", "."))
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise PlanRefused(
            f"{field.label}: '{text.strip()}' is no viscosity.",
            "Type it in mm²/s (cSt is the same), 62 for example.",
            field=field.key,
        )
    return value
