"""What values are worth, trial by trial. Loads numpy; import it only where draws are wanted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Any

import numpy

from benchlog.errors import OurFault
from benchlog.judge.evidence import Evidence, Outcome
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

    See `worth_blocks`.
    """
    every = tuple(entries)
    worths = {(entry.subject, s): numpy.empty(trials) for entry in every for s in ids}
    for here, block in worth_blocks(every, ids, evidence, trials, seed):
        for key, drawn in block.items():
            worths[key][here] = drawn
    return worths


def worth_blocks(
    entries: Iterable[AttributeRule],
    ids: tuple[str, ...],
    evidence: Evidence,
    trials: int,
    seed: int,
) -> Iterator[tuple[slice, dict[tuple[str, str], Any]]]:
    """Yield what each entry is worth for each specimen block by block, with their place.

    Numbers are drawn from the variables behind them, the same in every number that they stand
    in, and passed through the value function trial by trial. An estimated word may as well be
    the next rank's. Raises OurFault where an entry has no value.
    """
    rules = {(entry.subject, s): entry for entry in entries for s in ids}
    numbers = {
        (subject, s): _number(rule, s, evidence.outcome(subject, s))
        for (subject, s), rule in rules.items()
    }
    draws = Draws(trials, seed)
    by_name = {f"{subject}/{s}": number for (subject, s), number in numbers.items()}
    for here, block in draws.blocks(by_name):
        yield (
            here,
            {
                (subject, s): _worth(rule, block[f"{subject}/{s}"])
                for (subject, s), rule in rules.items()
            },
        )


def _number(rule: AttributeRule, specimen: str, outcome: Outcome) -> Any:
    """Return what is drawn: the value itself, or for a word its rank."""
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


def _worth(rule: AttributeRule, drawn: Any) -> Any:
    if rule.kind is not ValueKind.PIECEWISE:
        return numpy.clip(drawn, 0.0, 10.0)
    for left, right in pairwise(rule.anchors):
        # Most values lie well inside one piece, where a line is quicker than a search.
        if left.at <= numpy.min(drawn) and numpy.max(drawn) <= right.at:
            slope = (right.value - left.value) / (right.at - left.at)
            return slope * drawn + (left.value - slope * left.at)
    places = [anchor.at for anchor in rule.anchors]
    return numpy.interp(drawn, places, [anchor.value for anchor in rule.anchors])
