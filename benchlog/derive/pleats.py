"""What the pleats come to."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import Inputs
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


def pleat_depth(inputs: Inputs) -> Number:
    """Mean depth of a pleat: half of the length that one pleat takes; raises CannotWork."""
    return inputs.above_zero("media_length") / (2 * inputs.above_zero("pleat_count"))


FIGURES = ((PLEAT_DEPTH, pleat_depth),)
