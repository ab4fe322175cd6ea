"""What values are worth, trial by trial. Loads numpy; import it only where draws are wanted."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import Any

import numpy

from benchlog.errors import OurFault
from benchlog.judge.evidence import Evidence
from benchlog.judge.ranks import Array
from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.judge.value_functions import (
    Unworth,
    in_unit,
    middle,
    said_interval,
    uncertainty,
    worth_of,
)
from benchlog.measure.monte_carlo import Draws
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.uncertainty import of_half_width


def draw_worths(
    entries: Iterable[AttributeRule],
    ids: tuple[str, ...],
    evidence: Evidence,
    trials: int,
    seed: int,
) -> dict[tuple[str, str], Array]:
    """Return all draws of what each entry is worth for each specimen, by subject and specimen id.

    Numbers are drawn from the variables behind them, the same in every number that they stand
    in, and passed through the value function trial by trial. An estimated word may as well be
    the next rank's. Raises OurFault where an entry has no value.
    """
    every = tuple(entries)
    numbers = {
        f"{entry.subject}/{s}": number_of(entry, s, evidence) for entry in every for s in ids
    }
    worths = {(entry.subject, s): numpy.zeros(trials) for entry in every for s in ids}
    for here, block in Draws(trials, seed).blocks(numbers):
        for entry in every:
            for s in ids:
                drawn = block[f"{entry.subject}/{s}"]
                add_worth(worths[entry.subject, s][here], entry, drawn, 1.0)
    return worths


def add_worth(total: Array, rule: AttributeRule, drawn: Any, share: float) -> None:
    """Add to `total` a share of what drawn numbers are worth. May write over `drawn`."""
    if rule.kind is not ValueKind.PIECEWISE:
        total += share * numpy.clip(drawn, 0.0, 10.0)
        return
    low, high = (drawn, drawn) if isinstance(drawn, float) else (drawn.min(), drawn.max())
    for left, right in pairwise(rule.anchors):
        # Most values lie well inside one piece, where a line is quicker than a search.
        if left.at <= low and high <= right.at:
            slope = share * (right.value - left.value) / (right.at - left.at)
            drawn *= slope
            drawn += share * left.value - slope * left.at
            total += drawn
            return
    places = [anchor.at for anchor in rule.anchors]
    total += numpy.interp(drawn, places, [share * anchor.value for anchor in rule.anchors])


def number_of(rule: AttributeRule, specimen: str, evidence: Evidence) -> Any:
    """Return what is drawn of one value: the number itself, or for a word its rank.

    Raises OurFault where there is no value.
    """
    outcome = evidence.outcome(rule.subject, specimen)
    worth = worth_of(rule, outcome)
    if isinstance(worth, Unworth):
        raise OurFault(f"{rule.subject} of {specimen} has no value: {worth.why_not}")
    name = f"{rule.subject}/{specimen}/estimate"
    if rule.kind is not ValueKind.PIECEWISE or outcome.quantity is None:
        rank = middle(worth.nominal)
        return _rectangular(rank, uncertainty(worth.nominal), name)
    number = in_unit(outcome.quantity, rule.unit)
    interval = said_interval(rule, outcome, outcome.quantity)
    if interval is None or uncertainty(number) > 0:
        return number
    low, high = interval
    return _rectangular((low + high) / 2, of_half_width((high - low) / 2), name)


def _rectangular(value: float, u: float, name: str) -> Any:
    return value + variable(u, Part(name, Spread.RECTANGULAR)) if u > 0 else value
