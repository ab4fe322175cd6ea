"""The exposed area once more, by the pleats: a cross-check beside the strip's."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import Inputs
from benchlog.derive.media import exposed_width
from benchlog.derive.number import Number
from benchlog.derive.pleats import pleats_counted
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

MAY_DIFFER = 0.05
"""Share by which the two routes may differ before one is read again; common practice, no source."""

AREA_BY_PLEATS = FigureKind(
    key="area_by_pleats",
    label="Exposed media area, by the pleats",
    component=Component.MEDIA,
    formula=(
        "A₂ = 2 × N × d × w: two legs × number of pleats × depth by gauge × exposed width, "
        "w = W − h or as read"
    ),
    inputs=(
        "pleat_count",
        "pleat_depth_gauge",
        "media_width",
        "media_hidden",
        "media_exposed_width",
    ),
    unit="centimeter**2",
    inch_unit="inch**2",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry, fold radius ignored",
    note="A cross-check only: one pleat miscounted, or half a millimetre of depth, is some "
    "hundredths of it. The area to go by is the strip's.",
    comparable_when=("media_kind",),
)

AREA_ROUTES = FigureKind(
    key="area_routes",
    label="Area by the pleats against the strip",
    component=Component.MEDIA,
    formula="(2 × N × d) ÷ L − 1: length that the pleats come to ÷ strip length, less 1",
    inputs=("pleat_count", "pleat_depth_gauge", "media_length"),
    unit="percent",
    inch_unit="percent",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry; that 5 % ask for a second measurement is common practice, no source",
    note="Both routes share the exposed width, so it drops out.",
)


def area_by_pleats(inputs: Inputs) -> Number:
    """Area that the pleats come to between the end caps; raises CannotWork."""
    return _length_by_pleats(inputs) * exposed_width(inputs)


def area_routes(inputs: Inputs) -> Number:
    """By which share the pleats' area exceeds the strip's; raises CannotWork.

    Warns beyond MAY_DIFFER, whichever way.
    """
    ratio = _length_by_pleats(inputs) / inputs.above_zero("media_length")
    legs = 2 * inputs.best("pleat_count") * inputs.best("pleat_depth_gauge")
    if abs(legs / inputs.best("media_length") - 1) > MAY_DIFFER:
        inputs.warn(
            "Strip and pleats give areas that differ by more than 5 %: measure strip length, "
            "pleat count and pleat depth a second time."
        )
    return ratio - 1


def _length_by_pleats(inputs: Inputs) -> Number:
    return 2 * pleats_counted(inputs) * inputs.above_zero("pleat_depth_gauge")


FIGURES = ((AREA_BY_PLEATS, area_by_pleats), (AREA_ROUTES, area_routes))
