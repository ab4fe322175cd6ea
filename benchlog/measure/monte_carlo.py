"""Propagation of distributions by drawing them (JCGM 101).

Loads numpy; import it only where draws are wanted.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import blake2b
from typing import Any, TypeAlias

import numpy

from benchlog.measure.coverage import LEVEL
from benchlog.measure.part import Part, Spread, part_of

Array: TypeAlias = "numpy.ndarray[Any, numpy.dtype[numpy.float64]]"

BLOCK = 1 << 15
"""Trials worked at a time: a dozen such arrays stay in a processor's own memory."""


class Draws:
    """Repeatable draws of `uncertainties` numbers, all from the same underlying variables.

    Each variable has a stream of its own, found by its tag and `seed`; whatever number it occurs
    in, trial by trial its value is the same, so that correlations hold over a whole record. Its
    shape is its `Part`'s: normal, rectangular, arcsine, or for the mean of few repeats a scaled
    and shifted t (6.4.9). Nothing is kept between calls but the names of the streams.
    """

    def __init__(self, trials: int = 1_000_000, seed: int = 101) -> None:
        self.trials = trials
        self.seed = seed
        self._names: dict[Any, str] = {}
        self._taken: dict[str, int] = {}

    def of(self, number: Any) -> Array:
        """Return all draws of a number; a plain one is the same in every trial."""
        drawn = numpy.empty(self.trials)
        for here, values in self.blocks({"": number}):
            drawn[here] = values[""]
        return drawn

    def blocks(self, numbers: Mapping[str, Any]) -> Iterator[tuple[slice, dict[str, Any]]]:
        """Yield the draws of several numbers block by block, with their place among the trials.

        Exact numbers come as plain floats.
        """
        forms = {key: _Form.of(number) for key, number in numbers.items()}
        streams = self._streams(forms)
        for start in range(0, self.trials, BLOCK):
            size = min(BLOCK, self.trials - start)
            streams.move_on(size)
            yield (
                slice(start, start + size),
                {key: form.values(streams) for key, form in forms.items()},
            )

    def key(self, number: Any) -> tuple[Any, ...]:
        """Return what the draws of a number hang on: numbers of equal keys have equal draws.

        That holds over all `Draws` of as many trials and the same seed. Streams are named in the
        order in which their numbers are first seen, here or when they are drawn.
        """
        form = _Form.of(number)
        parts = ((self._name(v), part_of(v.tag), factor) for v, factor in form.factors.items())
        return form.middle, tuple(
            (name, part.spread, part.freedom, part.estimate, factor) for name, part, factor in parts
        )

    def _streams(self, forms: Mapping[str, _Form]) -> _Streams:
        variables = dict.fromkeys(v for form in forms.values() for v in form.factors)
        return _Streams(self.seed, {v: (part_of(v.tag), self._name(v)) for v in variables})

    def _name(self, variable: Any) -> str:
        """Return the stream's name: the variable's tag, numbered where several bear the same."""
        if variable not in self._names:
            tag = str(variable.tag)
            self._taken[tag] = self._taken.get(tag, 0) + 1
            self._names[variable] = f"{self._taken[tag]} {tag}"
        return self._names[variable]


def interval(drawn: Array, level: float = LEVEL, *, shortest: bool = False) -> tuple[float, float]:
    """Return the ends between which `level` of the draws lie (JCGM 101 7.7).

    As much lies below as above (7.7.2), or with `shortest` the narrowest such interval is taken
    (7.7.3), which differs where the distribution leans.
    """
    count = len(drawn)
    inside = int(level * count + 0.5)
    if not shortest:
        return interval_and_noise(drawn, level)[:2]
    ordered = numpy.sort(drawn)
    first = int(numpy.argmin(ordered[inside:] - ordered[: count - inside]))
    return float(ordered[first]), float(ordered[first + inside])


