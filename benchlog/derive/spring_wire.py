"""The rate of a coil spring from its wire and coil: a check on the rate by load and length."""

from __future__ import annotations

from benchlog.derive.agreement import normalised_error, uncertain
from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number
from benchlog.derive.spring import spring_rate
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

SHEAR_MODULUS_GPA = (69.0, 82.0)
"""Stainless wire 69 to 70, music wire 79 to 82: spring makers' tables (published B)."""

RATE_FROM_WIRE = FigureKind(
    key="spring_rate_from_wire",
    label="Spring rate, from wire and coil",
    component=Component.SPRING,
    formula="k = G × d⁴ ÷ (8 × D³ × n): shear modulus × wire⁴ ÷ (8 × mean coil³ × active coils); "
    "mean coil = outside − wire",
    inputs=("spring_wire", "spring_coil", "spring_active_coils", "spring_kind"),
    unit="newton/millimeter",
    inch_unit="force_pound/inch",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="helical compression spring (Shigley); shear moduli from spring makers' tables",
    note="A check only: the wire counts four times over and the steel is not known.",
    bounded=True,
    beside="An estimate for a steel that is not known; the rate by load and length is the "
    "measurement.",
)


def rate_from_wire(inputs: Inputs) -> Number:
    """Rate of a coil spring by its dimensions; raises CannotWork."""
    kind = inputs.word("spring_kind")
    if kind not in (None, "coil"):
        raise CannotWork("Only a coil spring has a rate by its wire; this is another kind.")
    rate = _rate(inputs)
    if not inputs.given:
        _compare_with_readings(inputs)
    return rate


def _rate(inputs: Inputs) -> Number:
    wire, outside = inputs.above_zero("spring_wire"), inputs.above_zero("spring_coil")
    coils = inputs.above_zero("spring_active_coils")
    if inputs.best("spring_coil") <= 2 * inputs.best("spring_wire"):
        raise CannotWork("The wire would fill the coil; read both diameters again.")
    low, high = SHEAR_MODULUS_GPA
    said = (
        f"The steel is not known: shear modulus {low:g} to {high:g} GPa, stainless to music wire."
    )
    modulus = inputs.between("shear_modulus", low, high, "gigapascal", said)
    return modulus * wire**4 / (8 * (outside - wire) ** 3 * coils)


def _compare_with_readings(inputs: Inputs) -> None:
    """Warn where load and length give another rate, by more than the uncertainties of both."""
    read, made = uncertain(spring_rate, inputs), uncertain(_rate, inputs)
    if read is not None and made is not None and normalised_error(read, made) > 1.0:
        inputs.warn(
            "Load and length give another rate than wire and coil do, by more than their "
            "uncertainties: count the active coils again and read the wire on bare metal."
        )


FIGURES = ((RATE_FROM_WIRE, rate_from_wire),)
