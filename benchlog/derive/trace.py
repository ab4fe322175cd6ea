"""Numbers that remember how they were made, for exact slopes and for working the same again.

A formula is worked once with these: its value is that of plain floats, digit for digit, and going
back over the steps gives its slope to every input at once (the chain rule from the result back,
Griewank and Walther 2008, chapter 3). Going over them forwards with other inputs gives another
value, which is sound because formulas branch on best values alone.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from operator import add, mul, sub, truediv
from typing import Any, TypeAlias

How: TypeAlias = "Callable[[float, float], float]"
Step: TypeAlias = "tuple[How | None, int, int, float, float, float]"
"""How, the places of both numbers, how the result moves with each, and the constant if any."""

CONSTANT = -1
"""Place of a constant: the one past the last, where a slope to it is thrown away."""


_AN_INPUT: Step = (None, CONSTANT, CONSTANT, 0.0, 0.0, 0.0)


class Trace:
    """The steps of one formula, the inputs it asked for among them."""

    __slots__ = ("_inputs", "_steps", "_values")

    def __init__(self) -> None:
        self._inputs: dict[str, int] = {}
        self._steps: list[Step] = []
        self._values: list[float] = []

    def input(self, key: str, value: float) -> Traced:
        """Return the input of that key: one number, however often it is asked for."""
        place = self._inputs.get(key)
        if place is not None:
            return Traced(self, place, value)
        self._inputs[key] = len(self._steps)
        return self.step(value, _AN_INPUT)

    def step(self, value: float, step: Step) -> Traced:
        """Remember one step."""
        steps = self._steps
        made = Traced(self, len(steps), value)
        steps.append(step)
        self._values.append(value)
        return made

    def slopes(self, result: Traced) -> dict[str, float]:
        """Return how much the result moves for each input (∂f/∂x), by key."""
        last = result.place
        moved = [0.0] * (last + 2)
        moved[last] = 1.0
        for place in range(last, -1, -1):
            by = moved[place]
            if by:
                _, first, second, with_first, with_second, _ = self._steps[place]
                moved[first] += by * with_first
                moved[second] += by * with_second
        return {key: moved[p] if p <= last else 0.0 for key, p in self._inputs.items()}

    def again(self, result: Traced, each: Iterable[Mapping[str, float]]) -> list[float]:
        """Return the result with other values for some inputs, the same ones each time."""
        values, results = self._values.copy(), []
        steps: list[tuple[int, Step]] | None = None
        for given in each:
            for key, value in given.items():
                values[self._inputs[key]] = value
            if steps is None:
                steps = self._after(result, {self._inputs[key] for key in given})
            for place, (how, first, second, _, _, constant) in steps:
                assert how is not None
                values[place] = how(
                    constant if first < 0 else values[first],
                    constant if second < 0 else values[second],
                )
            results.append(values[result.place])
        return results

    def _after(self, result: Traced, moving: set[int]) -> list[tuple[int, Step]]:
        """Return the steps up to the result that the numbers at these places come into."""
        found = []
        for place, step in enumerate(self._steps[: result.place + 1]):
            if step[1] in moving or step[2] in moving:
                moving.add(place)
                found.append((place, step))
        return found


class Traced:
    """One number of a trace; takes part in + − × ÷ and powers, and in the functions named below.

    It is no float to anything else: a function that would forget how it was made fails instead.
    """

    __slots__ = ("place", "trace", "value")

    def __init__(self, trace: Trace, place: int, value: float) -> None:
        self.trace, self.place, self.value = trace, place, value

    def __add__(self, other: Any) -> Traced:
        a = self.value
        if other.__class__ is Traced:
            return self.trace.step(a + other.value, (add, self.place, other.place, 1.0, 1.0, 0.0))
        return self.trace.step(a + other, (add, self.place, CONSTANT, 1.0, 0.0, other))

    __radd__ = __add__

    def __sub__(self, other: Any) -> Traced:
        a = self.value
        if other.__class__ is Traced:
            return self.trace.step(a - other.value, (sub, self.place, other.place, 1.0, -1.0, 0.0))
        return self.trace.step(a - other, (sub, self.place, CONSTANT, 1.0, 0.0, other))

    def __rsub__(self, other: float) -> Traced:
        return self.trace.step(other - self.value, (sub, CONSTANT, self.place, 0.0, -1.0, other))

    def __mul__(self, other: Any) -> Traced:
        a = self.value
        if other.__class__ is Traced:
            b = other.value
            return self.trace.step(a * b, (mul, self.place, other.place, b, a, 0.0))
        return self.trace.step(a * other, (mul, self.place, CONSTANT, other, 0.0, other))

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Traced:
        a = self.value
        if other.__class__ is Traced:
            b = other.value
            ratio = a / b
            step = (truediv, self.place, other.place, 1.0 / b, -ratio / b, 0.0)
            return self.trace.step(ratio, step)
        return self.trace.step(a / other, (truediv, self.place, CONSTANT, 1.0 / other, 0.0, other))

    def __rtruediv__(self, other: float) -> Traced:
        ratio = other / self.value
        step = (truediv, CONSTANT, self.place, 0.0, -ratio / self.value, other)
        return self.trace.step(ratio, step)

    def __pow__(self, other: Any) -> Traced:
        a = self.value
        if other.__class__ is Traced:
            b, power = other.value, a**other.value
            step = (pow, self.place, other.place, b * a ** (b - 1.0), power * math.log(a), 0.0)
            return self.trace.step(power, step)
        slope = other * a ** (other - 1.0)
        return self.trace.step(a**other, (pow, self.place, CONSTANT, slope, 0.0, other))

    def __rpow__(self, other: float) -> Traced:
        power = other**self.value
        step = (pow, CONSTANT, self.place, 0.0, power * math.log(other), other)
        return self.trace.step(power, step)

    def __neg__(self) -> Traced:
        return self * -1.0

    def applied(self, name: str) -> Traced:
        """Return a function of it: "log", "exp", "sin" or "cos"."""
        how, slope = _FUNCTIONS[name]
        result = how(self.value, 0.0)
        step = (how, self.place, CONSTANT, slope(self.value, result), 0.0, 0.0)
        return self.trace.step(result, step)


_FUNCTIONS: dict[str, tuple[How, How]] = {
    "log": (lambda x, _: math.log(x), lambda x, _: 1.0 / x),
    "exp": (lambda x, _: math.exp(x), lambda _, result: result),
    "sin": (lambda x, _: math.sin(x), lambda x, _: math.cos(x)),
    "cos": (lambda x, _: math.cos(x), lambda x, _: -math.sin(x)),
}
"""Each function, and its slope from the number and the result."""
