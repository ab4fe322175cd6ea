"""One part put on a pan and taken off again, as the lines a scale would send meanwhile."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from benchlog.errors import ScaleFault
from benchlog.instruments.line_writer import write_line
from benchlog.instruments.steady import SteadyRule, last_digit
from benchlog.instruments.template import MASS_UNITS, Template, Templates
from benchlog.tasks.ports import Steadiness

# How far a pan swings about its load, as shares of it: up from empty, over, back, nearly there.
SWING = tuple(Decimal(share) for share in ("0.31", "0.84", "1.07", "0.96", "1.01"))


@dataclass(frozen=True)
class Placing:
    """One part: `weight` keeps its digits ("287.40"), `unit` is a full unit name.

    The other fields are numbers of lines: `empty` before and after, `moving` while the pan
    swings, `jitter` while the last digit still wanders, `resting` at the weight itself.
    """

    weight: Decimal
    unit: str = "gram"
    jitter: int = 2
    moving: int = 5
    resting: int = 6
    empty: int = 4

    def check(self, rule: SteadyRule) -> None:
        """Raise ScaleFault for a placing that a scale would never catch."""
        if self.unit not in MASS_UNITS:
            what = f"'{self.unit}' is not a unit a scale weighs in."
            raise ScaleFault(what, f"Choose one of: {', '.join(MASS_UNITS)}.")
        least = rule.clear_digits * last_digit(self.weight)
        if not self.weight > least:
            what = (
                f"A placing of {self.weight} {self.unit} is too light to be told from an empty pan."
            )
            raise ScaleFault(what, f"Give it more than {least} {self.unit}, or more decimals.")


def placing_lines(placing: Placing, shape: Template, templates: Templates) -> Iterator[bytes]:
    """Give the lines of one placing: empty, swinging, settling, resting, taken off."""
    step = last_digit(placing.weight)

    def line(weight: Decimal, *, moving: bool = False) -> bytes:
        steadiness = Steadiness.MOVING if moving else Steadiness.STABLE
        shown = weight.quantize(step)
        return write_line(shape, templates, shown, placing.unit, steadiness=steadiness)

    for _ in range(placing.empty):
        yield line(Decimal(0))
    for index in range(placing.moving):
        yield line(placing.weight * SWING[index % len(SWING)], moving=True)
    for index in range(placing.jitter):
        yield line(placing.weight + (step if index % 2 else -step), moving=True)
    for _ in range(placing.resting):
        yield line(placing.weight)
    yield line(placing.weight * SWING[0], moving=True)
    for _ in range(placing.empty):
        yield line(Decimal(0))
