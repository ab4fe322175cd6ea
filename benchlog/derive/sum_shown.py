"""A number's sum, laid open: what each input and each source adds to its uncertainty."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import fsum, hypot, inf
from typing import Any

from benchlog.derive.figure import Figure, Term
from benchlog.measure.coverage import coverage_factor, degrees_of_freedom
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, part_of
from benchlog.measure.units import convert

NOTHING = 1e-9
"""What is left of a source after cancelling counts as nothing below this share of its parts."""


@dataclass(frozen=True)
class Share:
    """What the sources behind one input, or behind several together, add to a number.

    `source` is an input's key, or several joined by " + " when one source (such as an
    instrument's zero) stands behind them together. `contribution` is its part of the standard
    uncertainty, in the number's unit; `share` its part of the variance, 0 to 1.
    """

    source: str
    contribution: float
    share: float


@dataclass(frozen=True)
class Source:
    """One independent source of uncertainty, such as the scatter of one input's repeats.

    `name` is that of its part; `inputs` are the keys of the inputs that it stands behind.
    `contribution` is what it adds to the standard uncertainty, in the number's unit, and `share`
    its part of the variance, 0 to 1. `apart` is what it would add if its inputs had nothing in
    common: more than `contribution` where the inputs' parts cancel, less where they add up.
    """

    name: str
    inputs: tuple[str, ...]
    spread: Spread
    freedom: float
    contribution: float
    apart: float
    share: float

    @property
    def source(self) -> str:
        """The inputs, joined by " + "; the name where there are none."""
        return " + ".join(self.inputs) or self.name

    @property
    def cancels(self) -> bool:
        """Whether the inputs that share this source leave less of it than they would apart."""
        return self.contribution < self.apart * (1.0 - NOTHING)


@dataclass(frozen=True)
class TermRow:
    """One input's line: its value and standard uncertainty in `unit`, and what they do.

    `unit` is SI until `in_unit`, `said_in` the one in which the input was read or stated;
    `sensitivity` is ∂f/∂x in the number's unit for one `unit`; `contribution` is |∂f/∂x|·u in the
    number's unit. `share` is what the sources of this input alone make of the variance: what it
    shares with other inputs is in the sources. `spread` is None when several sources join.
    """

    key: str
    value: float
    u: float
    unit: str
    sensitivity: float
    contribution: float
    freedom: float
    spread: Spread | None
    share: float
    assumed: str = ""
    said_in: str = ""


@dataclass(frozen=True)
class Budget:
    """The uncertainty budget of one number (JCGM 100, 5.1 and G.4), in `unit`.

    `u` is the standard uncertainty, `freedom` its effective degrees of freedom, `factor` the
    coverage factor for 95 % and `expanded` their product. The shares of `sources` make up 1;
    the largest comes first, and those that cancel altogether come last with 0.
    """

    unit: str
    value: float
    u: float
    freedom: float
    factor: float
    expanded: float
    terms: tuple[TermRow, ...]
    sources: tuple[Source, ...]

    @property
    def shared(self) -> tuple[Source, ...]:
        """The sources that stand behind more than one input."""
        return tuple(source for source in self.sources if len(source.inputs) > 1)


def budget_of(figure: Figure) -> Budget | None:
    """Return the budget of a figure in its kind's unit, None when it has no number."""
    if figure.quantity is None:
        return None
    return budget_of_number(figure.quantity.magnitude, figure.kind.unit, figure.terms)


def budget_of_finding(finding: Finding) -> Budget | None:
    """Return the budget of what was read, in its quantity's unit; None when it has no number.

    It has sources and no terms: a mean of readings is not made of other inputs.
    """
    if finding.quantity is None:
        return None
    return budget_of_number(finding.quantity.magnitude, str(finding.quantity.units), ())


def budget_of_number(number: Any, unit: str, terms: Iterable[Term]) -> Budget:
    """Return the budget of a number in `unit` that is made of `terms`."""
    terms = tuple(terms)
    sources = _sources(number, terms)
    value = float(getattr(number, "nominal_value", number))
    u = float(getattr(number, "std_dev", 0.0))
    factor = coverage_factor(number)
    return Budget(
        unit=unit,
        value=value,
        u=u,
        freedom=degrees_of_freedom(number),
        factor=factor,
        expanded=factor * u,
        terms=tuple(_term_row(term, sources) for term in terms),
        sources=sources,
    )


def budget(figure: Figure) -> tuple[Share, ...]:
    """Return what each input, or each group that shares a source, adds; the largest first.

    Empty when the figure has no value or no uncertainty.
    """
    whole = budget_of(figure)
    joined: dict[str, Share] = {}
    for part in whole.sources if whole else ():
        before = joined.get(part.source, Share(part.source, 0.0, 0.0))
        size, share = hypot(before.contribution, part.contribution), before.share + part.share
        joined[part.source] = Share(part.source, size, share)
    left = [share for share in joined.values() if share.contribution]
    return tuple(sorted(left, key=lambda share: (-share.share, share.source)))


def in_unit(term: TermRow, unit: str) -> TermRow:
    """Return a term's line with its value, uncertainty and sensitivity for another unit.

    A shifted zero moves the value alone, as it should: 20 °C ± 1 K is 68 °F ± 1.8 °F.
    """
    step = convert(1.0, term.unit, unit) - convert(0.0, term.unit, unit)
    return replace(
        term,
        value=convert(term.value, term.unit, unit),
        u=term.u * step,
        unit=unit,
        sensitivity=term.sensitivity / step,
    )


def _sources(number: Any, terms: tuple[Term, ...]) -> tuple[Source, ...]:
    by_variable: dict[Any, list[tuple[str, float]]] = {}
    for term in terms:
        for variable, slope in getattr(term.number, "derivatives", {}).items():
            size = term.sensitivity * slope * variable.std_dev
            if size:
                by_variable.setdefault(variable, []).append((term.key, size))
    loose: dict[Any, float] = getattr(number, "error_components", dict)()
    for variable, size in loose.items():
        if size and variable not in by_variable:
            by_variable[variable] = [("", size)]
    whole = hypot(*(_left(parts) for parts in by_variable.values()))
    made = (_source(part_of(v.tag), parts, whole) for v, parts in by_variable.items())
    return tuple(sorted(made, key=lambda source: (-source.share, source.source, source.name)))


def _source(part: Part, parts: list[tuple[str, float]], whole: float) -> Source:
    left = _left(parts)
    return Source(
        name=str(part),
        inputs=tuple(key for key, _ in parts if key),
        spread=part.spread,
        freedom=part.freedom,
        contribution=left,
        apart=hypot(*(size for _, size in parts)),
        share=(left / whole) ** 2 if whole else 0.0,
    )


def _left(parts: list[tuple[str, float]]) -> float:
    """Return what remains when the parts of one source are added with their signs."""
    left = abs(fsum(size for _, size in parts))
    return left if left > NOTHING * fsum(abs(size) for _, size in parts) else 0.0


def _term_row(term: Term, sources: tuple[Source, ...]) -> TermRow:
    behind = [source for source in sources if term.key in source.inputs]
    u = float(getattr(term.number, "std_dev", 0.0))
    return TermRow(
        key=term.key,
        value=float(getattr(term.number, "nominal_value", term.number)),
        u=u,
        unit=term.unit,
        sensitivity=term.sensitivity,
        contribution=abs(term.sensitivity) * u,
        freedom=degrees_of_freedom(term.number) if u else inf,
        spread=behind[0].spread if len(behind) == 1 else None,
        share=fsum(source.share for source in behind if len(source.inputs) == 1),
        assumed=term.assumed,
        said_in=term.said_in,
    )
