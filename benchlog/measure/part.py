"""One independent part of an uncertainty: its name, its shape and its degrees of freedom."""

from __future__ import annotations

import math
from enum import StrEnum
from typing import Any

from uncertainties import ufloat


class Spread(StrEnum):
    """How the possible values of a part lie about its middle."""

    NORMAL = "normal"
    RECTANGULAR = "rectangular"
    ARCSINE = "arcsine"
    REPEATS = "scaled t"
    """The mean of few repeats: a scaled and shifted t (JCGM 101 6.4.9)."""


class Part(str):
    """The name of a part, as the tag of its variable, with how it is spread.

    `freedom` are its degrees of freedom: n - 1 for the mean of n repeats (JCGM 100 4.2.6),
    infinite for what rests on a specification or another belief (G.4.3). Parts whose sizes come
    from one and the same estimate of scatter name it in `estimate`: they vary independently, but
    their degrees of freedom count once.
    """

    spread: Spread
    freedom: float
    estimate: str

    def __new__(
        cls,
        name: str,
        spread: Spread = Spread.NORMAL,
        freedom: float = math.inf,
        estimate: str = "",
    ) -> Part:
        """Name a part."""
        made = super().__new__(cls, name)
        made.spread, made.freedom, made.estimate = spread, freedom, estimate
        return made

    def __reduce__(self) -> tuple[Any, ...]:
        return Part, (str(self), self.spread, self.freedom, self.estimate)


def variable(size: float, part: Part) -> Any:
    """Return a fresh variable about nought with standard uncertainty `size`."""
    return ufloat(0.0, size, tag=part)


def part_of(tag: object) -> Part:
    """Return what is known of a variable from its tag; a foreign one counts as normal."""
    return tag if isinstance(tag, Part) else Part(str(tag or "other"))
