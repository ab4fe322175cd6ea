"""What a number said becomes when what its instrument was off by is taken from it."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal

from benchlog.measure.checking import decimal_of
from benchlog.measure.estimate import estimate_interval
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Said
from benchlog.measure.units import canonical, convert, unit_symbol

_FINER = 2
"""Decades below the instrument's step to which an error is kept in another unit."""


def error_in(unit: str, deviation: Decimal, instrument: Instrument) -> Decimal:
    """Return a deviation of the instrument in another unit of its dimension.

    Exact in the instrument's own unit. In another one it is rounded to a decimal place no
    coarser than a hundredth of the instrument's step, so that the sum can still be read.
    """
    if canonical(unit) == canonical(instrument.unit):
        return deviation
    scale = convert(1.0, instrument.unit, unit) - convert(0.0, instrument.unit, unit)
    there = deviation * decimal_of(scale)
    step = decimal_of(instrument.resolution * scale) or abs(there)
    if not there:
        return Decimal(0)
    place = Decimal((0, (1,), step.adjusted() - _FINER))
    return there.quantize(place, ROUND_HALF_EVEN)


def shifted(said: Said, error: Decimal, *, estimate: bool = False) -> Said:
    """Return a number with `error`, in its own unit, taken from it, and from its interval too.

    The text is the sum: "12.35 mm − 0.05 mm". An estimate's implied interval becomes one that
    is said, or else it would follow the new digits.
    """
    low, high = (said.low, said.high)
    if said.approximate or estimate:
        low, high = estimate_interval(said)
    return Said(
        _sum(said, error, estimate=said.approximate or estimate),
        said.value - error,
        said.unit,
        None if low is None else low - error,
        None if high is None else high - error,
        said.approximate,
    )


def _sum(said: Said, error: Decimal, *, estimate: bool) -> str:
    symbol = unit_symbol(said.unit)
    number = f"~{said.value:f}" if estimate else f"{said.value:f}"
    if said.low is not None and said.high is not None and not estimate:
        number = f"({said.low:f} to {said.high:f})"
    sign = "+" if error < 0 else "−"
    return f"{number} {symbol} {sign} {abs(error):f} {symbol}"
