"""One capture per placing: when a weight has settled, and when the pan counts as cleared.

    WAITING ──load──▶ SETTLING ──settled──▶ CAUGHT
       ▲  ◀──no load──────┘                    │
       └────────the pan came back near zero────┘

Time comes in with each weight; nothing here reads a clock.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from benchlog.measure.reading import Said
from benchlog.measure.units import registry
from benchlog.tasks.ports import Capture, Steadiness, Weight

NOTHING = Decimal(0)


@dataclass(frozen=True)
class SteadyRule:
    """When a weight is settled and when the pan is clear.

    A scale that says whether it is at rest is believed. One that never says has settled after
    `equal_readings` equal weights in a row within `within_s` seconds. The pan is near zero within
    `clear_digits` of the last digit shown, or within `clear_share` of what was caught, so that
    oil left on a tray does not hold up the next specimen. It has to stay near zero: one line
    that the scale calls stable, or `clear_lines` in a row (a pan swinging through zero on its
    way up is not cleared). All of it is common practice, no source.
    """

    equal_readings: int = 4
    within_s: float = 1.5
    clear_digits: int = 5
    clear_share: Decimal = Decimal("0.02")
    clear_lines: int = 3


@dataclass(frozen=True)
class Step:
    """Where the capturing stands after a line, and the weight if this line was caught."""

    capture: Capture
    caught: Weight | None = None


class PanWatch:
    """Watches one pan through lost and found connections; catches each placing once.

    A load lighter than "near zero" is never caught; after a pan that cleared only to within the
    share left by the last load, neither is one lighter than that, until the pan shows zero.
    """

    def __init__(self, rule: SteadyRule | None = None) -> None:
        self._rule = rule or SteadyRule()
        self._capture = Capture.WAITING
        self._says_motion = False
        self._run: deque[tuple[float, Decimal, str]] = deque(maxlen=self._rule.equal_readings)
        self._residue = NOTHING
        self._clear_run = 0

    @property
    def capture(self) -> Capture:
        """What is being waited for."""
        return self._capture

    def feed(self, weight: Weight, at_s: float) -> Step:
        """Take the next weight, read at `at_s` on a clock that never goes back."""
        if weight.steadiness in (Steadiness.STABLE, Steadiness.MOVING):
            self._says_motion = True
        said = weight.said
        if said is None:
            # Beyond the range: no weight and no empty pan, whatever was under way starts anew.
            self._run.clear()
            self._clear_run = 0
            return Step(self._capture)
        grams = said.value * grams_per(said.unit)
        settled = self._settled(weight, said, at_s)
        if self._capture is Capture.CAUGHT:
            self._look_for_clear_pan(weight, said, grams)
            return Step(self._capture)
        return self._look_for_load(weight, said, grams, settled=settled)

    def _look_for_load(self, weight: Weight, said: Said, grams: Decimal, *, settled: bool) -> Step:
        near_zero = self._near_zero(said)
        if abs(grams) <= near_zero:
            self._residue = NOTHING
        if grams <= max(near_zero, self._residue):
            self._capture = Capture.WAITING
            return Step(self._capture)
        if not settled:
            self._capture = Capture.SETTLING
            return Step(self._capture)
        self._capture = Capture.CAUGHT
        self._residue = grams * self._rule.clear_share
        self._clear_run = 0
        return Step(self._capture, weight)

    def _look_for_clear_pan(self, weight: Weight, said: Said, grams: Decimal) -> None:
        near_zero = self._near_zero(said)
        if abs(grams) > max(near_zero, self._residue):
            self._clear_run = 0
            return
        self._clear_run += 1
        if weight.steadiness is Steadiness.STABLE or self._clear_run >= self._rule.clear_lines:
            self._capture = Capture.WAITING
            if abs(grams) <= near_zero:
                self._residue = NOTHING

    def _settled(self, weight: Weight, said: Said, at_s: float) -> bool:
        """Believe the scale's word; without one, look for equal weights in a row."""
        if weight.steadiness is not Steadiness.SILENT or self._says_motion:
            return weight.steadiness is Steadiness.STABLE
        if self._run and self._run[-1][1:] != (said.value, said.unit):
            self._run.clear()
        self._run.append((at_s, said.value, said.unit))
        enough = len(self._run) == self._rule.equal_readings
        return enough and at_s - self._run[0][0] <= self._rule.within_s

    def _near_zero(self, said: Said) -> Decimal:
        """Return the half-width of "near zero" in grams, from the last digit of the line."""
        return self._rule.clear_digits * last_digit(said.value) * grams_per(said.unit)


class PressWatch:
    """Catches every line that was sent by a press of the scale's print key.

    The press is the reviewer's word that the weight counts; a moving weight, none at all, or one
    beyond the range is still not caught.
    """

    def feed(self, weight: Weight, at_s: float) -> Step:  # noqa: ARG002  same verb as PanWatch
        """Take the line that was sent."""
        if weight.said is None or weight.said.value <= 0:
            return Step(Capture.WAITING)
        if weight.steadiness is Steadiness.MOVING:
            return Step(Capture.SETTLING)
        return Step(Capture.CAUGHT, weight)


def last_digit(value: Decimal) -> Decimal:
    """Return the worth of a number's last digit: 0.01 for 287.40."""
    exponent = value.as_tuple().exponent
    return Decimal(1).scaleb(exponent) if isinstance(exponent, int) else Decimal(1)


@cache
def grams_per(unit: str) -> Decimal:
    """Return how many grams one `unit` is, from the unit registry; for thresholds only."""
    return Decimal(str(registry().Quantity(1, unit).to("gram").magnitude))
