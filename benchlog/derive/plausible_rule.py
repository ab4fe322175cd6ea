"""What a rule of plausibility is: the readings it sets against each other, and its words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

BOTH = "Read both again, and look at their units."
"""What to do where nothing better can be said."""


@dataclass(frozen=True)
class Seen:
    """The readings of one specimen that a rule asks for: numbers in SI, and chosen words."""

    numbers: Mapping[str, Any]
    words: Mapping[str, str]

    def __getitem__(self, key: str) -> Any:
        """Return a number in SI, with its uncertainty."""
        return self.numbers[key]


@dataclass(frozen=True)
class Rule:
    """Readings of one filter that cannot all be right beyond the limits in plausibility.toml.

    `works` turns the numbers of `inputs` into the one number that has limits; it returns None
    where there is nothing to say. `words` are the choices it needs besides, `unless` pairs of
    attribute and answer under which it does not hold. `over` and `under` are said where the
    number is above or below its limits; in them each input stands for its readings as said.
    """

    key: str
    inputs: tuple[str, ...]
    works: Callable[[Seen], Any]
    over: str
    do: str
    under: str = ""
    words: tuple[str, ...] = ()
    unless: tuple[tuple[str, str], ...] = ()

    @property
    def asks(self) -> frozenset[str]:
        """Every attribute that the rule looks at."""
        return frozenset((*self.inputs, *self.words, *(key for key, _ in self.unless)))


def share(
    key: str,
    part: str,
    whole: str,
    over: str,
    do: str,
    under: str = "",
    unless: tuple[tuple[str, str], ...] = (),
) -> Rule:
    """Return the rule that limits one reading as a share of another."""
    return Rule(key, (part, whole), lambda s: s[part] / s[whole], over, do, under, (), unless)


def walls_of(wall: str, outside: str, inside: str) -> Callable[[Seen], Any]:
    """Return what works out two walls over the difference of two diameters."""

    def works(seen: Seen) -> Any:
        gap = seen[outside] - seen[inside]
        return 2 * seen[wall] / gap if best(gap) > 0 else None

    return works


def best(number: Any) -> float:
    """Return the best value of a number that may carry an uncertainty."""
    return float(getattr(number, "nominal_value", number))
