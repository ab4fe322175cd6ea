"""Put a bracket right in one logged action: shift its readings, mark them spoiled, or go back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from benchlog.errors import EntryRefused, OurFault
from benchlog.measure.bracket import Bracket
from benchlog.measure.check import Check, GroupCorrection, Remedy
from benchlog.measure.checking import deviation_of, result_of
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading, Said, standing
from benchlog.measure.shifting import error_in, shifted
from benchlog.measure.state import State
from benchlog.measure.units import unit_symbol
from benchlog.tasks.answer import with_si
from benchlog.tasks.checks import brackets_of, instrument_of, told_check
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf


@dataclass(frozen=True)
class OfferedShift:
    """What a shift would do to one reading, as people read it: "12.35 mm", "12.30 mm"."""

    reading: Reading
    old: str
    new: str


@dataclass(frozen=True)
class Offer:
    """What a shift of a bracket would do, before anybody says yes.

    `check` is the failed check that it goes by, `shift` what is added to each reading in the
    instrument's unit. `caution` is what the reviewer has to weigh, to be shown beside the rows;
    `refusal` says why a shift is out of the question, "" where it is not.
    """

    check: Check
    shift: Decimal
    told: str
    rows: tuple[OfferedShift, ...]
    caution: str
    refusal: str = ""


def offer(bracket: Bracket, instrument: Instrument) -> Offer | None:
    """Return what a shift would do to the readings in doubt; None when none is in doubt."""
    if not bracket.in_doubt:
        return None
    check = bracket.failed[0]
    error = deviation_of(check, instrument)
    rows, refusal = [], ""
    for reading in _doubted(bracket):
        new = _said_after(reading, error, instrument)
        rows.append(OfferedShift(reading, _shown(_said(reading)), _shown(new)))
        refusal = refusal or _below_zero(_said(reading), new)
    return Offer(
        check,
        -error,
        told_check(check, instrument),
        tuple(rows),
        _caution(bracket, check, instrument),
        refusal,
    )


def correct_group(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    check_id: str,
    remedy: Remedy,
    reason: str,
    *,
    session_s: float = 0.0,
) -> GroupCorrection:
    """Supersede every reading that a failed check puts in doubt, in one action, all or nothing.

    A shift takes what the check was off from each reading, exactly; 'spoiled' leaves it without
    a value. Counts, words and readings of another dimension stay as they are. Raises
    EntryRefused without a reason, for a check that failed no bracket or whose readings are dealt
    with, and for a shift that would bring a reading below zero.
    """
    why = _reason(reason)
    bracket, check = _failed_by(check_id, brackets_of(shelf, lineup_id))
    instrument = instrument_of(shelf, bracket.instrument_id)
    error = deviation_of(check, instrument) if remedy is Remedy.SHIFT else Decimal(0)
    correction = GroupCorrection(
        id=new_id(),
        lineup_id=lineup_id,
        instrument_id=instrument.id,
        check_id=check.id,
        remedy=remedy,
        shift=-float(error) if error else 0.0,
        reason=why,
        at=clock.now(),
    )
    made = [
        _superseding(old, _remedied(old, remedy, error, instrument), correction, session_s)
        for old in _doubted(bracket)
    ]
    shelf.add_group_correction(correction, made)
    return correction


def take_back_group(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    correction_id: str,
    reason: str,
    *,
    session_s: float = 0.0,
) -> GroupCorrection:
    """Undo a group correction by another: each of its readings that stands is as it was before.

    Readings that were scratched or corrected one by one since then stay as they are. What is put
    back is in doubt again. Raises EntryRefused without a reason and for a correction that was
    taken back already, or is itself a taking back.
    """
    why = _reason(reason)
    every = shelf.group_corrections(lineup_id)
    done = next((c for c in every if c.id == correction_id), None)
    if done is None or done.takes_back or any(c.takes_back == done.id for c in every):
        raise EntryRefused("That correction does not hold any more.", "Correct the group anew.")
    back = GroupCorrection(
        id=new_id(),
        lineup_id=lineup_id,
        instrument_id=done.instrument_id,
        check_id=done.check_id,
        remedy=done.remedy,
        shift=-done.shift if done.shift else 0.0,
        reason=why,
        at=clock.now(),
        takes_back=done.id,
    )
    readings = shelf.readings(lineup_id)
    by_id = {reading.id: reading for reading in readings}
    made = [
        _superseding(one, _before(one, by_id), back, session_s)
        for one in standing(readings)
        if one.group == done.id
    ]
    shelf.add_group_correction(back, made)
    return back


def _failed_by(check_id: str, found: Iterable[Bracket]) -> tuple[Bracket, Check]:
    """Return the first bracket that a check put in doubt, and the check."""
    for bracket in found:
        for check in bracket.failed:
            if check.id == check_id and bracket.in_doubt:
                return bracket, check
    raise EntryRefused(
        "No reading is in doubt by that check.", "Look at the checks once more; nothing changed."
    )


def _doubted(bracket: Bracket) -> list[Reading]:
    return [reading for reading in bracket.readings if reading.id in bracket.in_doubt]


def _reason(reason: str) -> str:
    if not reason.strip():
        raise EntryRefused(
            "Correcting a whole group needs its reason.", "Say in a few words what went wrong."
        )
    return reason.strip()


def _superseding(
    old: Reading, content: Reading, correction: GroupCorrection, session_s: float
) -> Reading:
    """Return the reading that takes `old`'s place: `content` with the correction's marks."""
    return replace(
        content,
        id=new_id(),
        ordinal=old.ordinal,
        at=correction.at,
        session_s=session_s,
        raw=None,
        reason=correction.reason,
        supersedes=old.id,
        withdrawn=False,
        group=correction.id,
    )


def _remedied(old: Reading, remedy: Remedy, error: Decimal, instrument: Instrument) -> Reading:
    bare = replace(old, word=None, si_value=None, si_low=None, si_high=None, si_unit="")
    if remedy is Remedy.SPOILED:
        return replace(bare, state=State.SPOILED, text=State.SPOILED.value, said=None)
    said = _said_after(old, error, instrument)
    below = _below_zero(_said(old), said)
    if below:
        raise EntryRefused(below, "Mark the group as spoiled instead, and measure again.")
    return with_si(replace(bare, text=said.text, said=said))


def _before(one: Reading, by_id: dict[str, Reading]) -> Reading:
    """Return what a correction's reading took the place of, past any scratch and putting back."""
    group, here = one.group, one
    while here.group == group or here.withdrawn:
        here = by_id[here.supersedes or ""]
    return here


