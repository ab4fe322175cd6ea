"""Two numbers held against each other with the uncertainty of their gap.

A line is cleared only when the gap lies inside the band by more than its expanded uncertainty, and
differs only when it lies beyond by more than that; in between nobody can tell. The band is guarded
on both sides (JCGM 106:2012, 8.3; from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.measure.quantities import expanded_in, value_in
from benchlog.measure.rounding import rounded
from benchlog.measure.units import Quantity, unit_symbol
from benchlog.trade.stand_in import Compare, StandInSubject

NOISE = 1e-9
"""What floats lose in a difference of equal numbers, relative to them."""


@dataclass(frozen=True)
class Gap:
    """How far a candidate is off, in `unit`: candidate less specified, ± `expanded` (95 %).

    `inside` and `beyond` are never both true; when both are false the numbers cannot tell.
    """

    gap: float
    expanded: float
    band: float
    unit: str
    compare: Compare
    inside: bool
    beyond: bool

    @property
    def sentence(self) -> str:
        """Return the gap against its band in words."""
        value, half = rounded(self.gap, self.expanded)
        symbol = unit_symbol(self.unit)
        gap = f"{value if half == '0' else f'{value} ± {half}'} {symbol}".rstrip()
        band = f"{self.band:g} {symbol}".rstrip()
        said = {
            Compare.AT_LEAST: f"at most {band} below",
            Compare.AT_MOST: f"at most {band} above",
        }.get(self.compare, f"within {band}")
        tell = "" if self.inside or self.beyond else " Too close to tell."
        return f"Gap {gap}, wanted {said}.{tell}"


def gap_between(subject: StandInSubject, candidate: Quantity, specified: Quantity) -> Gap:
    """Return the gap of two numbers; what their readings share cancels in it (JCGM 100, 5.2)."""
    difference = candidate - specified
    gap = value_in(difference, subject.unit)
    half = expanded_in(difference, subject.unit)
    off = {Compare.AT_LEAST: -gap, Compare.AT_MOST: gap}.get(subject.compare, abs(gap))
    noise = NOISE * max(abs(value_in(specified, subject.unit)), subject.band)
    return Gap(
        gap,
        half,
        subject.band,
        subject.unit,
        subject.compare,
        inside=off + half <= subject.band + noise,
        beyond=off - half > subject.band + noise,
    )
