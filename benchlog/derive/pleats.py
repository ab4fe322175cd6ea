"""What the pleats come to: depth, pitch, and how crowded they stand at the core."""

from __future__ import annotations

import math

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import Inputs
from benchlog.derive.media import thickness
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

PLEAT_DEPTH = FigureKind(
    key="pleat_depth",
    label="Pleat depth from the strip",
    component=Component.PLEATS,
    formula="d = L ÷ (2 × N): strip length ÷ (2 × number of pleats), a pleat being two legs",
    inputs=("media_length", "pleat_count"),
    unit="millimeter",
    inch_unit="inch",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="geometry, fold radius ignored",
    note="One pleat is two legs; counting legs would halve the depth.",
)

PITCH_AT_CORE = FigureKind(
    key="pleat_pitch_core",
    label="Pleat pitch at the core",
    component=Component.PLEATS,
    formula="p = π × D ÷ N: girth of the centre tube ÷ number of pleats",
    inputs=("tube_outside", "pleat_count"),
    unit="millimeter",
    inch_unit="inch",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="geometry of even pleats round a tube",
    note="Room for one pleat, two sheets thick, where the pleats stand on the tube.",
)

PITCH_OUTSIDE = FigureKind(
    key="pleat_pitch_outside",
    label="Pleat pitch at the outside",
    component=Component.PLEATS,
    formula="pₒ = π × Dₒ ÷ N: girth over the tips of the pleats ÷ number of pleats",
    inputs=("element_outside", "pleat_count"),
    unit="millimeter",
    inch_unit="inch",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="geometry of even pleats round a tube",
    note="A mean: bunched pleats stand closer in one place and wider in another.",
)

CROWDING = FigureKind(
    key="pleat_crowding",
    label="Crowding of the pleats at the core",
    component=Component.PLEATS,
    formula=(
        "c = 2 × t × N ÷ (π × D): thickness of both sheets of every pleat ÷ girth of the tube; "
        "1 ÷ c is how many times the pleats would fit"
    ),
    inputs=("media_thickness", "pleat_count", "tube_outside"),
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="geometry, fold radius ignored",
    note="Above 1 the sheets are pressed together at the core. The thickness is that under the "
    "gauge's foot.",
    comparable_when=("contact_pressure",),
)


def pleats_counted(inputs: Inputs) -> Number:
    """Number of pleats; warns where repeated tallies do not agree; raises CannotWork."""
    count = inputs.above_zero("pleat_count")
    tallies = inputs.repeats("pleat_count")
    if len(set(tallies)) > 1:
        said = ", ".join(f"{tally:g}" for tally in tallies)
        inputs.warn(
            f"The tallies of the pleats do not agree ({said}): count again, then scratch the "
            "tally that was wrong."
        )
    return count


def pleat_depth(inputs: Inputs) -> Number:
    """Mean depth of a pleat: half of the length that one pleat takes; raises CannotWork."""
    return inputs.above_zero("media_length") / (2 * pleats_counted(inputs))


def pitch_at_core(inputs: Inputs) -> Number:
    """Girth of the centre tube for one pleat; raises CannotWork."""
    return math.pi * inputs.above_zero("tube_outside") / pleats_counted(inputs)


def pitch_outside(inputs: Inputs) -> Number:
    """Girth over the tips for one pleat; raises CannotWork."""
    return math.pi * inputs.above_zero("element_outside") / pleats_counted(inputs)


def crowding(inputs: Inputs) -> Number:
    """Share of the tube's girth that the sheets take up; raises CannotWork.

    Warns above 1, where they cannot stand side by side without being pressed.
    """
    sheets = 2 * thickness(inputs) * pleats_counted(inputs)
    share = sheets / (math.pi * inputs.above_zero("tube_outside"))
    taken = 2 * inputs.best("media_thickness") * inputs.best("pleat_count")
    if taken > math.pi * inputs.best("tube_outside"):
        inputs.warn(
            "The sheets of all pleats are thicker than the tube is round: they are pressed "
            "together at the core, or a reading is wrong."
        )
    return share


FIGURES = (
    (PLEAT_DEPTH, pleat_depth),
    (PITCH_AT_CORE, pitch_at_core),
    (PITCH_OUTSIDE, pitch_outside),
    (CROWDING, crowding),
)
