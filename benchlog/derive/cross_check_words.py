"""What a cross-check by draws says, and the likely reason where it disagrees."""

from __future__ import annotations

import math
from typing import Any

from benchlog.derive.figure import Figure
from benchlog.measure.part import Part, Spread, part_of
from benchlog.measure.rounding import as_is, rounded
from benchlog.measure.units import unit_symbol

Ends = tuple[float, float]


def gaps_of(shown: Ends, drawn: Ends) -> Ends:
    """Return how far each drawn end lies outside the shown one, below nought for inside."""
    return shown[0] - drawn[0], drawn[1] - shown[1]


def agree(figure: Figure, shown: Ends, drawn: Ends, tolerance: float) -> bool:
    """Whether both ends agree within the tolerance; a bounded estimate may be the wider one."""
    return all(_off(figure, gap) <= tolerance for gap in gaps_of(shown, drawn))


def is_unsure(number: Any) -> bool:
    """Whether a number has an uncertainty."""
    return float(getattr(number, "std_dev", 0.0)) > 0.0


def least_freedom(figure: Figure) -> float:
    """Return the fewest degrees of freedom of any repeats that were drawn."""
    parts = [part for term in figure.terms for part in _parts(term.number)]
    return min((p.freedom for p in parts if p.spread is Spread.REPEATS), default=math.inf)


def words_of(figure: Figure, shown: Ends, drawn: Ends, tolerance: float, noise: float) -> str:
    """Return what the draws say of the interval shown, all ends in the figure's unit."""
    unit = unit_symbol(figure.kind.unit)
    ends = f"{_to(drawn[0], tolerance)} to {_to(drawn[1], tolerance)} {unit}".rstrip()
    begin = f"95 % of the draws lie from {ends}; "
    unsure = ""
    gaps = gaps_of(shown, drawn)
    # JCGM 101 8.2.2 wants draws five times as sure as δ; a plain outcome does not need them so.
    if noise > tolerance / 5.0 and any(abs(abs(g) - tolerance) < 3.0 * noise for g in gaps):
        unsure = f" The ends drawn are themselves unsure by {_short(noise, unit)}; draw more."
    if agree(figure, shown, drawn, tolerance):
        holds = "holds them" if figure.kind.bounded else "agrees"
        return f"{begin}the interval shown {holds} within {_short(tolerance, unit)}.{unsure}"
    faults = [
        f"{_short(abs(gap), unit)} too {'narrow' if gap > 0 else 'wide'} at the {where} end"
        for gap, where in zip(gaps, ("lower", "upper"), strict=True)
        if _off(figure, gap) > tolerance
    ]
    why = _why(figure, any(gap > tolerance for gap in gaps))
    return f"{begin}the interval shown is {' and '.join(faults)}.{why}{unsure}"


def words_of_lost(figure: Figure, lost: int, trials: int) -> str:
    """Return what to say where too many draws had no value."""
    share = as_is(float(f"{100.0 * lost / trials:.2g}"))
    return (
        f"In {share} % of {trials} draws the formula has no value, so its inputs are too unsure "
        f"for the interval shown for the {figure.kind.label}."
    )


def _off(figure: Figure, gap: float) -> float:
    return gap if figure.kind.bounded else abs(gap)


def _why(figure: Figure, narrow: bool) -> str:
    """Return the likely reason for a difference, as a sentence, "" where none stands out."""
    if narrow and least_freedom(figure) < 5:
        return " Few repeats stand behind it; more of them bring the two together."
    parts = {} if figure.quantity is None else _parts(figure.quantity.magnitude)
    largest = max(parts, key=lambda part: parts[part], default=None)
    if narrow or largest is None or largest.spread in (Spread.NORMAL, Spread.REPEATS):
        return ""
    if parts[largest] > 0.5 * sum(parts.values()):
        return " Most of it comes from one input with hard limits, which has no tails."
    return ""


def _parts(number: Any) -> dict[Part, float]:
    """Return a number's variance by its parts."""
    parts: dict[Part, float] = {}
    if is_unsure(number):
        for variable, size in number.error_components().items():
            if size:
                part = part_of(variable.tag)
                parts[part] = parts.get(part, 0.0) + size**2
    return parts


def _to(value: float, tolerance: float) -> str:
    return rounded(value, tolerance)[0]


def _short(size: float, unit: str) -> str:
    return f"{as_is(float(f'{size:.2g}'))} {unit}".rstrip()
