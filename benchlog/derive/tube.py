"""What the openings of the centre tube come to, against the outlet."""

from __future__ import annotations

import math

from benchlog.derive.agreement import normalised_error, uncertain
from benchlog.derive.figure import FigureKind
from benchlog.derive.holes import outlet_area
from benchlog.derive.inputs import Inputs
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

AREA_FROM_HOLES = FigureKind(
    key="tube_area_from_holes",
    label="Centre tube open area, from its holes",
    component=Component.CENTRE_TUBE,
    formula="At = n × π/4 × d²: number of holes × area of one round hole",
    inputs=("tube_hole_count", "tube_hole_diameter"),
    unit="millimeter**2",
    inch_unit="inch**2",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry of round holes",
    note="For round holes; louvres and slots are read as an area of their own.",
)

TUBE_TO_OUTLET = FigureKind(
    key="tube_to_outlet",
    label="Tube open area against outlet area",
    component=Component.CENTRE_TUBE,
    formula="At ÷ Ao: open area as read or from its holes ÷ outlet bore area; ample from 1 up",
    inputs=(
        "tube_open_area",
        "tube_hole_count",
        "tube_hole_diameter",
        "outlet_bore",
        "thread_code",
    ),
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.AMPLE,
    support=Support.ENGINEERING,
    source="continuity of flow; the limit of 1 is common practice, no source",
    note="Ample or not; more than ample is not better.",
)


def area_from_holes(inputs: Inputs) -> Number:
    """Total area of the tube's round holes; raises CannotWork."""
    area = _of_holes(inputs)
    if inputs.has("tube_open_area") and not inputs.given:
        _compare_with_read(inputs)
    return area


def tube_to_outlet(inputs: Inputs) -> Number:
    """How many times the outlet's area the tube has open; raises CannotWork."""
    return _open_area(inputs) / outlet_area(inputs)


def _open_area(inputs: Inputs) -> Number:
    """Open area as read; otherwise that of round holes."""
    if inputs.has("tube_hole_count") and not inputs.has("tube_open_area"):
        return _of_holes(inputs)
    return inputs.above_zero("tube_open_area")


def _of_holes(inputs: Inputs) -> Number:
    one = math.pi / 4 * inputs.above_zero("tube_hole_diameter") ** 2
    return inputs.above_zero("tube_hole_count") * one


def _compare_with_read(inputs: Inputs) -> None:
    """Warn where count and diameter give another area than the one that was read."""
    ours = uncertain(_of_holes, inputs)
    theirs = uncertain(lambda other: other.above_zero("tube_open_area"), inputs)
    if ours is not None and theirs is not None and normalised_error(ours, theirs) > 1.0:
        inputs.warn(
            "The holes give another open area than was read, by more than their uncertainties: "
            "count again, and look whether all are round and of one size."
        )


FIGURES = (
    (AREA_FROM_HOLES, area_from_holes),
    (TUBE_TO_OUTLET, tube_to_outlet),
)
