"""Viscosity of the stated oil at the stated temperature."""

from __future__ import annotations

import math
from functools import lru_cache

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number, exponential, natural_log
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.conditions import Conditions
from benchlog.trade.oil_grade import load_oil_grades

KELVIN = 273.15
OFFSET = 0.7
"""mm²/s that ASTM D341 adds before the logarithms are taken; enough above 2 mm²/s."""
LEAST = 2.0
"""mm²/s below which the short form of ASTM D341 does not hold."""
POINTS_C = (40.0, 100.0)
USABLE_C = (-50.0, 250.0)
"""Beyond these no engine oil is a liquid in use; common practice, no source."""
EXPANSION = (6.5e-4, 8.0e-4)
"""Share of its density at 15 °C that an oil loses for each °C.

Set around ASTM D1250 for lubricating oils, whose first term is 0.6278/ρ₁₅: 7.4e-4 at 850 kg/m³.
"""

KINEMATIC = FigureKind(
    key="oil_kinematic_viscosity",
    label="Kinematic viscosity of the oil",
    component=Component.MEDIA,
    formula=(
        "lg lg(ν + 0.7) = A − B × lg T: line through the two stated viscosities, "
        "ν in mm²/s, T in kelvin; or the limits of the grade at 100 °C"
    ),
    inputs=(),
    unit="millimeter**2/second",
    inch_unit="millimeter**2/second",
    judged=Judged.INPUT,
    support=Support.STANDARD,
    source="ASTM D341 (Walther's equation); SAE J300, editions 2015 to 2021, for a grade",
    note="The oil is stated, not measured: it is the same for every specimen.",
    bounded=True,
)

DYNAMIC = FigureKind(
    key="oil_viscosity",
    label="Dynamic viscosity of the oil",
    component=Component.MEDIA,
    formula=(
        "μ = ν × ρ₁₅ × (1 − β × (T − 15 °C)): kinematic viscosity × density at the temperature, "
        "ν by ASTM D341 or by the grade's limits"
    ),
    inputs=(),
    unit="millipascal*second",
    inch_unit="millipascal*second",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="definition; ASTM D341; SAE J300; thermal expansion around that of ASTM D1250",
    note="The oil is stated, not measured: it is the same for every specimen.",
    bounded=True,
)


def kinematic(inputs: Inputs) -> Number:
    """Kinematic viscosity at the stated temperature, m²/s; raises CannotWork.

    By ASTM D341 from two stated viscosities. A grade alone has limits at 100 °C and no others,
    so at another temperature it is refused.
    """
    oil = inputs.conditions
    if not USABLE_C[0] <= oil.oil_temperature_c <= USABLE_C[1]:
        raise CannotWork(f"No engine oil is in use at {oil.oil_temperature_c:g} °C; put it right.")
    if oil.oil_v40 > 0 and oil.oil_v100 > 0:
        return _by_two_points(inputs)
    return _by_grade(inputs)


def dynamic(inputs: Inputs) -> Number:
    """Dynamic viscosity at the stated temperature, Pa·s; raises CannotWork."""
    return kinematic(inputs) * _density(inputs)


@lru_cache(maxsize=64)
def walther_constants(oil: Conditions) -> tuple[float, float]:
    """Return A and B of ASTM D341 through the two stated viscosities (mm²/s, kelvin)."""
    low, high = (KELVIN + point for point in POINTS_C)
    thick, thin = _lg_lg(oil.oil_v40), _lg_lg(oil.oil_v100)
    b = (thick - thin) / math.log10(high / low)
    return thick + b * math.log10(low), b


def _lg_lg(viscosity: float) -> float:
    return math.log10(math.log10(viscosity + OFFSET))


