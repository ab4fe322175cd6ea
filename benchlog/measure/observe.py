"""From the readings of one attribute of one specimen to its finding."""

from __future__ import annotations

import statistics
from collections.abc import Callable, Container, Iterable, Mapping, Sequence
from typing import Any

from benchlog.errors import OurFault
from benchlog.measure.field_scatter import FieldSpread
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.picture_doubt import PictureDoubt, light_variable, scale_variable
from benchlog.measure.reading import Reading, standing
from benchlog.measure.repeats import counted
from benchlog.measure.scatter import Scatter, Scatters, scatter_of
from benchlog.measure.seen import Seen, envelope, is_plain, said_of, seen
from benchlog.measure.state import State
from benchlog.measure.tally import tally
from benchlog.measure.uncertainty import exact, of_half_width, spread_about
from benchlog.measure.units import canonical, registry


class Observer:
    """Makes findings, and holds what the findings of one record share.

    What an instrument may be wrong by is one variable per instrument, kept here: two findings
    of the same Observer share it, so that it cancels in their difference (JCGM 100 5.2, F.1.2).
    Where the permissible error grows with the load, the one variable is scaled by it. What a
    group correction may be wrong by is one variable per correction in the same way.

    `scatter` holds the pooled scatters at hand, by attribute and instrument; `corrections` the
    half-width within which each correction's shift is known, by its id, in the instrument's
    unit. `as_said` are attributes that are copied, not measured: one number there, however often
    it was copied, is exact. `pictures` hold by reading what a picture's figure is unsure by
    beyond its repeats, `fields` by attribute and specimen how sure the fields make a mean. Tags
    are `Part`s: "instrument/<id>", "correction/<id>", "picture scale/<set-up>", "picture
    light/<set-up>/<attribute>", and of a finding's own "<attribute>/<specimen id>/repeats",
    ".../resolution", ".../counts", ".../fields" and ".../light".
    """

    def __init__(
        self,
        instruments: Iterable[Instrument],
        *,
        scatter: Scatters | None = None,
        corrections: Mapping[str, float] | None = None,
        as_said: Container[str] = (),
        pictures: Mapping[str, PictureDoubt] | None = None,
        fields: Mapping[tuple[str, str], FieldSpread] | None = None,
    ) -> None:
        self._instruments = {instrument.id: instrument for instrument in instruments}
        self._scatter: Scatters = scatter or {}
        self._corrections: Mapping[str, float] = corrections or {}
        self._as_said = as_said
        self._pictures: Mapping[str, PictureDoubt] = pictures or {}
        self._fields: Mapping[tuple[str, str], FieldSpread] = fields or {}
        self._shared: dict[str, Any] = {}

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
        unit = unit or said_of(numbers[0]).unit
        tools = [self._instrument(reading) for reading in numbers]
        each = [seen(reading, tool, unit) for reading, tool in zip(numbers, tools, strict=True)]
        tag = f"{attribute}/{specimen_id}"
        words = ""
        if canonical(unit) == "count" and not any(s.interval for s in each):
            magnitude, ends = _counts(each, tag)
        elif attribute in self._as_said and _is_one_number(each):
            magnitude, ends = exact(each[0].value), None
        else:
            scatter = self._scatter_between(attribute, specimen_id, each)
            magnitude, ends = self._mean(each, tag, scatter), envelope(each)
            words = scatter.words
        pressures = tuple({tool.contact_pressure_kpa if tool else None for tool in tools})
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
            taken_with=tuple(sorted({tool.kind.value if tool else "" for tool in tools})),
            scatter=words,
            set_ups=_set_ups(tools),
        )

    def _scatter_between(self, attribute: str, specimen_id: str, each: Sequence[Seen]) -> Scatter:
        """Return the scatter of repeats, or of the fields that pictures show."""
        tag = f"{attribute}/{specimen_id}"
        spread = self._fields.get((attribute, specimen_id))
        if spread is None:
            return scatter_of(attribute, f"{tag}/repeats", each, self._scatter)
        estimate = f"fields of {attribute}" if spread.common else ""
        part = Part(f"{tag}/fields", Spread.REPEATS, spread.freedom, estimate)
        return Scatter(spread.size, part, spread.words)

    def _mean(self, each: Sequence[Seen], tag: str, scatter: Scatter) -> Any:
        magnitude = spread_about(
            statistics.fmean(s.value for s in each),
            (
                (scatter.size, scatter.part),
                (
                    of_half_width(max(s.half for s in each)),
                    Part(f"{tag}/resolution", Spread.RECTANGULAR),
                ),
            ),
        )
        for name, half in (
            *_halves(each, lambda s: f"instrument/{s.reading.instrument_id}", _permissible),
            *_halves(each, lambda s: f"correction/{s.reading.group}", self._corrected_within),
        ):
            magnitude = magnitude + half * self._within_one(name)
        return magnitude + self._pictured(each, tag)

    def _pictured(self, each: Sequence[Seen], tag: str) -> Any:
        """Return what scale and light may shift a mean of pictures by, about nought."""
        total, own = 0.0, 0.0
        attribute = tag.partition("/")[0]
        for doubt in (self._pictures.get(s.reading.id) for s in each):
            if doubt is not None:
                scale = self._shared_one(f"scale/{doubt.set_up}", scale_variable, doubt.set_up)
                light = self._shared_one(
                    f"light/{doubt.set_up}/{attribute}", light_variable, doubt.set_up, attribute
                )
                total += (doubt.scale * scale + doubt.light * light) / len(each)
                own += doubt.own_light / len(each)
        if own > 0.0:
            part = Part(f"{tag}/light", Spread.RECTANGULAR)
            total += variable(of_half_width(own), part)
        return total

    def _shared_one(self, name: str, make: Callable[..., Any], *about: str) -> Any:
        """Return the shared variable of this name, made when it is first wanted."""
        if name not in self._shared:
            self._shared[name] = make(*about)
        return self._shared[name]

    def _corrected_within(self, one: Seen) -> float:
        return self._corrections.get(one.reading.group, 0.0) * one.scale

    def _within_one(self, name: str) -> Any:
        """Return the shared variable of this name: rectangular within plus or minus 1."""
        if name not in self._shared:
            self._shared[name] = variable(of_half_width(1.0), Part(name, Spread.RECTANGULAR))
        return self._shared[name]

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


