"""Numbers that remember how they were made, for exact slopes and for working the same again.

A formula is worked once with these: its value is that of plain floats, digit for digit, and going
back over the steps gives its slope to every input at once (the chain rule from the result back,
Griewank and Walther 2008, chapter 3). Going over them forwards with other inputs gives another
value, which is sound because formulas branch on best values alone.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from operator import add, mul, sub, truediv
from typing import Any, TypeAlias

Place: TypeAlias = "int | float"
"""An earlier step by its place, an int; or a constant, a float."""


class Trace:
    """The steps of one formula, the inputs it asked for among them."""

    __slots__ = ("_inputs", "_steps", "_values")

    def __init__(self) -> None:
        self._inputs: dict[str, Traced] = {}
        self._steps: list[tuple[Callable[..., float] | None, Place, Place]] = []
        self._values: list[float] = []

    def input(self, key: str, value: float) -> Traced:
        """Return the input of that key: one number, however often it is asked for."""
        found = self._inputs.get(key)
        if found is None:
            found = self._inputs[key] = self.step(value, None, 0.0, 0.0)
        return found

    def step(
        self, value: float, how: Callable[..., float] | None, first: Place, second: Place
    ) -> Traced:
        """Remember one step."""
        place = len(self._steps)
        self._steps.append((how, first, second))
        self._values.append(value)
        return Traced(self, place, value)

    def slopes(self, result: Traced) -> dict[str, float]:
        """Return how much the result moves for each input (∂f/∂x), by key."""
        moved = [0.0] * (result.place + 1)
        moved[result.place] = 1.0
        values = self._values
        for place in range(result.place, -1, -1):
            by = moved[place]
            how, first, second = self._steps[place]
            if by == 0.0 or how is None:
                continue
            a = values[first] if first.__class__ is int else first
            b = values[second] if second.__class__ is int else second
            to_first, to_second = _SLOPES[how](a, b, values[place])
            if first.__class__ is int:
                moved[first] += by * to_first
            if second.__class__ is int:
                moved[second] += by * to_second
        last = result.place
        return {k: moved[i.place] if i.place <= last else 0.0 for k, i in self._inputs.items()}

    def again(self, result: Traced, given: Mapping[str, float]) -> float:
        """Return the result with other values for some inputs."""
        values = self._values.copy()
        for key, value in given.items():
            values[self._inputs[key].place] = value
        for place, (how, first, second) in enumerate(self._steps[: result.place + 1]):
            if how is not None:
                a = values[first] if first.__class__ is int else first
                b = values[second] if second.__class__ is int else second
                values[place] = how(a, b)
        return values[result.place]


class Traced:
    """One number of a trace; takes part in + − × ÷ and powers, and in the functions named below.

    It is no float to anything else: a function that would forget how it was made fails instead.
    """

    __slots__ = ("place", "trace", "value")

    def __init__(self, trace: Trace, place: int, value: float) -> None:
        self.trace, self.place, self.value = trace, place, value

    def __add__(self, other: Any) -> Traced:
        return self._with(add, other)

    def __radd__(self, other: float) -> Traced:
        return self._after(add, other)

    def __sub__(self, other: Any) -> Traced:
        return self._with(sub, other)

    def __rsub__(self, other: float) -> Traced:
        return self._after(sub, other)

    def __mul__(self, other: Any) -> Traced:
        return self._with(mul, other)

    def __rmul__(self, other: float) -> Traced:
        return self._after(mul, other)

    def __truediv__(self, other: Any) -> Traced:
        return self._with(truediv, other)

    def __rtruediv__(self, other: float) -> Traced:
        return self._after(truediv, other)

    def __pow__(self, other: Any) -> Traced:
        return self._with(pow, other)

    def __rpow__(self, other: float) -> Traced:
        return self._after(pow, other)

    def __neg__(self) -> Traced:
        return self._after(mul, -1.0)

    def applied(self, name: str) -> Traced:
        """Return a function of it: "log", "exp", "sin" or "cos"."""
        how = _FUNCTIONS[name]
        return self.trace.step(how(self.value, 0.0), how, self.place, 0.0)

    def _with(self, how: Callable[..., float], other: Any) -> Traced:
        if other.__class__ is Traced:
            return self.trace.step(how(self.value, other.value), how, self.place, other.place)
        constant = float(other)
        return self.trace.step(how(self.value, constant), how, self.place, constant)

    def _after(self, how: Callable[..., float], other: float) -> Traced:
        constant = float(other)
        return self.trace.step(how(constant, self.value), how, constant, self.place)


def _log(x: float, _: float) -> float:
    return math.log(x)


def _exp(x: float, _: float) -> float:
    return math.exp(x)


def _sin(x: float, _: float) -> float:
    return math.sin(x)


def _cos(x: float, _: float) -> float:
    return math.cos(x)


def _of_power(a: float, b: float, result: float) -> tuple[float, float]:
    return b * a ** (b - 1.0) if b else 0.0, result * math.log(a) if a > 0.0 else 0.0


_FUNCTIONS = {"log": _log, "exp": _exp, "sin": _sin, "cos": _cos}

_SLOPES: dict[Callable[..., float], Callable[[float, float, float], tuple[float, float]]] = {
    add: lambda _a, _b, _result: (1.0, 1.0),
    sub: lambda _a, _b, _result: (1.0, -1.0),
    mul: lambda a, b, _result: (b, a),
    truediv: lambda _a, b, result: (1.0 / b, -result / b),
    pow: _of_power,
    _log: lambda a, _b, _result: (1.0 / a, 0.0),
    _exp: lambda _a, _b, result: (result, 0.0),
    _sin: lambda a, _b, _result: (math.cos(a), 0.0),
    _cos: lambda a, _b, _result: (-math.sin(a), 0.0),
}
"""For each kind of step, how its result moves with the first and with the second number."""
