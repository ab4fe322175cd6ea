"""Working a formula: its value, its slopes, and what came of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from itertools import product
from typing import Any

from benchlog.derive.figure import Figure, FigureKind, Term
from benchlog.derive.inputs import CannotWork, Inputs, Used
from benchlog.derive.number import Number
from benchlog.errors import OurFault
from benchlog.measure.coverage import expanded
from benchlog.measure.state import State
from benchlog.measure.units import convert, registry, si_unit

Formula = Callable[[Inputs], Number]
"""Takes the inputs and returns a number in SI, or a word; raises CannotWork."""

STEP = 1e-30
"""Imaginary step of a slope: so small that its square vanishes, and nothing is subtracted."""


def work(kind: FigureKind, formula: Formula, inputs: Inputs) -> Figure:
    """Return a figure of one specimen: worked out, or with the reason why it cannot be."""
    figure = Figure(kind, inputs.specimen.id, None, "", ())
    try:
        outcome = formula(inputs)
    except CannotWork as reason:
        return _told(replace(figure, refusal=str(reason)), inputs)
    if isinstance(outcome, str):
        return _told(replace(figure, word=outcome), inputs)
    terms = _terms(kind, formula, inputs)
    value = float(outcome) * from_si(kind.unit)
    number = _joined(value, terms)
    low, high = _bounds(kind, formula, inputs, terms) if kind.bounded else (None, None)
    quantity = registry().Quantity(number, _unit(kind.unit))
    return _told(replace(figure, quantity=quantity, terms=terms, low=low, high=high), inputs)


def again(formula: Formula, inputs: Inputs, **given: Number) -> Number:
    """Work a formula once more with other numbers for some of its inputs."""
    return formula(inputs.afresh(given))


@cache
def from_si(unit: str) -> float:
    """Return how many of `unit` one of its SI unit is; a figure's unit has no shifted zero."""
    if convert(0.0, si_unit(unit), unit):
        raise OurFault(f"a figure cannot be in {unit}: its zero is shifted")
    return convert(1.0, si_unit(unit), unit)


@cache
def _unit(name: str) -> Any:
    return registry().Unit(name)


def _terms(kind: FigureKind, formula: Formula, inputs: Inputs) -> tuple[Term, ...]:
    """Return every number used with its slope, by the complex step (Squire and Trapp 1998)."""
    factor = from_si(kind.unit)
    return tuple(
        Term(
            key,
            used.number,
            used.unit,
            factor * _slope(formula, inputs, key),
            used.assumed,
            used.said_in,
        )
        for key, used in inputs.used.items()
    )


def _slope(formula: Formula, inputs: Inputs, key: str) -> float:
    stepped = again(formula, inputs, **{key: complex(inputs.best(key), STEP)})
    return float(getattr(stepped, "imag", 0.0)) / STEP


def _joined(value: float, terms: tuple[Term, ...]) -> Any:
    """Return the value with the uncertainty that its terms bring, still tied to them."""
    total: Any = value
    for term in terms:
        if term.sensitivity and hasattr(term.number, "nominal_value"):
            total = total + term.sensitivity * (term.number - term.number.nominal_value)
    # Laid out at once, so that the order of its parts, and with it the last digit of their sum,
    # does not depend on who asks first.
    getattr(total, "derivatives", None)
    return total


def _bounds(
    kind: FigureKind, formula: Formula, inputs: Inputs, terms: tuple[Term, ...]
) -> tuple[float, float]:
    """Return the ends of a bounded estimate, in the kind's unit.

    The least and the most that the ends of the assumed intervals give, each widened by what the
    readings alone may be off by, as a share of the value.
    """
    loose = {key: used.ends for key, used in inputs.used.items() if _is_interval(used)}
    corners = [
        float(again(formula, inputs, **dict(zip(loose, ends, strict=True)))) * from_si(kind.unit)
        for ends in product(*(e for e in loose.values() if e))
    ]
    value = float(again(formula, inputs)) * from_si(kind.unit)
    read = _joined(value, tuple(t for t in terms if t.key not in loose))
    share = expanded(read) / abs(value) if value else 0.0
    low, high = min(corners), max(corners)
    return low - abs(low) * share, high + abs(high) * share


def _is_interval(used: Used) -> bool:
    return used.ends is not None and used.ends[0] < used.ends[1]


def _told(figure: Figure, inputs: Inputs) -> Figure:
    """Return the figure with where it came from."""
    seen = inputs.looked_at.values()
    return replace(
        figure,
        readings=tuple(dict.fromkeys(r.id for finding in seen for r in finding.readings)),
        estimate=any(finding.state is State.ESTIMATE for finding in seen),
        contact_pressure_kpa=_pressure(figure.kind, inputs),
        assumed=tuple(inputs.assumed),
        warnings=tuple(inputs.warnings),
        methods=tuple((f.attribute, f.taken_with) for f in seen if f.quantity is not None),
    )


def _pressure(kind: FigureKind, inputs: Inputs) -> float | None:
    """Return the foot pressure of the one input for which it matters, if it matters here."""
    thickness = inputs.looked_at.get("media_thickness")
    if thickness is None or "contact_pressure" not in kind.comparable_when:
        return None
    return thickness.contact_pressure_kpa