def interval_and_noise(drawn: Array, level: float = LEVEL) -> tuple[float, float, float]:
    """Return the symmetric interval, and the standard uncertainty of the less sure of its ends.

    The number of draws below an end scatters by √(M·p·(1 − p)), so an end might as well have
    been the draw that many places on.
    """
    count = len(drawn)
    low = max(0, (count - int(level * count + 0.5) + 1) // 2 - 1)
    high = min(low + int(level * count + 0.5), count - 1)
    step = math.ceil(math.sqrt(count * (1.0 - level**2)) / 2.0)
    places = [
        min(max(end + move, 0), count - 1) for end in (low, high) for move in (-step, 0, step)
    ]
    parted = numpy.partition(drawn, places)
    at = [float(parted[place]) for place in places]
    return at[1], at[4], max(at[2] - at[0], at[5] - at[3]) / 2.0


def numerical_tolerance(u: float, digits: int) -> float:
    """Return δ, half a unit in the last of the `digits` significant digits of u (JCGM 101 7.9.2).

    u = 0.0754 is 8 · 10⁻² to one digit, so δ is 0.005.
    """
    return 0.5 * 10.0 ** (int(f"{u:.{digits - 1}e}".partition("e")[2]) - digits + 1)


@dataclass(frozen=True)
class _Form:
    """A number as a sum: what is certain, and how far each variable moves it."""

    middle: float
    factors: Mapping[Any, float]

    @classmethod
    def of(cls, number: Any) -> _Form:
        slopes = getattr(number, "derivatives", {})
        factors = {v: slope * v.std_dev for v, slope in slopes.items() if slope and v.std_dev}
        return cls(float(getattr(number, "nominal_value", number)), factors)

    def values(self, streams: _Streams) -> Any:
        if not self.factors:
            return self.middle
        shift = self.middle
        total: Any = None
        for variable, factor in self.factors.items():
            raw, scale, centre = streams.now(variable)
            shift -= factor * scale * centre
            moved = raw * (factor * scale)
            total = moved if total is None else numpy.add(total, moved, out=total)
        return numpy.add(total, shift, out=total)


class _Streams:
    """The streams of several variables, moved on together."""

    def __init__(self, seed: int, variables: Mapping[Any, tuple[Part, str]]) -> None:
        self._variables = {
            v: (part, _generator(seed, name)) for v, (part, name) in variables.items()
        }
        self._widths = {
            _width_of(part, name): _generator(seed, f"width {_width_of(part, name)}")
            for part, name in variables.values()
            if _has_tails(part)
        }
        self._names = {v: name for v, (_, name) in variables.items()}
        self._now: dict[Any, Array] = {}

    def move_on(self, size: int) -> None:
        """Draw the next `size` trials."""
        widths = {
            (name, freedom): numpy.sqrt(
                stream.standard_gamma(freedom / 2.0, size) * (2.0 / freedom)
            )
            for (name, freedom), stream in self._widths.items()
        }
        for variable, (part, stream) in self._variables.items():
            if part.spread in (Spread.RECTANGULAR, Spread.ARCSINE):
                drawn = stream.random(size)
                if part.spread is Spread.ARCSINE:
                    drawn = numpy.sin(2.0 * math.pi * drawn)
            else:
                drawn = stream.standard_normal(size)
                if _has_tails(part):
                    drawn /= widths[_width_of(part, self._names[variable])]
            self._now[variable] = drawn

    def now(self, variable: Any) -> tuple[Array, float, float]:
        """Return raw draws, and by what to scale and about what to centre them.

        Scaled and centred, a variable has standard uncertainty 1 (a t has that of the normal it
        is made from, which is how a standard uncertainty from repeats is stated).
        """
        spread = self._variables[variable][0].spread
        if spread is Spread.RECTANGULAR:
            return self._now[variable], math.sqrt(12.0), 0.5
        scale = math.sqrt(2.0) if spread is Spread.ARCSINE else 1.0
        return self._now[variable], scale, 0.0


def _has_tails(part: Part) -> bool:
    return part.spread is Spread.REPEATS and not math.isinf(part.freedom)


def _width_of(part: Part, name: str) -> tuple[str, float]:
    """Return which draw of a scatter widens this part: parts of one estimate share it."""
    return part.estimate or name, part.freedom


def _generator(seed: int, name: str) -> numpy.random.Generator:
    words = numpy.frombuffer(blake2b(name.encode(), digest_size=16).digest(), numpy.uint32)
    return numpy.random.Generator(numpy.random.SFC64([seed, *map(int, words)]))
