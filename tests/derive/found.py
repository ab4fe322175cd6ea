"""Findings without a bench: a number, its standard uncertainty and its unit, for tests."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

from uncertainties import ufloat

from benchlog.derive.all_figures import figures_of
from benchlog.derive.figure import Figure
from benchlog.measure.finding import Finding
from benchlog.measure.reading import Reading
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.trade.conditions import Conditions
from benchlog.trade.specimen import Shape, Specimen

ALPHA = Specimen("a", "Alpha", Shape.CIRCLE, "#0072b2", price=Decimal("12.50"), currency="EUR")


def number(
    key: str, value: float, unit: str, u: float = 0.0, specimen: str = "a", **more: object
) -> Finding:
    """A measured number; `u` is its standard uncertainty, in the same unit."""
    magnitude = ufloat(value, u) if u else value
    quantity = registry().Quantity(magnitude, unit)
    state = more.pop("state", State.MEASURED)
    return Finding(
        key, specimen, state, readings=(reading(key, specimen),), quantity=quantity, **more
    )


def word(key: str, said: str, specimen: str = "a", state: State = State.MEASURED) -> Finding:
    """A chosen word."""
    return Finding(key, specimen, state, readings=(reading(key, specimen),), word=said)


def without(key: str, state: State, specimen: str = "a") -> Finding:
    """A state without a value."""
    return Finding(key, specimen, state, readings=(reading(key, specimen),))


def reading(key: str, specimen: str) -> Reading:
    """The one reading behind a finding."""
    at = datetime(2026, 5, 4, tzinfo=UTC)
    return Reading(
        f"{key}-{specimen}", "lineup", specimen, key, 1, State.MEASURED, "", at, session_s=0.0
    )


def figures(
    *findings: Finding, specimen: Specimen = ALPHA, conditions: Conditions | None = None
) -> dict[str, Figure]:
    """Every figure of one specimen, under the usual conditions unless others are stated."""
    return figures_of({finding.attribute: finding for finding in findings}, specimen, conditions)


def value(figure: Figure, unit: str) -> float:
    """The figure's best value in a unit."""
    magnitude = figure.quantity.to(unit).magnitude
    return float(getattr(magnitude, "nominal_value", magnitude))


def u(figure: Figure, unit: str) -> float:
    """The figure's standard uncertainty in a unit."""
    return float(getattr(figure.quantity.to(unit).magnitude, "std_dev", 0.0))
