"""At what pressure the bypass opens: by force and seat, and how far the ways to it agree."""

from __future__ import annotations

import math
from typing import Any

from benchlog.derive.agreement import normalised_error, outside_interval, uncertain
from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs
from benchlog.derive.number import Number
from benchlog.measure.units import convert
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

FAR_FROM_MARKING = 1.5
"""How many times above or below its marking makes one doubt the area: common practice, no source"""

OPENING_BY_FORCE = FigureKind(
    key="bypass_opening",
    label="Bypass opening, from force and seat",
    component=Component.BYPASS,
    formula="p = F ÷ (π/4 × d²): opening force ÷ area inside the seat's sealing line",
    inputs=("bypass_force", "bypass_seat"),
    unit="kilopascal",
    inch_unit="psi",
    judged=Judged.BAND,
    support=Support.ENGINEERING,
    source="statics; a kilogram on a scale is 9.80665 N (CGPM 1901)",
    note="An index until air and a gauge bear it out; higher is not better.",
    beside="From a force at the bench, not a flow test: the reading falls once the valve has "
    "opened.",
)

AGREEMENT = FigureKind(
    key="bypass_agreement",
    label="Bypass opening, how the ways agree",
    component=Component.BYPASS,
    formula="E_n = |p₁ − p₂| ÷ U(p₁ − p₂) for opening by force, by air and as marked; from an "
    "interval the gap counts to its nearer end; up to 1 the two agree",
    inputs=("bypass_force", "bypass_seat", "bypass_air", "bypass_marked"),
    unit="",
    inch_unit="",
    judged=Judged.IDENTITY,
    support=Support.STANDARD,
    source="ISO 13528:2022, ISO/IEC 17043 (normalised error)",
    note="Says whether the readings bear each other out, not which valve is the better.",
)


def opening_by_force(inputs: Inputs) -> Number:
    """Opening force over the area of the seat; raises CannotWork."""
    force, seat = inputs.above_zero("bypass_force"), inputs.above_zero("bypass_seat")
    opening = force / (math.pi / 4 * seat**2)
    inputs.warn(
        "Measure the ring on which the valve seals: the disc that one sees is not the seat. "
        "Take the force at the first movement; it falls after that."
    )
    if not inputs.given:
        _compare_with_marking(inputs, _best_opening(inputs))
    return opening


def _best_opening(inputs: Inputs) -> float:
    """Return the opening by the best values of force and seat; for questions."""
    return inputs.best("bypass_force") / (math.pi / 4 * inputs.best("bypass_seat") ** 2)


def agreement(inputs: Inputs) -> str:
    """Say how far force, air and marking agree, pair by pair; raises CannotWork."""
    force, air, marked = _by_force(inputs), _read(inputs, "bypass_air"), _marked(inputs)
    said = []
    if force is not None and air is not None:
        said.append(_pair("force and air", normalised_error(force, air)))
    for name, opening in (("force", force), ("air", air)):
        if opening is not None and marked is not None:
            said.append(_to_marking(name, opening, marked))
    if not said:
        raise CannotWork(_too_few(inputs, force is not None, air is not None))
    whole = "; ".join(said)
    return whole[0].upper() + whole[1:]


def _pair(names: str, error: float) -> str:
    shown = f" (E_n {error:.2f})" if math.isfinite(error) else ""
    if error <= 1.0:
        return f"{names} agree within their uncertainties{shown}"
    return f"{names} are further apart than their uncertainties allow{shown}"


def _to_marking(name: str, opening: Any, marked: tuple[Any, float, float]) -> str:
    """Say how far an opening is from a marked value, or from the nearer end of an interval."""
    number, low, high = marked
    if low == high:
        return _pair(f"{name} and marking", normalised_error(opening, number))
    error = outside_interval(opening, low, high)
    return _pair(f"{name} and marking", error) if error else f"{name} lies in the marked range"


def _by_force(inputs: Inputs) -> Any | None:
    """Return the opening by force with its uncertainty, and remember both readings."""
    if not (inputs.has("bypass_force") and inputs.has("bypass_seat")):
        return None
    inputs.finding("bypass_force")
    inputs.finding("bypass_seat")
    return uncertain(opening_by_force, inputs)


def _read(inputs: Inputs, key: str) -> Any | None:
    """Return a reading with its uncertainty, None where there is none."""
    if not inputs.has(key):
        return None
    inputs.above_zero(key)
    return inputs.used[key].number


def _marked(inputs: Inputs) -> tuple[Any, float, float] | None:
    """Return the marking in pascals: its middle, and the ends of a marked interval."""
    number = _read(inputs, "bypass_marked")
    if number is None:
        return None
    finding = inputs.finding("bypass_marked")
    middle = inputs.best("bypass_marked")
    if finding.low is None or finding.high is None or finding.quantity is None:
        return number, middle, middle
    unit = str(finding.quantity.units)
    return number, convert(finding.low, unit, "pascal"), convert(finding.high, unit, "pascal")


def _compare_with_marking(inputs: Inputs, opening: float) -> None:
    """Warn where the sum is so far from the marking that the area must be doubted.

    The marking is no part of the sum, so it is looked at in an apart copy of the inputs.
    """
    aside = inputs.afresh()
    marked = _marked(aside) if aside.has("bypass_marked") else None
    if marked is None:
        return
    _, low, high = marked
    if opening > FAR_FROM_MARKING * high or opening < low / FAR_FROM_MARKING:
        inputs.warn(
            "Force and seat give a pressure far from the marking: check that the seat's line was "
            "measured and not the disc, and the unit of the force."
        )


def _too_few(inputs: Inputs, force: bool, air: bool) -> str:
    """Return the sentences that say which ways are missing; two of the three are needed."""
    lacking = [
        *(key for key in ("bypass_force", "bypass_seat") if not force and not inputs.has(key)),
        *(["bypass_air"] if not air else []),
        *(["bypass_marked"] if not inputs.has("bypass_marked") else []),
    ]
    return " ".join(inputs.missing(key) for key in lacking)


FIGURES = (
    (OPENING_BY_FORCE, opening_by_force),
    (AGREEMENT, agreement),
)
