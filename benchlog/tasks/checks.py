"""Check an instrument at the bench, and see which readings stand between its checks."""

from __future__ import annotations

from decimal import Decimal

from benchlog.errors import AskAgain, EntryRefused
from benchlog.measure.bracket import Bracket, brackets
from benchlog.measure.check import Check, CheckMoment
from benchlog.measure.checking import CheckResult, decimal_of, result_of
from benchlog.measure.entry import parse_entry
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Said
from benchlog.measure.units import canonical, convert, dimension_of, same_dimension, unit_symbol
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf, Steadiness, Weight
from benchlog.trade.check_standard import ZERO, Standard, StandardKind

_SLIP = 20
"""A check further off than this many times its limit is asked about: a slip is more likely."""


def check_instrument(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    instrument_id: str,
    moment: CheckMoment,
    given: str | Weight,
    standard: Standard = ZERO,
    *,
    session_s: float = 0.0,
    note: str = "",
    sure: bool = False,
) -> Check:
    """Put on the shelf what an instrument showed for `standard`, typed or from the scale.

    Whether it passes is worked out from it, not stored: see `measure.checking.result_of`. Raises
    EntryRefused for what is no single number of the instrument's dimension, a scale that has not
    settled, and a standard of another dimension; AskAgain, unless `sure`, for a check so far off
    that a slip is likelier.
    """
    instrument = instrument_of(shelf, instrument_id)
    known, tolerance = _in_unit(standard, instrument)
    readings = shelf.readings(lineup_id)
    check = Check(
        id=new_id(),
        lineup_id=lineup_id,
        instrument_id=instrument.id,
        moment=moment,
        known=known,
        tolerance=tolerance,
        said=_shown(given, instrument),
        at=clock.now(),
        session_s=session_s,
        after=readings[-1].id if readings else "",
        standard=standard.name,
        note=note.strip(),
    )
    result = result_of(check, instrument)
    if not sure and abs(result.deviation) > _SLIP * decimal_of(result.limit):
        raise AskAgain(
            f"{told_check(check, instrument)}. That is far off.",
            "Look at the display once more; say yes if it does show that.",
        )
    shelf.add_check(check)
    return check


def length_standard(
    kind: StandardKind, known: str, tolerance: str, instrument: Instrument
) -> Standard:
    """Return a block or pin from what was typed: its length, and within what that is known.

    A bare number is in the instrument's unit. Raises EntryRefused for what is no single length,
    a length that is not above zero, and a tolerance below zero or as large as the length.
    """
    length = _one_number(known, instrument)
    within = _one_number(tolerance, instrument)
    if canonical(within.unit) == canonical(length.unit):
        half = within.value
    else:
        half = decimal_of(convert(float(within.value), within.unit, length.unit))
    if length.value <= 0:
        raise EntryRefused(f"A {kind.label} has a length above zero.", "Type it off the block.")
    if not 0 <= half < length.value:
        raise EntryRefused(
            f"'{tolerance}' is no tolerance of a {kind.label} of {known}.",
            "Type by how much, plus or minus, its length may be off, 0.001 mm for example.",
        )
    name = f"{kind.label} {length.value:f} {unit_symbol(length.unit)}"
    return Standard(name, length.value, half, length.unit)


def brackets_of(shelf: Shelf, lineup_id: str) -> tuple[Bracket, ...]:
    """Return every bracket of a line-up, instrument by instrument, each in log order."""
    return brackets(
        shelf.readings(lineup_id),
        shelf.checks(lineup_id),
        shelf.group_corrections(lineup_id),
        shelf.instruments(),
    )


def in_doubt(brackets_found: tuple[Bracket, ...]) -> frozenset[str]:
    """Return the ids of all readings whose instrument failed a check and that nobody dealt with."""
    return frozenset[str]().union(*(bracket.in_doubt for bracket in brackets_found))


def told_check(check: Check, instrument: Instrument) -> str:
    """Return one line that tells a check: "Calliper · closing zero: shows 0.05 mm, …: failed"."""
    result = result_of(check, instrument)
    symbol = unit_symbol(instrument.unit)
    what = check.standard or "zero"
    return (
        f"{instrument.name} · {check.moment} {what}: shows {check.said.value:f}"
        f" {unit_symbol(check.said.unit)}, {told_result(result, symbol)}"
    ).replace("  ", " ")


def told_result(result: CheckResult, symbol: str) -> str:
    """Return what a check came to: "0.05 mm off, 0.03 mm allowed: failed"."""
    word = "passed" if result.passed else "failed"
    return f"{result.deviation:+f} {symbol} off, {result.limit:.6g} {symbol} allowed: {word}"


def instrument_of(shelf: Shelf, instrument_id: str) -> Instrument:
    """Return an instrument of the shelf; raises EntryRefused for one that is not there."""
    found = next((i for i in shelf.instruments() if i.id == instrument_id), None)
    if found is None:
        raise EntryRefused("That instrument is not on the shelf.", "Add it to the shelf first.")
    return found


def _shown(given: str | Weight, instrument: Instrument) -> Said:
    if isinstance(given, str):
        return _one_number(given, instrument)
    if given.said is None:
        raise EntryRefused("The scale shows no weight.", "Take the load off and try again.")
    if given.steadiness is Steadiness.MOVING:
        raise EntryRefused("The scale has not settled.", "Wait until it stands, then check again.")
    if not same_dimension(given.said.unit, instrument.unit):
        raise EntryRefused(
            f"A weight came in, but {instrument.name} does not weigh.",
            "Type what its display shows.",
        )
    return given.said


def _one_number(text: str, instrument: Instrument) -> Said:
    said = parse_entry(text, instrument.unit, dimension_of(instrument.unit))
    if said.approximate or said.low is not None:
        raise EntryRefused(
            f"'{text.strip()}' is not one number, and a display shows one.",
            "Type what it shows, with all its digits.",
        )
    return said


def _in_unit(standard: Standard, instrument: Instrument) -> tuple[float, float]:
    """Return what is known and within what, in the instrument's unit."""
    if not standard.unit:
        return float(standard.known), float(standard.tolerance)
    if not same_dimension(standard.unit, instrument.unit):
        raise EntryRefused(
            f"{instrument.name} cannot be checked with a {standard.name}.",
            f"Use what is measured in {unit_symbol(instrument.unit) or 'its unit'}.",
        )
    return _turned(standard.known, standard, instrument), _turned(
        standard.tolerance, standard, instrument
    )


def _turned(value: Decimal, standard: Standard, instrument: Instrument) -> float:
    if canonical(standard.unit) == canonical(instrument.unit):
        return float(value)
    return convert(float(value), standard.unit, instrument.unit)
