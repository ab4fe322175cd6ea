"""What the thread in the base plate comes to."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.measure.uncertainty import of_half_width, spread_about
from benchlog.measure.units import Quantity, registry
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.thread import Thread, load_threads

HALF_TURN = 0.5

THREAD_ENGAGEMENT = FigureKind(
    key="thread_engagement",
    label="Thread engagement",
    component=Component.THREAD,
    formula="Le = n × P: full threads × pitch, the pitch as read or by the thread's name; "
    "a count by hand is good to half a turn either way",
    inputs=("full_threads", "thread_pitch", "thread_code"),
    unit="millimeter",
    inch_unit="inch",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry of the thread",
    note="The length that can engage; how far the engine's own stud reaches in is not in it.",
)


def thread_engagement(inputs: Inputs) -> Quantity:
    """Length of full thread: full threads × pitch; raises CannotWork.

    Where full thread begins and ends is judged by hand: the count stands for a length known to
    half a turn either way, rectangular (JCGM 100 4.3.7; the half turn is common practice, no
    source), however often the same count came out.
    """
    ends = spread_about(0.0, [(of_half_width(HALF_TURN), "full_threads/ends of the thread")])
    turns = inputs.count("full_threads") + registry().Quantity(ends, "")
    length: Quantity = turns * pitch(inputs)
    return length


def pitch(inputs: Inputs) -> Quantity:
    """Pitch as read; otherwise that of the named thread, which is exact; raises CannotWork."""
    if inputs.has("thread_pitch"):
        return inputs.above_zero("thread_pitch")
    thread = named_thread(inputs)
    if thread is None:
        raise CannotWork(f"{inputs.missing('thread_pitch')} {inputs.missing('thread_code')}")
    return registry().Quantity(thread.pitch_mm, "millimeter")


def named_thread(inputs: Inputs) -> Thread | None:
    """Return the thread that was identified, None where none was or it is not in the table."""
    code = inputs.word("thread_code")
    return next((thread for thread in load_threads() if thread.code == code), None)


FIGURES = ((THREAD_ENGAGEMENT, thread_engagement),)
