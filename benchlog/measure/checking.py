"""Whether an instrument passes its check, and how sure a shift by what it was off is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from benchlog.errors import OurFault
from benchlog.measure.check import Check, GroupCorrection, Remedy
from benchlog.measure.instrument import Instrument
from benchlog.measure.permissible import permissible_error_at
from benchlog.measure.units import canonical, convert, same_dimension


@dataclass(frozen=True)
class CheckResult:
    """What a check came to, in the instrument's unit: shown minus known, and what is allowed."""

    deviation: Decimal
    limit: float
    passed: bool


def deviation_of(check: Check, instrument: Instrument) -> Decimal:
    """Return shown minus known in the instrument's unit, without error when said in that unit.

    Raises OurFault for a check that was said in another dimension.
    """
    shown = check.said.value
    if not same_dimension(check.said.unit, instrument.unit):
        raise OurFault(f"check {check.id} was said in {check.said.unit}, not {instrument.unit}")
    if canonical(check.said.unit) != canonical(instrument.unit):
        shown = decimal_of(convert(float(shown), check.said.unit, instrument.unit))
    return shown - decimal_of(check.known)


def limit_of(check: Check, instrument: Instrument) -> float:
    """Return how far the instrument may be off at what was put on, in its unit.

    Its permissible error there and the tolerance of the standard, added; never less than half a
    step of the display, which cannot show anything finer.
    """
    allowed = permissible_error_at(instrument, check.known) + check.tolerance
    return max(allowed, instrument.resolution / 2)


def result_of(check: Check, instrument: Instrument) -> CheckResult:
    """Return whether a check passes: it does when the deviation is not beyond the limit.

    This is simple acceptance (JCGM 106:2012, 8.2): the limit is not narrowed by the uncertainty
    of the check itself, so close to it the risk of a wrong answer is shared by both sides. The
    limit is compared as the decimal it was written as: 100.2 for 100 g is 0.2 off, no more.
    """
    deviation = deviation_of(check, instrument)
    limit = limit_of(check, instrument)
    return CheckResult(deviation, limit, abs(deviation) <= decimal_of(limit))


def shift_half_width(check: Check, instrument: Instrument) -> float:
    """Return within what a shift by this check's deviation is known, in the instrument's unit.

    Half a step of the display that showed it and the tolerance of the standard, added. How far
    the instrument wandered between its checks is not in it: nobody can tell that.
    """
    return instrument.resolution / 2 + check.tolerance


def correction_half_widths(
    checks: Iterable[Check],
    corrections: Iterable[GroupCorrection],
    instruments: Iterable[Instrument],
) -> dict[str, float]:
    """Return `shift_half_width` of every shift by its correction's id; taken back ones too.

    Readings carry the id of the correction that made them, so an id that no reading carries
    any more does no harm.
    """
    made = {check.id: check for check in checks}
    tools = {instrument.id: instrument for instrument in instruments}
    return {
        one.id: shift_half_width(made[one.check_id], tools[one.instrument_id])
        for one in corrections
        if one.remedy is Remedy.SHIFT and not one.takes_back
    }


def active_corrections(corrections: Iterable[GroupCorrection]) -> list[GroupCorrection]:
    """Return the corrections that hold: neither taken back nor the taking back of another."""
    every = list(corrections)
    undone = {one.takes_back for one in every}
    return [one for one in every if not one.takes_back and one.id not in undone]


def decimal_of(number: float) -> Decimal:
    """Return a double as the shortest decimal that means it, cleared of conversion's last digits.

    Fifteen digits are what a double carries for certain.
    """
    return Decimal(f"{number:.15g}")
