"""Working a formula: its value, its slopes, and what came of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cache
from itertools import product
from typing import Any

from benchlog.derive.figure import Figure, FigureKind, Term
from benchlog.derive.inputs import CannotWork, Inputs, Used
from benchlog.derive.number import Number, plain
from benchlog.derive.trace import Trace, Traced
from benchlog.errors import OurFault
from benchlog.measure.coverage import expanded
from benchlog.measure.linear import about
from benchlog.measure.state import State
from benchlog.measure.units import Quantity, convert, registry, si_unit

Formula = Callable[[Inputs], Number]
"""Takes the inputs and returns a number in SI, or a word; raises CannotWork."""


def work(kind: FigureKind, formula: Formula, inputs: Inputs) -> Figure:
    """Return a figure of one specimen: worked out, or with the reason why it cannot be."""
    inputs.trace = Trace()
    try:
        outcome = formula(inputs)
    except CannotWork as reason:
        return _told(kind, inputs, refusal=str(reason))
    finally:
        trace, inputs.trace = inputs.trace, None
    if isinstance(outcome, str):
        return _told(kind, inputs, word=outcome)
    terms = _terms(kind, inputs, trace.slopes(outcome) if isinstance(outcome, Traced) else {})
    value = plain(outcome) * from_si(kind.unit)
    number = _joined(value, terms)
    quantity = registry().Quantity(number, _unit(kind.unit))
    if not kind.bounded:
        return _told(kind, inputs, quantity=quantity, terms=terms)
    low, high = _bounds(kind, inputs, outcome, terms)
    return _told(kind, inputs, quantity=quantity, terms=terms, low=low, high=high)


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


def _terms(kind: FigureKind, inputs: Inputs, slopes: Mapping[str, float]) -> tuple[Term, ...]:
    """Return every number used with its slope."""
    factor = from_si(kind.unit)
    return tuple(
        Term(
            key,
            used.number,
            used.unit,
            factor * slopes.get(key, 0.0),
            used.assumed,
            used.said_in,
        )
        for key, used in inputs.used.items()
    )


def _joined(value: float, terms: Iterable[Term]) -> Any:
    """Return the value with the uncertainty that its terms bring, still tied to them."""
    return about(value, [(term.sensitivity, term.number) for term in terms])


def _bounds(
    kind: FigureKind, inputs: Inputs, outcome: Number, terms: tuple[Term, ...]
) -> tuple[float, float]:
    """Return the ends of a bounded estimate, in the kind's unit.

    The least and the most that the ends of the assumed intervals give, each widened by what the
    readings alone may be off by, as a share of the value.
    """
    loose = {
        key: used.ends
        for key, used in inputs.used.items()
        if _is_interval(used) and key not in inputs.given
    }
    factor = from_si(kind.unit)
    value = plain(outcome) * factor
    corners = [value]
    if isinstance(outcome, Traced):
        ends = product(*(e for e in loose.values() if e))
        each = (dict(zip(loose, corner, strict=True)) for corner in ends)
        corners = [corner * factor for corner in outcome.trace.again(outcome, each)]
    read = _joined(value, [t for t in terms if t.key not in loose])
    share = expanded(read) / abs(value) if value else 0.0
    low, high = min(corners), max(corners)
    return low - abs(low) * share, high + abs(high) * share


def _is_interval(used: Used) -> bool:
    return used.ends is not None and used.ends[0] < used.ends[1]


def _told(
    kind: FigureKind,
    inputs: Inputs,
    *,
    quantity: Quantity | None = None,
    refusal: str = "",
    word: str | None = None,
    low: float | None = None,
    high: float | None = None,
    terms: tuple[Term, ...] = (),
) -> Figure:
    """Return the figure with where it came from."""
    seen = inputs.looked_at.values()
    return Figure(
        kind,
        inputs.specimen.id,
        quantity,
        refusal,
        tuple(dict.fromkeys([r.id for finding in seen for r in finding.readings])),
        estimate=any(finding.state is State.ESTIMATE for finding in seen),
        contact_pressure_kpa=_pressure(kind, inputs),
        word=word,
        low=low,
        high=high,
        terms=terms,
        assumed=tuple(inputs.assumed),
        warnings=tuple(inputs.warnings),
        methods=tuple([(f.attribute, f.taken_with) for f in seen if f.quantity is not None]),
    )


def _pressure(kind: FigureKind, inputs: Inputs) -> float | None:
    """Return the foot pressure of the one input for which it matters, if it matters here."""
    thickness = inputs.looked_at.get("media_thickness")
    if thickness is None or "contact_pressure" not in kind.comparable_when:
        return None
    return thickness.contact_pressure_kpa
