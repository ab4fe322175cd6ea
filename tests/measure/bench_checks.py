"""Checks, corrections and readings of a calliper, for tests of checking and brackets."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

from benchlog.measure.check import Check, CheckMoment, GroupCorrection, Remedy
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.reading import Reading, Said
from benchlog.measure.state import State

NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)
CALLIPER = Instrument("cal", "Calliper", InstrumentKind.CALLIPER, "millimeter", 0.01, 0.03)
SCALE = Instrument("scale", "Scale", InstrumentKind.SCALE, "gram", 0.1, 0.2)
OPENING, CLOSING = CheckMoment.OPENING, CheckMoment.CLOSING


def check(
    name: str,
    moment: CheckMoment,
    shown: str,
    after: str = "",
    *,
    known: float = 0.0,
    tolerance: float = 0.0,
    tool: Instrument = CALLIPER,
    unit: str = "",
) -> Check:
    said = Said(shown, Decimal(shown), unit or tool.unit)
    standard = f"known {known:g}" if known else ""
    return Check(name, "l", tool.id, moment, known, tolerance, said, NOON, 0.0, after, standard)


def reading(
    name: str,
    value: str = "12.35",
    unit: str = "millimeter",
    *,
    supersedes: str | None = None,
    group: str = "",
    tool: Instrument | None = CALLIPER,
    withdrawn: bool = False,
    state: State = State.MEASURED,
) -> Reading:
    said = Said(value, Decimal(value), unit) if state.has_value and not withdrawn else None
    return Reading(
        name, "l", "s", "can_diameter", 1, state, value, NOON, 0.0,
        said=said, instrument_id=tool.id if tool else None, supersedes=supersedes,
        group=group, withdrawn=withdrawn,
    )  # fmt: skip


def correction(name: str, check_id: str, takes_back: str = "") -> GroupCorrection:
    return GroupCorrection(
        name, "l", CALLIPER.id, check_id, Remedy.SHIFT, -0.05, "why", NOON, takes_back
    )
