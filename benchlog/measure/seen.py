"""One reading as it counts towards a finding: its value, how fine it is, its interval."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchlog.errors import OurFault
from benchlog.measure.estimate import estimate_interval, step_said
from benchlog.measure.instrument import Instrument
from benchlog.measure.permissible import permissible_error_at
from benchlog.measure.reading import Reading, Said
from benchlog.measure.state import State
from benchlog.measure.units import convert, same_dimension


@dataclass(frozen=True)
class Seen:
    """One reading in the unit asked for.

    `half` is the half-width of its resolution or interval, `interval` the ends if it carries
    one; `permissible` is the permissible error of its instrument at this value and `scale` how
    long one of the instrument's units is, both 0 without an instrument of the same dimension.
    """

    reading: Reading
    value: float
    half: float
    interval: tuple[float, float] | None
    permissible: float
    scale: float


def seen(reading: Reading, instrument: Instrument | None, unit: str) -> Seen:
    """Return a reading of a number as it counts, in `unit`; raises OurFault for one without."""
    said = said_of(reading)
    fits = instrument is not None and same_dimension(instrument.unit, unit)
    scale = permissible = 0.0
    step = float(step_said(said)) * scale_of(said.unit, unit)
    if instrument is not None and fits:
        scale = scale_of(instrument.unit, unit)
        step = instrument.resolution * scale
        shown = convert(float(said.value), said.unit, instrument.unit)
        permissible = permissible_error_at(instrument, shown) * scale
    interval = _interval(reading, said, unit)
    half = max(step / 2, (interval[1] - interval[0]) / 2) if interval else step / 2
    value = convert(float(said.value), said.unit, unit)
    return Seen(reading, value, half, interval, permissible, scale)


def envelope(readings: Sequence[Seen]) -> tuple[float, float] | None:
    """Return the ends of all intervals together, None where no reading carries one."""
    intervals = [s.interval for s in readings if s.interval]
    if not intervals:
        return None
    return min(low for low, _ in intervals), max(high for _, high in intervals)


def scale_of(from_unit: str, to_unit: str) -> float:
    """Return how long one step of `from_unit` is in `to_unit`; a shifted zero does not matter."""
    return convert(1.0, from_unit, to_unit) - convert(0.0, from_unit, to_unit)


def said_of(reading: Reading) -> Said:
    """Return the number that was said; raises OurFault where there is none."""
    if reading.said is None:
        raise OurFault(f"reading {reading.id} holds no number")
    return reading.said


def is_plain(reading: Reading) -> bool:
    """Whether a reading is one measured number, neither an interval nor an estimate."""
    said = reading.said
    return (
        said is not None
        and reading.state is State.MEASURED
        and said.low is None
        and reading.si_low is None
        and not said.approximate
    )


def _interval(reading: Reading, said: Said, unit: str) -> tuple[float, float] | None:
    """Return the interval that a reading carries, in `unit`: said, kept with it, or implied."""
    if said.low is None and reading.si_low is not None and reading.si_high is not None:
        return (
            convert(reading.si_low, reading.si_unit, unit),
            convert(reading.si_high, reading.si_unit, unit),
        )
    estimated = said.approximate or reading.state is State.ESTIMATE
    if said.low is None and not estimated:
        return None
    low, high = estimate_interval(said)
    return convert(float(low), said.unit, unit), convert(float(high), said.unit, unit)
