"""What the hold-down spring comes to: its rate by load and length, and its load as installed."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchlog.derive.figure import FigureKind
from benchlog.derive.inputs import CannotWork, Inputs, words_of
from benchlog.derive.number import Number
from benchlog.trade.attribute import Judged, Support
from benchlog.trade.component import Component

STRAIGHT_TO = 1.25
"""Steepest over flattest piece of a line still called straight: common practice, no source."""

PAIRS = (("spring_height", "spring_load"), ("spring_second_length", "spring_second_load"))

SPRING_RATE = FigureKind(
    key="spring_rate",
    label="Spring rate",
    component=Component.SPRING,
    formula="k = −Σ(L − L̄)(F − F̄) ÷ Σ(L − L̄)²: least-squares slope of load over length, free "
    "length at no load; with two pairs, load difference ÷ length difference",
    inputs=(
        "spring_free_length",
        "spring_height",
        "spring_load",
        "spring_second_length",
        "spring_second_load",
    ),
    unit="newton/millimeter",
    inch_unit="force_pound/inch",
    judged=Judged.DIFFERENT,
    support=Support.ENGINEERING,
    source="Hooke's law; ordinary least squares",
    note="Cone and leaf springs stiffen as they are pressed: the rate is that of these lengths.",
)

HOLD_DOWN = FigureKind(
    key="hold_down_load",
    label="Hold-down load at installed height",
    component=Component.SPRING,
    formula="F as read at the installed height; otherwise F = k × (L₀ − Li): rate × (free length "
    "− installed height)",
    inputs=(
        "spring_load",
        "spring_free_length",
        "spring_height",
        "spring_second_length",
        "spring_second_load",
    ),
    unit="newton",
    inch_unit="force_pound",
    judged=Judged.BAND,
    support=Support.STANDARD,
    source="one specification for a large element, 15 to 35 lbf; Hooke's law",
    note="At the height marked before the cut; the height after it is another.",
)


def spring_rate(inputs: Inputs) -> Number:
    """Load gained per length lost, over all pairs, each counting the same; raises CannotWork."""
    pairs = _pairs(inputs, with_load=True)
    if len(pairs) < 2:
        raise CannotWork(f"A rate wants two lengths with their loads. {_lacking(inputs)}")
    return _slope_of(inputs, pairs)


def hold_down_load(inputs: Inputs) -> Number:
    """Load at the installed height, read or by the rate; raises CannotWork."""
    if inputs.has("spring_load"):
        _not_longer_than_free(inputs, "spring_height")
        return inputs.above_zero("spring_load")
    needed = ("spring_free_length", "spring_height", "spring_second_length", "spring_second_load")
    if not all(map(inputs.has, needed)):
        lacking = next(key for key in needed if not inputs.has(key))
        raise CannotWork(f"{inputs.missing('spring_load')} {inputs.missing(lacking)}")
    pressed = inputs.above_zero("spring_free_length") - inputs.above_zero("spring_height")
    _not_longer_than_free(inputs, "spring_height")
    return _slope_of(inputs, _pairs(inputs, with_load=False)) * pressed


def slope(lengths: Sequence[Number], loads: Sequence[Number]) -> Number:
    """Return the least-squares slope of load over length, positive for a spring that pushes."""
    middle_length, middle_load = sum(lengths) / len(lengths), sum(loads) / len(loads)
    across = sum(
        (length - middle_length) * (load - middle_load)
        for length, load in zip(lengths, loads, strict=True)
    )
    return -across / sum((length - middle_length) ** 2 for length in lengths)


Pair = tuple[Number, Number, float, float]
"""Length and load as handed out, then the best value of each."""


def _pairs(inputs: Inputs, *, with_load: bool) -> list[Pair]:
    """Return the pairs that were read, the free length at no load among them."""
    pairs: list[Pair] = []
    for length, load in PAIRS if with_load else PAIRS[1:]:
        if inputs.has(length) and inputs.has(load):
            _not_longer_than_free(inputs, length)
            numbers = inputs.above_zero(length), inputs.above_zero(load)
            pairs.append((*numbers, inputs.best(length), inputs.best(load)))
    if pairs and inputs.has("spring_free_length"):
        free = inputs.above_zero("spring_free_length")
        pairs.append((free, 0.0 * pairs[0][1], inputs.best("spring_free_length"), 0.0))
    return pairs


def _slope_of(inputs: Inputs, pairs: list[Pair]) -> Number:
    """Slope of the pairs, once their best values make sense as those of one spring."""
    order = sorted((length, load) for _, _, length, load in pairs)
    pieces = []
    for (short, more), (long, less) in pairwise(order):
        if short == long:
            raise CannotWork("Two loads were read at one length; press the spring to another.")
        pieces.append((more - less) / (long - short))
    if min(pieces) <= 0:
        raise CannotWork("The spring would push less the more it is pressed; read it again.")
    if max(pieces) > STRAIGHT_TO * min(pieces):
        inputs.warn("The pairs of length and load do not lie on one line: the rate is an average.")
    lengths, loads = [pair[0] for pair in pairs], [pair[1] for pair in pairs]
    return slope(lengths, loads)


def _not_longer_than_free(inputs: Inputs, key: str) -> None:
    """Refuse a pressed length that is not below the free one, where both were read."""
    if not (inputs.has(key) and inputs.has("spring_free_length")):
        return
    inputs.number(key)
    inputs.number("spring_free_length")
    if inputs.best(key) >= inputs.best("spring_free_length"):
        raise CannotWork(f"The {words_of(key)} is not below the free length; read both again.")


def _lacking(inputs: Inputs) -> str:
    """Return the sentence for the first reading that is missing."""
    keys = ("spring_free_length", *PAIRS[0], *PAIRS[1])
    return next(inputs.missing(key) for key in keys if not inputs.has(key))


FIGURES = (
    (SPRING_RATE, spring_rate),
    (HOLD_DOWN, hold_down_load),
)
