"""Readings and instruments to measure with; all invented."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from itertools import count

import pytest

from benchlog.measure.entry import parse_entry
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.reading import Reading
from benchlog.measure.state import State
from benchlog.measure.units import to_si

MakeReading = Callable[..., Reading]


@pytest.fixture
def read() -> MakeReading:
    """Return a maker of readings: `read("3.52 in", "inch", "length", instrument="cal")`."""
    numbers = count(1)

    def make(
        text: str,
        unit: str = "millimeter",
        dimension: str = "length",
        *,
        state: State = State.MEASURED,
        instrument: str | None = None,
        word: str | None = None,
        supersedes: str | None = None,
        withdrawn: bool = False,
    ) -> Reading:
        number = next(numbers)
        said = None
        if state.has_value and word is None and not withdrawn:
            said = parse_entry(text, unit, dimension)
        si_value, si_unit = to_si(said.value, said.unit) if said else (None, "")
        return Reading(
            id=f"r{number}",
            lineup_id="l",
            specimen_id="a",
            attribute="thing",
            ordinal=number,
            state=state,
            text=text,
            at=datetime(2026, 3, 1, 12, 0, tzinfo=UTC),
            session_s=float(number),
            said=said,
            word=word,
            si_value=si_value,
            si_unit=si_unit,
            instrument_id=instrument,
            supersedes=supersedes,
            withdrawn=withdrawn,
        )

    return make


@pytest.fixture
def calliper() -> Instrument:
    return Instrument("cal", "calliper", InstrumentKind.CALLIPER, "millimeter", 0.01, 0.02)


@pytest.fixture
def scale() -> Instrument:
    return Instrument("pan", "bench scale", InstrumentKind.SCALE, "gram", 0.1, 0.2)


@pytest.fixture
def soft_gauge() -> Instrument:
    return Instrument(
        "soft", "2 kPa foot", InstrumentKind.THICKNESS_GAUGE, "millimeter", 0.01, 0.01, 2.0
    )


@pytest.fixture
def hard_gauge() -> Instrument:
    return Instrument(
        "hard", "50 kPa foot", InstrumentKind.THICKNESS_GAUGE, "millimeter", 0.001, 0.01, 50.0
    )
