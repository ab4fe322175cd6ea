"""What the openings of the base plate come to: the ways in against the way out."""

from __future__ import annotations

import math

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number
from benchlog.derive.thread import named_thread
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
    formula=(
        "Ao = π/4 × D₁²: area of the round bore as read; "
        "or of the middle of the named thread's minor diameter limits"
    ),
    inputs=("outlet_bore", "thread_code"),
    unit="millimeter**2",
    inch_unit="inch**2",
    judged=Judged.IDENTITY,
    support=Support.ENGINEERING,
    source="geometry of a round bore; limits of the minor diameter by the thread's standard",
    note="The bore of the engine's own stud is smaller and is the true limit.",
)

INLET_TO_OUTLET = FigureKind(
    key="inlet_to_outlet",
    label="Inlet area against outlet area",
    component=Component.BASE_PLATE,
    formula="Ai ÷ Ao: inlet hole area ÷ outlet bore area; ample from 1 upwards",
    inputs=("inlet_hole_count", "inlet_hole_diameter", "outlet_bore", "thread_code"),
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.AMPLE,
    support=Support.ENGINEERING,
    source="continuity of flow; the limit of 1 is common practice, no source",
    note="Ample or not; more than ample is not better.",
)


def inlet_area(inputs: Inputs) -> Number:
    """Total area of the round inlet holes; raises CannotWork."""
    one = math.pi / 4 * inputs.above_zero("inlet_hole_diameter") ** 2
    return inputs.above_zero("inlet_hole_count") * one


def outlet_area(inputs: Inputs) -> Number:
    """Area of the outlet bore; raises CannotWork when neither bore nor thread is known."""
    return math.pi / 4 * _bore(inputs) ** 2


def _bore(inputs: Inputs) -> Number:
    """Bore as read; otherwise anywhere between the limits of the named thread."""
    if inputs.has("outlet_bore"):
        return inputs.above_zero("outlet_bore")
    thread = named_thread(inputs)
    if thread is None:
        raise CannotWork(f"{inputs.missing('outlet_bore')} {inputs.missing('thread_code')}")
    return inputs.between(
        "minor_diameter",
        thread.minor_low_mm,
        thread.minor_high_mm,
        "millimeter",
        f"The bore lies between the limits of {thread.label}, {thread.standard}.",
    )


def inlet_to_outlet(inputs: Inputs) -> Number:
    """How many times the outlet's area the inlet holes have; raises CannotWork."""
    return inlet_area(inputs) / outlet_area(inputs)


FIGURES = (
    (INLET_AREA, inlet_area),
    (OUTLET_AREA, outlet_area),
    (INLET_TO_OUTLET, inlet_to_outlet),
)
