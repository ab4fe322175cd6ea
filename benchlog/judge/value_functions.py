"""What a value is worth, 0 to 10, by absolute value functions: nobody else's value enters."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import Any, TypeAlias

from uncertainties import ufloat

from benchlog.judge.evidence import Outcome
from benchlog.judge.piecewise import Passed, Spread, pass_through, steepest, value_at
from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.measure.units import Quantity, registry

Number: TypeAlias = Any
"""A plain float, or an `uncertainties` number where there is uncertainty."""

REACH = 2.0
"""Standard uncertainties to either side within which the steepest slope is looked for."""


@dataclass(frozen=True)
class Worth:
    """What one value is worth.

    `expected` carries the mean and the standard uncertainty behind the value function, for
    scores. `nominal` is the worth of the best estimate itself with the steepest slope in reach
    of its uncertainty, for comparisons: its middle does not move with the uncertainty and its
    uncertainty only grows with it, so that a worse reading can never win what a better one
    did not. Both stay correlated with the readings they come from.
    """

    expected: Number
    nominal: Number


@dataclass(frozen=True)
class Unworth:
    """Why there is no worth, in plain words."""

    why_not: str


def worth_of(rule: AttributeRule, outcome: Outcome) -> Worth | Unworth:
    """Return what an outcome is worth under a rule that scores."""
    if rule.kind is ValueKind.PIECEWISE:
        if outcome.quantity is None:
            return Unworth(outcome.why_not or "no number")
        return _worth_of_number(rule, outcome, outcome.quantity)
    if outcome.word is None:
        return Unworth(outcome.why_not or "no word")
    return _worth_of_word(rule, outcome.word, outcome.estimate)


def in_unit(quantity: Quantity, unit: str) -> Number:
    """Return a quantity's number in that unit; "" is a pure number or a count."""
    return quantity.to(unit or "dimensionless").magnitude


def middle(number: Number) -> float:
    """Return the best estimate of a number."""
    return float(number.nominal_value if hasattr(number, "nominal_value") else number)


def uncertainty(number: Number) -> float:
    """Return the standard uncertainty of a number."""
    return float(getattr(number, "std_dev", 0.0))


def uncertain(value: float, u: float) -> Number:
    """Return a number of that standard uncertainty, independent of all others."""
    return ufloat(value, u) if u > 0 else value


def _worth_of_number(rule: AttributeRule, outcome: Outcome, quantity: Quantity) -> Worth:
    number = in_unit(quantity, rule.unit)
    x, u = middle(number), uncertainty(number)
    low, high = x - REACH * u, x + REACH * u
    interval = said_interval(rule, outcome, quantity)
    if interval:
        low, high = interval
        half = (high - low) / 2
        number = number if u > 0 else uncertain(x, half / sqrt(3))
        passed = pass_through(rule.anchors, low + half, half / sqrt(3), Spread.RECTANGULAR)
    else:
        passed = pass_through(rule.anchors, x, u, Spread.NORMAL)
    away = number - x if uncertainty(number) > 0 else 0.0
    slope = steepest(rule.anchors, low, high)
    return Worth(_expected(passed, away), value_at(rule.anchors, x) + slope * away)


def _expected(passed: Passed, away: Number) -> Number:
    """Return the mean worth, following the reading as far as it does and free for the rest."""
    if not uncertainty(away):
        return uncertain(passed.expected, passed.uncertainty)
    return passed.expected + passed.slope * away + uncertain(0.0, passed.rest)


def said_interval(
    rule: AttributeRule, outcome: Outcome, quantity: Quantity
) -> tuple[float, float] | None:
    """Return the ends of a said interval in the rule's unit, None where none was said."""
    if outcome.low is None or outcome.high is None or outcome.low >= outcome.high:
        return None
    ends = (registry().Quantity(end, quantity.units) for end in (outcome.low, outcome.high))
    low, high = sorted(float(in_unit(end, rule.unit)) for end in ends)
    return low, high


def _worth_of_word(rule: AttributeRule, word: str, estimate: bool) -> Worth | Unworth:
    values = {rank.key: rank.value for rank in rule.ranks}
    if word not in values:
        return Unworth("the rules give this answer no rank")
    u = _to_next_rank(values[word], values) / sqrt(3) if estimate else 0.0
    worth = uncertain(values[word], u)
    return Worth(worth, worth)


def _to_next_rank(value: float, values: dict[str, float]) -> float:
    """Return how far the next rank is: an estimated word could as well have been that one."""
    return min((abs(other - value) for other in values.values() if other != value), default=0.0)
