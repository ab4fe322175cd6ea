"""Which readings make a finding's value, and how far they lie apart."""

from __future__ import annotations

from collections.abc import Sequence

from benchlog.measure.finding import Finding
from benchlog.measure.reading import Reading
from benchlog.measure.state import State
from benchlog.measure.units import convert


def counted(standing: Sequence[Reading]) -> list[Reading]:
    """Return those of the standing readings that make the value.

    Measured ones if there are any, else estimates: an estimate does not blur a measurement of
    the same thing. Empty when no state has a value.
    """
    valued = [r for r in standing if r.state.has_value]
    return [r for r in valued if r.state is State.MEASURED] or valued


def values_of(finding: Finding) -> list[float]:
    """Return the numbers behind a finding's value in its quantity's unit, oldest first."""
    if finding.quantity is None:
        return []
    unit = str(finding.quantity.units)
    return [
        convert(float(r.said.value), r.said.unit, unit)
        for r in counted(finding.readings)
        if r.said is not None
    ]


def spread(finding: Finding) -> float | None:
    """Return largest minus smallest repeat in the quantity's unit, None for fewer than two."""
    values = values_of(finding)
    return max(values) - min(values) if len(values) > 1 else None


def degrees_of_freedom(finding: Finding) -> int | None:
    """Return n - 1 of the repeats (JCGM 100 4.2.6), None when nothing was repeated."""
    values = values_of(finding)
    return len(values) - 1 if len(values) > 1 else None
