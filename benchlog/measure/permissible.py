"""How far an instrument may be off at a value, by its statement or by its verification class."""

from __future__ import annotations

from decimal import Decimal

from benchlog.errors import OurFault
from benchlog.measure.instrument import Instrument

IN_SERVICE = Decimal(2)
"""A scale at a bench is in use, not fresh from verification: twice the initial limits hold."""

STEPS = {
    "I": (50_000, 200_000),
    "II": (5_000, 20_000),
    "III": (500, 2_000),
    "IIII": (50, 200),
}
"""Loads in intervals e up to which half an interval and one interval are permitted at first
verification, by accuracy class; one and a half beyond (OIML R 76-1:2006, Table 6 and 3.5.2)."""

ACCURACY_CLASSES = tuple(STEPS)


def is_verified(instrument: Instrument) -> bool:
    """Whether the permissible error follows from an accuracy class and the load."""
    return bool(instrument.accuracy_class) and instrument.verification_interval > 0.0


def permissible_error_at(instrument: Instrument, value: float) -> float:
    """Return the half-width of the permissible error at `value`, both in the instrument's unit.

    For a verified scale it is 1, 2 or 3 intervals e by the load, the limits in service. They hold
    for the net value at any tare, so a tared reading counts as its own load. Any other
    instrument has the permissible error that was stated for it. Raises OurFault for an
    accuracy class that does not exist.
    """
    if not is_verified(instrument):
        return instrument.permissible_error
    return float(IN_SERVICE * _at_first(instrument, value))


def _at_first(instrument: Instrument, value: float) -> Decimal:
    """Return the limit at first verification.

    Intervals are counted in decimals: 200.1/0.1 is 2000.999... in binary, and what came out of a
    conversion of units is cleared of its last digits.
    """
    steps = STEPS.get(instrument.accuracy_class)
    if steps is None:
        raise OurFault(
            f"instrument {instrument.id} has accuracy class '{instrument.accuracy_class}', "
            f"which is none of {', '.join(ACCURACY_CLASSES)}"
        )
    interval = Decimal(f"{instrument.verification_interval:.12g}")
    load = abs(Decimal(f"{value:.12g}")) / interval
    halves = 1 + sum(load > step for step in steps)
    return interval * halves / 2
