"""Six invented specimens with ready findings: every size with three parts, one of them shared."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.units import convert, registry, si_unit
from benchlog.trade.specimen import Specimen
from tests.derive.found import ALPHA
from tests.derive.whole_bench import ATTRIBUTES, whole_bench

COUNT = 6
REPEATS, RESOLUTION, PERMISSIBLE = 0.004, 0.002, 0.003
"""Standard uncertainties of a size, as shares of it."""


@dataclass(frozen=True)
class Ready:
    """One specimen with what its readings came to."""

    specimen: Specimen
    findings: dict[str, Finding]

    def numbers(self) -> dict[str, tuple[Any, float]]:
        """Return every number as it was read, its parts laid out, and its factor to SI."""
        found = {}
        for key, finding in self.findings.items():
            if finding.quantity is not None:
                unit = str(finding.quantity.units)
                getattr(finding.quantity.magnitude, "derivatives", None)
                found[key] = finding.quantity.magnitude, convert(1.0, unit, si_unit(unit))
        return found


def six_specimens() -> tuple[Ready, ...]:
    """Return six specimens, each a little larger than the one before; one calliper for all."""
    tools: dict[str, Any] = {}
    return tuple(_ready(f"s{n}", 1.0 + 0.01 * n, tools) for n in range(COUNT))


def _ready(name: str, growth: float, tools: dict[str, Any]) -> Ready:
    findings = {}
    for key, finding in whole_bench().items():
        if finding.quantity is None or ATTRIBUTES[key].dimension == "count":
            findings[key] = _exact(finding)
            continue
        size = finding.quantity.magnitude.nominal_value * growth
        quantity = registry().Quantity(_uncertain(key, name, size, tools), ATTRIBUTES[key].unit)
        findings[key] = replace(finding, quantity=quantity)
    return Ready(replace(ALPHA, id=name, nickname=name.upper()), findings)


def _exact(finding: Finding) -> Finding:
    if finding.quantity is None:
        return finding
    count = round(finding.quantity.magnitude.nominal_value)
    return replace(finding, quantity=registry().Quantity(float(count), finding.quantity.units))


def _uncertain(key: str, name: str, size: float, tools: dict[str, Any]) -> Any:
    dimension = ATTRIBUTES[key].dimension
    if dimension not in tools:
        tools[dimension] = variable(1.0, Part(f"instrument/{dimension}", Spread.RECTANGULAR))
    repeats = Part(f"{key}/{name}/repeats", Spread.REPEATS, 4.0)
    resolution = Part(f"{key}/{name}/resolution", Spread.RECTANGULAR)
    number = size + variable(REPEATS * size, repeats) + variable(RESOLUTION * size, resolution)
    return number + PERMISSIBLE * size * tools[dimension]
