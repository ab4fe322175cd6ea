"""A number with its uncertainty as plain values for JSON."""

from __future__ import annotations

import math
from typing import Any

from benchlog.derive.sum_shown import Budget, Source, TermRow
from benchlog.measure.coverage import coverage_factor, degrees_of_freedom
from benchlog.measure.quantities import expanded_in, uncertainty_in, value_in
from benchlog.measure.units import Quantity, unit_symbol

NO_NUMBER: dict[str, Any] = {
    "value": None,
    "standard_uncertainty": None,
    "expanded_uncertainty": None,
    "coverage_factor": None,
    "degrees_of_freedom": None,
    "unit": "",
    "symbol": "",
}


def told_number(
    quantity: Quantity | None, unit: str = "", *, bounded: bool = False
) -> dict[str, Any]:
    """Return value, uncertainties and unit of a quantity, in its own unit unless one is named.

    Expanded for 95 %; degrees of freedom are None where none limit. What is bounded has no
    expanded uncertainty, as no ± is ever printed for it. All None where there is no number.
    """
    if quantity is None:
        return dict(NO_NUMBER)
    unit = unit or str(quantity.units)
    u = uncertainty_in(quantity, unit)
    with_factor = u > 0.0 and not bounded
    return {
        "value": value_in(quantity, unit),
        "standard_uncertainty": u,
        "expanded_uncertainty": None if bounded else expanded_in(quantity, unit),
        "coverage_factor": coverage_factor(quantity.magnitude) if with_factor else None,
        "degrees_of_freedom": told_freedom(degrees_of_freedom(quantity.magnitude)),
        "unit": unit,
        "symbol": unit_symbol(unit),
    }


def told_freedom(freedom: float) -> float | None:
    """Return degrees of freedom for JSON, which knows no infinity: None."""
    return None if math.isinf(freedom) else freedom


def told_term(term: TermRow) -> dict[str, Any]:
    """Return one term: its value in SI, its slope, and what it adds in the figure's unit."""
    return {
        "key": term.key,
        "value": term.value,
        "standard_uncertainty": term.u,
        "unit": term.unit,
        "degrees_of_freedom": told_freedom(term.freedom),
        "spread": term.spread.value if term.spread else None,
        "sensitivity": term.sensitivity,
        "contribution": term.contribution,
        "share_alone": term.share,
        "assumed": term.assumed,
    }


def told_source(source: Source, words: str) -> dict[str, Any]:
    """Return one independent source; `words` say what it is."""
    return {
        "name": source.name,
        "words": words,
        "inputs": list(source.inputs),
        "spread": source.spread.value,
        "degrees_of_freedom": told_freedom(source.freedom),
        "contribution": source.contribution,
        "contribution_apart": source.apart,
        "cancels": source.cancels,
        "share": source.share,
    }


def told_budget(budget: Budget, words: dict[str, str], *, bounded: bool = False) -> dict[str, Any]:
    """Return a whole budget; `words` say what each source is, by its name.

    That of an estimate between bounds has no expanded uncertainty.
    """
    return {
        "unit": budget.unit,
        "standard_uncertainty": budget.u,
        "degrees_of_freedom": told_freedom(budget.freedom),
        "coverage_factor": None if bounded else budget.factor,
        "expanded_uncertainty": None if bounded else budget.expanded,
        "terms": [told_term(term) for term in budget.terms],
        "sources": [told_source(s, words.get(s.name, s.name)) for s in budget.sources],
    }
