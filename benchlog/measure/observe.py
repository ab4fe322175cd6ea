"""From the readings of one attribute of one specimen to its finding."""

from __future__ import annotations

import statistics
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from uncertainties import ufloat

from benchlog.errors import OurFault
from benchlog.measure.estimate import estimate_interval, step_said
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading, Said, standing
from benchlog.measure.repeats import counted
from benchlog.measure.state import State
from benchlog.measure.tally import tally
from benchlog.measure.uncertainty import exact, of_half_width, of_repeats, spread_about
from benchlog.measure.units import canonical, convert, registry, same_dimension


@dataclass(frozen=True)
class _Seen:
    """One reading in the unit asked for: value, half-width, interval if it carries one."""

    value: float
    half: float
    interval: tuple[float, float] | None


class Observer:
    """Makes findings, and holds what the findings of one record share.

    What an instrument may be wrong by is one variable per instrument, kept here: two findings
    of the same Observer share it, so that it cancels in their difference (JCGM 100 5.2, F.1.2).
    Its tag is "instrument/<id>"; a finding's own parts are tagged
    "<attribute>/<specimen id>/repeats", ".../resolution" and ".../counts".
    """

    def __init__(self, instruments: Iterable[Instrument]) -> None:
        self._instruments = {instrument.id: instrument for instrument in instruments}
        self._errors: dict[str, Any] = {
            i.id: ufloat(0.0, of_half_width(i.permissible_error), tag=f"instrument/{i.id}")
            for i in self._instruments.values()
            if i.permissible_error > 0.0
        }

    def observe(
        self, attribute: str, specimen_id: str, readings: list[Reading], unit: str
    ) -> Finding:
        """Return what `readings` of one attribute of one specimen come to, in `unit`.

        Superseded and withdrawn readings do not count; no reading at all is "not measured"; of
        several states without a value the last stands, and so does the last word. Repeats are
        averaged; their scatter (Type A) joins the widest resolution or interval among them
        (Type B, rectangular, not made smaller by averaging) and the instruments' permissible
        errors. A reading without an instrument of its dimension steps by the last digit said.
        Counts that agree are exact. Raises OurFault for an instrument that is not known here.
        """
        left = standing(readings)
        if not left:
            return Finding(attribute, specimen_id, State.NOT_MEASURED)
        taken = counted(left)
        numbers = [r for r in taken if r.said is not None]
        if not taken:
            return Finding(attribute, specimen_id, left[-1].state, tuple(left))
        if not numbers:
            word = taken[-1].word
            return Finding(attribute, specimen_id, taken[-1].state, tuple(left), word=word)
        return self._finding(attribute, specimen_id, tuple(left), numbers, unit)

    def _finding(
        self,
        attribute: str,
        specimen_id: str,
        left: tuple[Reading, ...],
        numbers: list[Reading],
        unit: str,
    ) -> Finding:
        unit = unit or _said(numbers[0]).unit
        seen = [self._seen(reading, unit) for reading in numbers]
        tag = f"{attribute}/{specimen_id}"
        if canonical(unit) == "count" and not any(s.interval for s in seen):
            magnitude, ends = _counts(seen, tag)
        else:
            magnitude, ends = self._mean(seen, numbers, unit, tag), _envelope(seen)
        pressures = tuple({self._pressure(reading) for reading in numbers})
        return Finding(
            attribute,
            specimen_id,
            numbers[-1].state,
            left,
            quantity=registry().Quantity(magnitude, unit),
            low=ends[0] if ends else None,
            high=ends[1] if ends else None,
            contact_pressure_kpa=pressures[0] if len(pressures) == 1 else None,
            mixed_pressure=len(pressures) > 1,
        )

    def _seen(self, reading: Reading, unit: str) -> _Seen:
        said = _said(reading)
        value = convert(float(said.value), said.unit, unit)
        interval = _interval(reading, said, unit)
        half = self._resolution(reading, said, unit) / 2
        if interval:
            half = max(half, (interval[1] - interval[0]) / 2)
        return _Seen(value, half, interval)

    def _resolution(self, reading: Reading, said: Said, unit: str) -> float:
        instrument = self._instrument(reading)
        if instrument is not None and same_dimension(instrument.unit, unit):
            return instrument.resolution * _scale(instrument.unit, unit)
        return float(step_said(said)) * _scale(said.unit, unit)

    def _mean(self, seen: list[_Seen], numbers: list[Reading], unit: str, tag: str) -> Any:
        values = [s.value for s in seen]
        magnitude = spread_about(
            statistics.fmean(values),
            (
                (of_repeats(values), f"{tag}/repeats"),
                (of_half_width(max(s.half for s in seen)), f"{tag}/resolution"),
            ),
        )
        used = Counter(r.instrument_id for r in numbers if r.instrument_id in self._errors)
        for instrument_id, times in used.items():
            instrument = self._instruments[str(instrument_id)]
            if same_dimension(instrument.unit, unit):
                weight = times / len(numbers) * _scale(instrument.unit, unit)
                magnitude = magnitude + weight * self._errors[instrument.id]
        return magnitude

    def _pressure(self, reading: Reading) -> float | None:
        instrument = self._instrument(reading)
        return instrument.contact_pressure_kpa if instrument else None

    def _instrument(self, reading: Reading) -> Instrument | None:
        if not reading.instrument_id:
            return None
        try:
            return self._instruments[reading.instrument_id]
        except KeyError as error:
            raise OurFault(
                f"reading {reading.id} was taken with instrument {reading.instrument_id}, "
                "which is not known here"
            ) from error


def _counts(seen: list[_Seen], tag: str) -> tuple[Any, tuple[float, float] | None]:
    result = tally([s.value for s in seen])
    if result.agreed:
        return exact(result.value), None
    magnitude = spread_about(result.value, ((result.uncertainty, f"{tag}/counts"),))
    return magnitude, (result.low, result.high)


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


def _envelope(seen: list[_Seen]) -> tuple[float, float] | None:
    intervals = [s.interval for s in seen if s.interval]
    if not intervals:
        return None
    return min(low for low, _ in intervals), max(high for _, high in intervals)


def _scale(from_unit: str, to_unit: str) -> float:
    """Return how long one step of `from_unit` is in `to_unit`; a shifted zero does not matter."""
    return convert(1.0, from_unit, to_unit) - convert(0.0, from_unit, to_unit)


def _said(reading: Reading) -> Said:
    if reading.said is None:
        raise OurFault(f"reading {reading.id} holds no number")
    return reading.said
