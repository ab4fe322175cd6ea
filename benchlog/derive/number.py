"""Functions that work on every sort of number that a formula may be given.

A formula is written once and worked with numbers that remember their making, for its value and
its slopes (`derive.trace`), with arrays for a Monte Carlo run, and in the tests with complex
numbers, which give the slopes by another way, and with quantities, which prove its dimensions.
"""

from __future__ import annotations

import cmath
import math
from typing import Any, TypeAlias

from benchlog.derive.trace import Traced

Number: TypeAlias = Any
"""A float, one of a trace, a complex number, an array of floats, or a quantity over one of them."""


def square_root(x: Number) -> Number:
    """Return the square root."""
    return x**0.5


def natural_log(x: Number) -> Number:
    """Return the natural logarithm of a pure number."""
    return _apply("log", x)


def exponential(x: Number) -> Number:
    """Return e to the power of a pure number."""
    return _apply("exp", x)


def plain(x: Number) -> float:
    """Return a single number as a float, its making forgotten; for questions and for results."""
    return x.value if isinstance(x, Traced) else float(x)


def _apply(name: str, x: Number) -> Number:
    if isinstance(x, Traced):
        return x.applied(name)
    if isinstance(x, float | int):
        return getattr(math, name)(x)
    if isinstance(x, complex):
        return getattr(cmath, name)(x)
    import numpy  # noqa: PLC0415 - slow to load; whoever gives an array has loaded it

    return getattr(numpy, name)(x)
