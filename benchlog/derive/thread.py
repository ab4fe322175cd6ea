"""What the thread in the base plate comes to."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number
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


def thread_engagement(inputs: Inputs) -> Number:
    """Length of full thread: full threads × pitch; raises CannotWork.

    Where full thread begins and ends is judged by hand: the count stands for a length known to
    half a turn either way, rectangular (JCGM 100 4.3.7; the half turn is common practice, no
    source), however often the same count came out.
    """
    ends = inputs.between(
        "ends_of_thread",
        -HALF_TURN,
        HALF_TURN,
        "count",
        "A count of full threads by hand is good to half a turn either way.",
    )
    return (inputs.above_zero("full_threads") + ends) * pitch(inputs)


def pitch(inputs: Inputs) -> Number:
    """Pitch as read; otherwise that of the named thread, which is exact; raises CannotWork."""
    if inputs.has("thread_pitch"):
        return inputs.above_zero("thread_pitch")
    thread = named_thread(inputs)
    if thread is None:
        raise CannotWork(f"{inputs.missing('thread_pitch')} {inputs.missing('thread_code')}")
    said = f"The pitch is that of {thread.label} by its name."
    return inputs.stated("named_pitch", thread.pitch_mm, "millimeter", said)


def named_thread(inputs: Inputs) -> Thread | None:
    """Return the thread that was identified, None where none was or it is not in the table."""
    code = inputs.word("thread_code")
    return next((thread for thread in load_threads() if thread.code == code), None)


FIGURES = ((THREAD_ENGAGEMENT, thread_engagement),)
