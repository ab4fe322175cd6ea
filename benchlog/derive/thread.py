"""What the thread in the base plate comes to."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import Inputs
from benchlog.measure.units import Quantity
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

THREAD_ENGAGEMENT = FigureKind(
    key="thread_engagement",
    label="Thread engagement",
    component=Component.THREAD,
    formula="Le = n × P: full threads × pitch, the pitch as read or by the thread's name",
    inputs=("full_threads", "thread_pitch", "thread_code"),
    unit="millimeter",
    inch_unit="inch",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry of the thread",
    note="The length that can engage; how far the engine's own stud reaches in is not in it.",
)


def thread_engagement(inputs: Inputs) -> Quantity:
    """Length of full thread: full threads × pitch; raises CannotWork."""
    length: Quantity = inputs.count("full_threads") * pitch(inputs)
    return length


def pitch(inputs: Inputs) -> Quantity:
    """Pitch as read; otherwise that of the named thread, which is exact; raises CannotWork."""
    return inputs.above_zero("thread_pitch")


FIGURES = ((THREAD_ENGAGEMENT, thread_engagement),)
