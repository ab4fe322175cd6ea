"""Is a figure's interval right? The same formula once more with drawn inputs (JCGM 101 8.1).

Loads numpy; import it only where draws are wanted.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy

from benchlog.derive.all_figures import FORMULAS
from benchlog.derive.cross_check_words import (
    agree,
    is_unsure,
    least_freedom,
    words_of,
    words_of_lost,
)
from benchlog.derive.figure import Figure
from benchlog.derive.inputs import Common, Inputs
from benchlog.derive.working import Formula, again, from_si
from benchlog.measure.coverage import expanded
from benchlog.measure.finding import Finding
from benchlog.measure.monte_carlo import Draws, interval_and_noise, numerical_tolerance
from benchlog.trade.conditions import Conditions, usual_conditions
from benchlog.trade.specimen import Specimen

DIGITS = 1
"""Digits of u that must be right. Permissible errors and resolutions of bench tools are known to
one digit at best, so that a second digit of u would be checked against nothing: with two, every
figure that rests on one or two rectangular inputs would be called wrong. One digit leaves δ between
a twentieth of u, where u begins with 9, and half of it, where u begins with 1."""

MOST_LOST = 0.001
"""Share of the draws that may have no result before the interval says nothing any more."""


@dataclass(frozen=True)
class CrossCheck:
    """What drawing gives for a figure, in its kind's unit, beside what is shown.

    `low` and `high` hold 95 % of the draws, with as many below as above (JCGM 101 7.7.2): the
    interval that is shown is meant so too, and its ends want fewer draws than those of the
    shortest one. `mean` and `u` are None where two or three repeats leave the draws without one
    (a t of 1 degree of freedom has no mean, of 1 or 2 no standard deviation). `noise` is the
    standard uncertainty of an end from the limited number of draws. `tolerance` is δ of 7.9.2.
    `lost` counts draws for which the formula had no value; where they are too many there are no
    ends. `agrees`: both ends shown lie within δ of those drawn; those of a bounded estimate hold
    the drawn ones, δ allowed.
    """

    mean: float | None
    u: float | None
    low: float | None
    high: float | None
    noise: float | None
    trials: int
    lost: int
    tolerance: float
    agrees: bool
    words: str


def cross_check(
    figure: Figure, formula: Formula, inputs: Inputs, draws: Draws, *, digits: int = DIGITS
) -> CrossCheck | None:
    """Return the check of a figure by draws, None where there is nothing to draw.

    `inputs` are those of the figure's specimen and `formula` the one that it was worked by; the
    numbers drawn are the figure's own terms. `digits` sets the tolerance.
    """
    if figure.quantity is None or not any(is_unsure(term.number) for term in figure.terms):
        return None
    magnitude = figure.quantity.magnitude
    drawn = draw_figure(figure, formula, inputs, draws)
    finite = numpy.isfinite(drawn)
    kept = drawn if finite.all() else drawn[finite]
    # Where the slopes are nought first order sees no uncertainty, and the draws have the word.
    u = float(getattr(magnitude, "std_dev", 0.0)) or (float(kept.std()) if len(kept) else 0.0)
    if u <= 0.0:
        return None
    tolerance = numerical_tolerance(u, digits)
    if len(kept) < (1.0 - MOST_LOST) * len(drawn):
        return _lost(figure, len(drawn) - len(kept), len(drawn), tolerance)
    low, high, noise = interval_and_noise(kept)
    shown = _shown(figure, magnitude)
    freedom = least_freedom(figure)
    return CrossCheck(
        mean=float(kept.mean()) if freedom > 1 else None,
        u=float(kept.std(ddof=1)) if freedom > 2 else None,
        low=low,
        high=high,
        noise=noise,
        trials=len(drawn),
        lost=len(drawn) - len(kept),
        tolerance=tolerance,
        agrees=agree(figure, shown, (low, high), tolerance),
        words=words_of(figure, shown, (low, high), tolerance, noise),
    )


def cross_check_of(
    figure: Figure,
    findings: Mapping[str, Finding],
    specimen: Specimen,
    conditions: Conditions | None = None,
    draws: Draws | None = None,
) -> CrossCheck | None:
    """Return the check of a figure as `figures_of` gave it, from the same findings.

    A million draws unless others are given.
    """
    formula = next(formula for kind, formula in FORMULAS if kind.key == figure.kind.key)
    inputs = Inputs(findings, specimen, conditions or usual_conditions(), Common())
    return cross_check(figure, formula, inputs, draws or Draws())


def draw_figure(figure: Figure, formula: Formula, inputs: Inputs, draws: Draws) -> Any:
    """Return the draws of a figure in its kind's unit, not finite where there is no value."""
    numbers: Mapping[str, Any] = {term.key: term.number for term in figure.terms}
    drawn = numpy.empty(draws.trials)
    with numpy.errstate(all="ignore"):
        for here, values in draws.blocks(numbers):
            drawn[here] = again(formula, inputs, **values)
        drawn *= from_si(figure.kind.unit)
    return drawn


def _shown(figure: Figure, magnitude: Any) -> tuple[float, float]:
    """Return the ends of the interval that is printed for a figure."""
    if figure.low is not None and figure.high is not None:
        return figure.low, figure.high
    value, half = float(getattr(magnitude, "nominal_value", magnitude)), expanded(magnitude)
    return value - half, value + half


def _lost(figure: Figure, lost: int, trials: int, tolerance: float) -> CrossCheck:
    return CrossCheck(
        mean=None,
        u=None,
        low=None,
        high=None,
        noise=None,
        trials=trials,
        lost=lost,
        tolerance=tolerance,
        agrees=False,
        words=words_of_lost(figure, lost, trials),
    )
