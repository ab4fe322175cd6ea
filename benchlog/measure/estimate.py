"""How wide a number is that was said without an interval."""

from __future__ import annotations

import re
from decimal import Decimal

from benchlog.measure.plain_text import plain
from benchlog.measure.reading import Said

_FRACTION = re.compile(r"\d+\s*/\s*(\d+)", re.ASCII)
_SHARE = Decimal("0.05")
_PER_INCH = re.compile(
    r"(?P<number>\d+(?:\.\d+)?)\s*(?:tpi|threads?\s*(?:per|/|to the|in an)\s*in(?:ch)?\.?)",
    re.ASCII | re.IGNORECASE,
)
_PLACES = Decimal("1e-9")


def pitch_said(text: str) -> tuple[Decimal, Decimal] | None:
    """Return the pitch in inches of threads counted in an inch ("16 tpi"), and its step.

    One thread more or less in the inch is what a gauge's blades tell apart, so the step of n
    threads is 1/n². None for what counts no threads.
    """
    match = _PER_INCH.fullmatch(plain(text).lstrip("~ "))
    if match is None or not (threads := Decimal(match["number"])):
        return None
    return (1 / threads).quantize(_PLACES).normalize(), (1 / threads**2).quantize(_PLACES)


def step_said(said: Said) -> Decimal:
    """Return the worth of one in the last place said, in the unit said.

    287.4 has a step of 0.1, 287.40 of 0.01; a fraction one over its bottom figure, so 3 7/16 has
    1/16, and 1/2 no less than 1/2. Threads in an inch step by one thread.
    """
    pitch = pitch_said(said.text)
    if pitch is not None:
        return pitch[1]
    bottoms = [int(bottom) for bottom in _FRACTION.findall(plain(said.text)) if int(bottom)]
    if bottoms:
        return Decimal(1) / Decimal(max(bottoms))
    exponent = int(said.value.as_tuple().exponent)
    return Decimal((0, (1,), min(exponent, 0)))


def estimate_interval(said: Said) -> tuple[Decimal, Decimal]:
    """Return the interval of an estimate, in the unit said.

    An interval that was said stands. Otherwise half a step goes to each side: "about 5" is 4.5
    to 5.5 (common practice, no source). Noughts at the end of a whole number are round, not
    read, so there half of the last place that is not nought is taken, yet no more than 5 % of
    the number: "about 200" is 190 to 210, "about 150" is 145 to 155.
    """
    if said.low is not None and said.high is not None:
        return said.low, said.high
    half = max(step_said(said) / 2, min(_round_place(said.value) / 2, abs(said.value) * _SHARE))
    return said.value - half, said.value + half


def _round_place(value: Decimal) -> Decimal:
    """Return the worth of the last place that is not nought, 0 unless `value` is whole."""
    if not value or value != value.to_integral_value() or int(value.as_tuple().exponent) < 0:
        return Decimal(0)
    return Decimal((0, (1,), int(value.normalize().as_tuple().exponent)))