def _said(reading: Reading) -> Said:
    if reading.said is None:
        raise OurFault(f"reading {reading.id} is in doubt and holds no number")
    return reading.said


def _said_after(reading: Reading, error: Decimal, instrument: Instrument) -> Said:
    said = _said(reading)
    there = error_in(said.unit, error, instrument)
    return shifted(said, there, estimate=reading.state is State.ESTIMATE)


def _below_zero(old: Said, new: Said) -> str:
    ends = [(old.value, new.value), (old.low, new.low)]
    if any(o is not None and n is not None and o >= 0 > n for o, n in ends):
        return f"The shift would bring a reading below zero: {new.text}."
    return ""


def _shown(said: Said) -> str:
    symbol = unit_symbol(said.unit)
    if said.low is not None and said.high is not None:
        return f"{said.low:f} to {said.high:f} {symbol}".rstrip()
    return f"{'~' if said.approximate else ''}{said.value:f} {symbol}".rstrip()


def _caution(bracket: Bracket, check: Check, instrument: Instrument) -> str:
    """Say what a shift takes for granted and nobody has measured."""
    parts = ["A shift takes it that the instrument was off by as much at every one of them."]
    if check in bracket.closings and _passed(bracket.openings, instrument):
        parts.append(
            "Its opening check passed, so the error came up somewhere in between: the readings"
            " before that would be put wrong. If you cannot say when, mark them as spoiled."
        )
    if check.known:
        symbol = unit_symbol(instrument.unit)
        parts.append(f"It was checked at {check.known:.10g} {symbol} alone, not where you read.")
    return " ".join(parts)


def _passed(checks: Iterable[Check], instrument: Instrument) -> bool:
    every = list(checks)
    return bool(every) and all(result_of(check, instrument).passed for check in every)
