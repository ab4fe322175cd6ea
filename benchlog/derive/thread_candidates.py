"""Which threads a bore and a pitch, as read, cannot exclude: every one, the likeliest first."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import NormalDist
from typing import Any

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import Inputs
from benchlog.derive.thread import named_thread
from benchlog.measure.coverage import expanded
from benchlog.measure.instrument import InstrumentKind
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.thread import Thread, load_threads

JAWS_READ_SMALL_MM = 0.3
"""How much less than the bore inside jaws may show: common practice, no source."""

ROUNDED_MM = 0.001
"""Pitches in the table are rounded, and no bench reads finer: nothing below is a difference."""

CANDIDATES = FigureKind(
    key="thread_candidates",
    label="Threads that it may be",
    component=Component.THREAD,
    formula="every thread of the table whose minor diameter limits (class 2B or 6H) hold the bore "
    "and whose pitch is the pitch read, each within the expanded uncertainty of its reading; "
    "the likeliest first",
    inputs=("outlet_bore", "thread_pitch", "thread_code"),
    unit="",
    inch_unit="",
    judged=Judged.IDENTITY,
    support=Support.STANDARD,
    source="limits of ASME B1.1 class 2B and ISO 965 class 6H",
    note="Bore and pitch narrow it down; a go and no-go plug of that thread settles it.",
)


@dataclass(frozen=True)
class Sight:
    """What was read of a thread, in millimetres; `number`s carry their uncertainty.

    `short` is how much less than the true bore the reading may show, 0 for a plug or pin.
    """

    bore: Any
    pitch: Any | None = None
    short: float = 0.0


def candidates(sight: Sight) -> tuple[Thread, ...]:
    """Return every thread of the table that the readings cannot exclude, the likeliest first."""
    left = [thread for thread in load_threads() if _may_be(thread, sight)]
    return tuple(sorted(left, key=lambda thread: -_likelihood(thread, sight)))


def thread_candidates(inputs: Inputs) -> str:
    """Name the threads that cannot be excluded, or say that none is left; raises CannotWork."""
    sight = _sight(inputs)
    found = candidates(sight)
    _compare_with_choice(inputs, found)
    if not found:
        inputs.warn("No thread of the table has this bore and pitch; read both again.")
        return "None in the table"
    names = _either(found)
    if sight.pitch is None:
        inputs.warn("Lay a pitch gauge into the thread; bores of different threads overlap.")
        way = "Calliper jaws" if sight.short else "A bore"
        return f"{way} alone cannot decide: {names}"
    if len(found) > 1:
        inputs.warn("These readings leave more than one thread; try a plug of each.")
    elif sight.short:
        inputs.warn("Calliper jaws read small in a bore; try a plug before you rely on it.")
    return names


def _sight(inputs: Inputs) -> Sight:
    """What was read; a bore whose instrument is not named may have been taken with jaws."""
    inputs.above_zero("outlet_bore")
    bore = 1000 * inputs.used["outlet_bore"].number
    kinds = inputs.finding("outlet_bore").taken_with
    short = 0.0
    if not kinds or {"", InstrumentKind.CALLIPER.value} & set(kinds):
        short = JAWS_READ_SMALL_MM
        said = f"Inside jaws may read up to {short} mm small (common practice, no source)."
        inputs.between("jaws_read_small", 0.0, short, "millimeter", said)
    if not inputs.has("thread_pitch"):
        return Sight(bore, None, short)
    inputs.above_zero("thread_pitch")
    return Sight(bore, 1000 * inputs.used["thread_pitch"].number, short)


def _may_be(thread: Thread, sight: Sight) -> bool:
    bore, slack = _best(sight.bore), expanded(sight.bore) + ROUNDED_MM
    if bore + sight.short + slack < thread.minor_low_mm or bore - slack > thread.minor_high_mm:
        return False
    if sight.pitch is None:
        return True
    return abs(_best(sight.pitch) - thread.pitch_mm) <= expanded(sight.pitch) + ROUNDED_MM


def _likelihood(thread: Thread, sight: Sight) -> float:
    """How likely the readings are, were it this thread with a bore anywhere in its limits."""
    spread = NormalDist(0.0, _spread(sight.bore))
    low, high = thread.minor_low_mm, thread.minor_high_mm
    steps = 31 if sight.short else 1
    bores = [_best(sight.bore) + sight.short * i / steps for i in range(steps)]
    total = sum(spread.cdf(high - bore) - spread.cdf(low - bore) for bore in bores)
    likely = total / steps / (high - low)
    if sight.pitch is None:
        return likely
    return likely * NormalDist(thread.pitch_mm, _spread(sight.pitch)).pdf(_best(sight.pitch))


def _compare_with_choice(inputs: Inputs, found: tuple[Thread, ...]) -> None:
    chosen = named_thread(inputs)
    if chosen is not None and chosen not in found:
        inputs.warn(
            f"{chosen.label} was chosen, but the readings exclude it: read bore and pitch "
            "again, then try a plug."
        )


def _either(threads: tuple[Thread, ...]) -> str:
    labels = [thread.label for thread in threads]
    return " or ".join([", ".join(labels[:-1]), labels[-1]]) if len(labels) > 1 else labels[0]


def _best(number: Any) -> float:
    return float(getattr(number, "nominal_value", number))


def _spread(number: Any) -> float:
    return max(float(getattr(number, "std_dev", 0.0)), ROUNDED_MM)


FIGURES = ((CANDIDATES, thread_candidates),)
