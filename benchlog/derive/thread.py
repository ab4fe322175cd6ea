"""What the thread in the base plate comes to."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.thread import MINOR_SHARE, Thread, load_threads

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

ENGAGEMENT_SHARE = FigureKind(
    key="thread_engagement_share",
    label="Thread engagement over diameter",
    component=Component.THREAD,
    formula="Le ÷ D: engagement ÷ major diameter, that of the named thread "
    "or else the one that bore and pitch imply",
    inputs=("full_threads", "thread_pitch", "thread_code", "outlet_bore"),
    unit="dimensionless",
    inch_unit="dimensionless",
    judged=Judged.INPUT,
    support=Support.ENGINEERING,
    source="geometry of the thread; half the diameter as a guide for steel is common practice, "
    "no source",
    note="Half the diameter is a guide for steel on steel, not a limit; it is not judged.",
)

IMPLIED_MAJOR = FigureKind(
    key="thread_major_implied",
    label="Major diameter from bore and pitch",
    component=Component.THREAD,
    formula="D = D₁ + 1.0825 × P: bore + 5/8 of √3 × pitch",
    inputs=("outlet_bore", "thread_pitch"),
    unit="millimeter",
    inch_unit="inch",
    judged=Judged.INPUT,
    support=Support.STANDARD,
    source="ISO 68-1, ISO 724, ASME B1.1",
    note="A bore may be some 0.3 mm above its basic size and still in its class; this diameter "
    "is then as much above the nominal one.",
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


def engagement_share(inputs: Inputs) -> Number:
    """Engagement in major diameters; raises CannotWork."""
    return thread_engagement(inputs) / _major(inputs)


def implied_major(inputs: Inputs) -> Number:
    """Major diameter that a bore and a pitch, both as read, belong to; raises CannotWork."""
    return inputs.above_zero("outlet_bore") + MINOR_SHARE * inputs.above_zero("thread_pitch")


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


def _major(inputs: Inputs) -> Number:
    """Major diameter by the thread's name, which is exact; otherwise as bore and pitch imply."""
    thread = named_thread(inputs)
    if thread is not None:
        said = f"The major diameter is that of {thread.label} by its name."
        return inputs.stated("named_major", thread.major_mm, "millimeter", said)
    if inputs.has("outlet_bore") and inputs.has("thread_pitch"):
        return implied_major(inputs)
    raise CannotWork(f"{inputs.missing('outlet_bore')} {inputs.missing('thread_code')}")


FIGURES = (
    (THREAD_ENGAGEMENT, thread_engagement),
    (ENGAGEMENT_SHARE, engagement_share),
    (IMPLIED_MAJOR, implied_major),
)