def _is_one_number(each: Sequence[Seen]) -> bool:
    return len({s.value for s in each}) == 1 and all(is_plain(s.reading) for s in each)


def _set_ups(tools: Iterable[Instrument | None]) -> tuple[tuple[str, str], ...]:
    """Return id and name of the microscope set-ups among instruments, sorted.

    What was typed among what pictures show counts as a set-up of its own, without id: it lacks
    their doubt, and a mean of both is compared with nothing.
    """
    taken = {t if t and t.kind is InstrumentKind.MICROSCOPE else None for t in tools}
    if taken == {None}:
        return ()
    return tuple(sorted((t.id, t.name) if t else ("", "by hand") for t in taken))


def _permissible(one: Seen) -> float:
    return one.permissible


def _halves(
    each: Sequence[Seen], name: Callable[[Seen], str], half: Callable[[Seen], float]
) -> list[tuple[str, float]]:
    """Return what each shared error may do to the mean: the average over all readings."""
    sums: dict[str, float] = {}
    for one in each:
        if half(one) > 0.0:
            sums[name(one)] = sums.get(name(one), 0.0) + half(one) / len(each)
    return list(sums.items())


def _counts(each: Sequence[Seen], tag: str) -> tuple[Any, tuple[float, float] | None]:
    result = tally([s.value for s in each])
    if result.agreed:
        return exact(result.value), None
    part = Part(f"{tag}/counts", Spread.RECTANGULAR)
    magnitude = spread_about(result.value, ((result.uncertainty, part),))
    return magnitude, (result.low, result.high)
