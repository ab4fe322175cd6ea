"""The basic sizes of the thread that was named: exact by definition, so without uncertainty."""

from __future__ import annotations

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number
from benchlog.derive.thread import named_thread
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.thread import MINOR_SHARE, PITCH_DIAMETER_SHARE

NOTE = "A basic size from the thread's name, not a reading; the class allows the part to differ."


def _kind(key: str, label: str, formula: str) -> FigureKind:
    return FigureKind(
        key=key,
        label=label,
        component=Component.THREAD,
        formula=formula,
        inputs=("thread_code",),
        unit="millimeter",
        inch_unit="inch",
        judged=Judged.IDENTITY,
        support=Support.STANDARD,
        source="ISO 68-1, ISO 724, ASME B1.1",
        note=NOTE,
    )


BASIC_MAJOR = _kind(
    "thread_basic_major", "Basic major diameter", "D: major diameter by the thread's name"
)

BASIC_PITCH = _kind(
    "thread_basic_pitch_diameter",
    "Basic pitch diameter",
    "D₂ = D − 0.6495 × P: major diameter − 3/8 of √3 × pitch",
)

BASIC_MINOR = _kind(
    "thread_basic_minor",
    "Basic minor diameter",
    "D₁ = D − 1.0825 × P: major diameter − 5/8 of √3 × pitch",
)


def basic_major(inputs: Inputs) -> Number:
    """Major diameter of the named thread; raises CannotWork when none of the table was named."""
    return _sizes(inputs)[0]


def basic_pitch_diameter(inputs: Inputs) -> Number:
    """Basic pitch diameter of the named thread; raises CannotWork."""
    major, pitch = _sizes(inputs)
    return major - PITCH_DIAMETER_SHARE * pitch


def basic_minor(inputs: Inputs) -> Number:
    """Basic minor diameter of the named thread; raises CannotWork."""
    major, pitch = _sizes(inputs)
    return major - MINOR_SHARE * pitch


def _sizes(inputs: Inputs) -> tuple[Number, Number]:
    """Major diameter and pitch by name."""
    thread = named_thread(inputs)
    if thread is None:
        if inputs.word("thread_code"):
            raise CannotWork("The thread that was chosen is not in the table of threads.")
        raise CannotWork(inputs.missing("thread_code"))
    said = f"Diameter and pitch are those of {thread.label} by its name, {thread.standard}."
    return (
        inputs.stated("named_major", thread.major_mm, "millimeter", said),
        inputs.stated("named_pitch", thread.pitch_mm, "millimeter", said),
    )


FIGURES = (
    (BASIC_MAJOR, basic_major),
    (BASIC_PITCH, basic_pitch_diameter),
    (BASIC_MINOR, basic_minor),
)