def _by_two_points(inputs: Inputs) -> Number:
    """ASTM D341 between (or beyond) the two points.

    The line is straight in any base of the logarithm, so natural ones serve, and ratios of
    temperatures make it free of units.
    """
    oil = inputs.conditions
    _ask_of_two_points(inputs)
    a, b = walther_constants(oil)
    said = (
        f"The oil is the one stated: {oil.oil_v40:g} mm²/s at 40 °C and {oil.oil_v100:g} mm²/s at "
        f"100 °C, on the line of ASTM D341 with A = {a:.4f} and B = {b:.4f}."
    )
    thick = inputs.stated("oil_v40", oil.oil_v40, "millimeter**2/second", said)
    thin = inputs.stated("oil_v100", oil.oil_v100, "millimeter**2/second", said)
    cold, hot = (inputs.stated(f"oil_at_{p:g}", p, "degree_Celsius", said) for p in POINTS_C)
    offset = inputs.stated("d341_offset", OFFSET, "millimeter**2/second", said)
    one = offset / OFFSET
    high, low = (natural_log(natural_log((v + offset) / one)) for v in (thick, thin))
    way = natural_log(temperature(inputs) / cold) / natural_log(hot / cold)
    return one * exponential(exponential(high + (low - high) * way)) - offset


def _ask_of_two_points(inputs: Inputs) -> None:
    """Refuse two viscosities that are no oil's, and a temperature at which the form fails."""
    oil = inputs.conditions
    if oil.oil_v40 <= oil.oil_v100:
        raise CannotWork(
            "The oil stated is no thinner at 100 °C than at 40 °C; put the viscosities right."
        )
    a, b = walther_constants(oil)
    wanted = KELVIN + oil.oil_temperature_c
    reached = 10 ** (10 ** (a - b * math.log10(wanted))) - OFFSET
    if min(oil.oil_v100, reached) < LEAST:
        raise CannotWork(
            f"The oil would be thinner than {LEAST:g} mm²/s, where the short form of ASTM D341 "
            "does not hold."
        )
    if not POINTS_C[0] <= oil.oil_temperature_c <= POINTS_C[1]:
        inputs.warn(
            f"{oil.oil_temperature_c:g} °C lies outside 40 to 100 °C: the line is drawn on beyond "
            "its two points."
        )


def _by_grade(inputs: Inputs) -> Number:
    """Anywhere within the grade's limits, at 100 °C and nowhere else."""
    oil, grades = inputs.conditions, load_oil_grades()
    grade = grades.grade(oil.oil_grade)
    if grade is None:
        raise CannotWork(
            f"'{oil.oil_grade}' is no grade with limits at 100 °C in {grades.edition.label}; "
            "state two viscosities of the oil."
        )
    if oil.oil_temperature_c != POINTS_C[1]:
        raise CannotWork(
            f"Grade {grade.key} has limits at 100 °C alone, none at {oil.oil_temperature_c:g} °C; "
            "state two viscosities of the oil, or 100 °C."
        )
    return inputs.between(
        "oil_grade_v100",
        grade.v100_low,
        grade.v100_below,
        "millimeter**2/second",
        f"The oil is any of grade {grade.key} at 100 °C: {grade.v100_low:g} to below "
        f"{grade.v100_below:g} mm²/s ({grades.edition.label}).",
        shared=True,
    )


def temperature(inputs: Inputs) -> Number:
    """Stated temperature of the oil, in kelvin."""
    celsius = inputs.conditions.oil_temperature_c
    said = f"The oil is at the temperature stated, {celsius:g} °C."
    return inputs.stated("oil_temperature", celsius, "degree_Celsius", said)


def _density(inputs: Inputs) -> Number:
    """Density at the stated temperature from that at 15 °C, where data sheets give it."""
    stated = inputs.conditions.oil_density_kg_m3
    if stated <= 0:
        raise CannotWork("The density stated for the oil is not above zero; put it right.")
    said = (
        f"The density stated, {stated:g} kg/m³, is the oil's at 15 °C and falls by 0.065 to "
        "0.080 % of it for each °C above that, as lubricating oils do (ASTM D1250)."
    )
    at_15 = inputs.stated("oil_density", stated, "kilogram/meter**3", said)
    fifteen = inputs.stated("oil_density_at", 15.0, "degree_Celsius", said)
    falls = inputs.between("oil_expansion", *EXPANSION, "1/kelvin", said, shared=True)
    return at_15 * (1 - falls * (temperature(inputs) - fifteen))


FIGURES = ((KINEMATIC, kinematic), (DYNAMIC, dynamic))
