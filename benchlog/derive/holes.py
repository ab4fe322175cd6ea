"""What the openings of the base plate come to: the ways in against the way out."""

from __future__ import annotations

import math

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import Inputs
from benchlog.measure.units import Quantity
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

INLET_AREA = FigureKind(
    key="inlet_area",
    label="Inlet hole area",
    component=Component.BASE_PLATE,
    formula="Ai = n × π/4 × d²: number of holes × area of one round hole",
    inputs=("inlet_hole_count", "inlet_hole_diameter"),
    unit="millimeter**2",
    inch_unit="inch**2",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry of round holes",
)

OUTLET_AREA = FigureKind(
    key="outlet_area",
    label="Outlet bore area",
    component=Component.BASE_PLATE,
    formula="Ao = π/4 × D₁²: area of a round bore of the thread's minor diameter",
    inputs=("thread_minor_diameter",),
    unit="millimeter**2",
    inch_unit="inch**2",
    judged=Judged.IDENTITY,
    support=Support.ENGINEERING,
    source="geometry of a round bore",
    note="The bore of the engine's own stud is smaller and is the true limit.",
)

INLET_TO_OUTLET = FigureKind(
    key="inlet_to_outlet",
    label="Inlet area against outlet area",
    component=Component.BASE_PLATE,
    formula="Ai ÷ Ao: inlet hole area ÷ outlet bore area; ample from 1 upwards",
    inputs=("inlet_hole_count", "inlet_hole_diameter", "thread_minor_diameter"),
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.AMPLE,
    support=Support.ENGINEERING,
    source="continuity of flow; the limit of 1 is common practice, no source",
    note="Ample or not; more than ample is not better.",
)


def inlet_area(inputs: Inputs) -> Quantity:
    """Total area of the round inlet holes; raises CannotWork."""
    one = math.pi / 4 * inputs.above_zero("inlet_hole_diameter") ** 2
    area: Quantity = inputs.count("inlet_hole_count") * one
    return area


def outlet_area(inputs: Inputs) -> Quantity:
    """Area of the outlet bore, taken at the thread's minor diameter; raises CannotWork."""
    area: Quantity = math.pi / 4 * inputs.above_zero("thread_minor_diameter") ** 2
    return area


def inlet_to_outlet(inputs: Inputs) -> Quantity:
    """How many times the outlet's area the inlet holes have; raises CannotWork."""
    ratio: Quantity = inlet_area(inputs) / outlet_area(inputs)
    return ratio


FIGURES = (
    (INLET_AREA, inlet_area),
    (OUTLET_AREA, outlet_area),
    (INLET_TO_OUTLET, inlet_to_outlet),
)
