"""What the bubble test comes to: a pressure, and a model's diameter beside a warning."""

from __future__ import annotations

from dataclasses import replace

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs, words_of
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

GRAVITY = 9.80665
"""Standard gravity, m/s² (CGPM 1901)."""
ALCOHOL_KG_M3 = (781.0, 789.0)
"""Density of isopropyl alcohol from 25 down to 15 °C; handbook values, from memory."""
ALCOHOL_MN_M = (20.9, 21.7)
"""Surface tension of isopropyl alcohol from 25 to 20 °C, mN/m.

Sources disagree: 22.90 − 0.0789 × t/°C (Jasper, J. Phys. Chem. Ref. Data 1 (1972) 841) gives 21.32
at 20 °C and 20.93 at 25 °C; a published data page, and the filter trade with it, 21.7 at 20 °C.
"""

BUBBLE_PRESSURE = FigureKind(
    key="bubble_pressure",
    label="Bubble point of the disc, liquid taken off",
    component=Component.MEDIA,
    formula="Δp = p − ρ × g × h: pressure read − density × gravity × liquid's depth over the pore",
    inputs=("bubble_point", "bubble_depth"),
    unit="millimeter_H2O",
    inch_unit="inch_H2O",
    judged=Judged.DIFFERENT,
    support=Support.STANDARD,
    source="hydrostatics; the test as in ISO 2942 and ISO 4003",
    note="A pressure, and published as one: it finds the worst hole and nothing else.",
    comparable_when=("media_state",),
)

BUBBLE_DIAMETER = FigureKind(
    key="bubble_diameter",
    label="Equivalent capillary diameter, disc",
    component=Component.MEDIA,
    formula="D = 4 × γ ÷ Δp: 4 × surface tension ÷ bubble point, liquid taken off; fully wetted",
    inputs=("bubble_point", "bubble_depth"),
    unit="micrometer",
    inch_unit="thou",
    judged=Judged.INPUT,
    support=Support.STANDARD,
    source="capillary pressure of a round tube (Young and Laplace); ISO 4003, ISO 2942",
    note="The tube that would bubble at that pressure; no pore of paper is one.",
    comparable_when=("media_state",),
    bounded=True,
    beside="A model's diameter, not the size of any pore. ISO 2942 rules out concluding a "
    "filtration rating, an efficiency or a capacity from a bubble point; it is for information.",
)

WHOLE_BUBBLE_PRESSURE = replace(
    BUBBLE_PRESSURE,
    key="whole_bubble_pressure",
    label="Bubble point of the element, liquid taken off",
    inputs=("whole_bubble_point", "whole_bubble_depth"),
    note="A pressure, and published as one: it finds the worst hole, seam or cap and nothing else.",
    comparable_when=(),
)

WHOLE_BUBBLE_DIAMETER = replace(
    BUBBLE_DIAMETER,
    key="whole_bubble_diameter",
    label="Equivalent capillary diameter, element",
    inputs=("whole_bubble_point", "whole_bubble_depth"),
    note="The tube that would bubble at that pressure; a seam or a cap may have leaked instead.",
    comparable_when=(),
)


def bubble_pressure(inputs: Inputs) -> Number:
    """Bubble point of the disc less the liquid's own pressure, Pa; raises CannotWork."""
    return _less_head(inputs, *BUBBLE_PRESSURE.inputs)


def bubble_diameter(inputs: Inputs) -> Number:
    """Capillary that bubbles as the disc did, m; raises CannotWork."""
    return _capillary(inputs, bubble_pressure(inputs))


def whole_bubble_pressure(inputs: Inputs) -> Number:
    """Bubble point of the element less the liquid's own pressure, Pa; raises CannotWork."""
    return _less_head(inputs, *WHOLE_BUBBLE_PRESSURE.inputs)


def whole_bubble_diameter(inputs: Inputs) -> Number:
    """Capillary that bubbles as the element did, m; raises CannotWork."""
    return _capillary(inputs, whole_bubble_pressure(inputs))


def _less_head(inputs: Inputs, point: str, depth: str) -> Number:
    read, deep = inputs.above_zero(point), inputs.number(depth)
    if inputs.best(depth) < 0:
        raise CannotWork(f"The {words_of(depth)} is below zero; read it again.")
    density = inputs.between(
        "alcohol_density",
        *ALCOHOL_KG_M3,
        "kilogram/meter**3",
        "The liquid is isopropyl alcohol of 781 to 789 kg/m³, as from 25 to 15 °C.",
        shared=True,
    )
    said = "Gravity is the standard one, 9.80665 m/s²."
    gravity = inputs.stated("gravity", GRAVITY, "meter/second**2", said)
    if inputs.best(point) <= ALCOHOL_KG_M3[1] * GRAVITY * inputs.best(depth):
        raise CannotWork(
            "The liquid above the pore presses as much as the whole bubble point read; "
            "read both again."
        )
    return read - density * gravity * deep


def _capillary(inputs: Inputs, pressure: Number) -> Number:
    tension = inputs.between(
        "alcohol_tension",
        *ALCOHOL_MN_M,
        "millinewton/meter",
        "The alcohol has a surface tension of 20.9 to 21.7 mN/m at 20 to 25 °C, where sources "
        "disagree, and wets the fibres fully.",
        shared=True,
    )
    return 4 * tension / pressure


FIGURES = (
    (BUBBLE_PRESSURE, bubble_pressure),
    (BUBBLE_DIAMETER, bubble_diameter),
    (WHOLE_BUBBLE_PRESSURE, whole_bubble_pressure),
    (WHOLE_BUBBLE_DIAMETER, whole_bubble_diameter),
)
