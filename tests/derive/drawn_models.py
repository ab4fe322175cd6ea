"""Published models worked as figures: pure numbers in, a figure of a made-up kind out."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from benchlog.derive.figure import Figure, FigureKind
from benchlog.derive.inputs import Common, Inputs
from benchlog.derive.working import work
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component
from benchlog.trade.conditions import usual_conditions
from tests.derive.found import ALPHA

Model = Callable[[Inputs], Any]


def normal(name: str, value: float, u: float, freedom: float = math.inf) -> Any:
    return value + variable(u, Part(name, Spread.NORMAL, freedom))


def repeats(name: str, value: float, u: float, freedom: float) -> Any:
    return value + variable(u, Part(name, Spread.REPEATS, freedom))


def rectangular(name: str, low: float, high: float, freedom: float = math.inf) -> Any:
    part = Part(name, Spread.RECTANGULAR, freedom)
    return (low + high) / 2 + variable((high - low) / math.sqrt(12), part)


def arcsine(name: str, half: float) -> Any:
    return variable(half / math.sqrt(2), Part(name, Spread.ARCSINE))


def worked(
    model: Model, numbers: dict[str, Any], *, bounded: bool = False, unit: str = "dimensionless"
) -> tuple[Figure, Inputs]:
    """Work a model with pure numbers; returns its figure and the inputs that it had."""
    kind = FigureKind(
        "model", "model", Component.MEDIA, "", tuple(numbers), unit, "", Judged.IDENTITY,
        Support.STANDARD, "", bounded=bounded,
    )  # fmt: skip
    findings = {
        key: Finding(
            key, "a", State.MEASURED, quantity=registry().Quantity(number, "dimensionless")
        )
        for key, number in numbers.items()
    }
    inputs = Inputs(findings, ALPHA, usual_conditions(), Common())
    return work(kind, model, inputs), inputs


def fresh(inputs: Inputs) -> Inputs:
    """Return the same inputs without the memory of what was used."""
    return Inputs(inputs.findings, inputs.specimen, inputs.conditions, inputs.common)
