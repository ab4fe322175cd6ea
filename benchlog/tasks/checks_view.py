"""What the checks of a line-up's instruments look like to a reviewer, as plain values."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from benchlog.measure.bracket import Bracket
from benchlog.measure.check import Check, CheckMoment, GroupCorrection, Remedy
from benchlog.measure.checking import active_corrections, decimal_of, result_of
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.units import unit_symbol
from benchlog.tasks.check_book import NEVER, CheckMark, ToolCheck, tool_check
from benchlog.tasks.checks import brackets_of, told_check
from benchlog.tasks.group_correct import Offer, offer
from benchlog.tasks.ports import Clock, Shelf
from benchlog.tasks.usual_checks import Steps, usual_moment, usual_step
from benchlog.trade.check_standard import load_check_standards

NOT_WANTED = ToolCheck(CheckMark.NOT_CHECKED, "no check is usual")


@dataclass(frozen=True)
class CheckLine:
    """One check in words, without the instrument's name, and whether it passed."""

    words: str
    passed: bool


@dataclass(frozen=True)
class DoneLine:
    """One group correction that holds, in words."""

    correction_id: str
    words: str


@dataclass(frozen=True)
class ToolView:
    """One instrument: how it stands, its checks so far, and what there is to put right.

    `here` says that it is in hand, or has readings or checks in this line-up. `lines` are the
    checks of the bracket that `offer` is about, of the last bracket where nothing is in doubt.
    `moment` and `step` are the check that is due next among `steps`; `checks` are all checks of
    the instrument, oldest first.
    """

    instrument: Instrument
    check: ToolCheck
    here: bool
    steps: Steps
    moment: CheckMoment
    step: int
    lines: tuple[CheckLine, ...]
    offer: Offer | None
    done: tuple[DoneLine, ...]
    checks: tuple[Check, ...]


def tool_views(
    shelf: Shelf, clock: Clock, lineup_id: str, in_hand: Iterable[str]
) -> tuple[ToolView, ...]:
    """Return every instrument of the shelf; those in use in this line-up first.

    Set-ups of a microscope are left out: their check is another calibration, and no shift of a
    reading puts a scale right.
    """
    found: dict[str, list[Bracket]] = {}
    for bracket in brackets_of(shelf, lineup_id):
        found.setdefault(bracket.instrument_id, []).append(bracket)
    checks = shelf.checks(lineup_id)
    holding = active_corrections(shelf.group_corrections(lineup_id))
    moved: dict[str, int] = {}
    for reading in shelf.readings(lineup_id):
        if reading.group and not reading.withdrawn:
            moved[reading.group] = moved.get(reading.group, 0) + 1
    held = set(in_hand)
    views = [
        replace(
            _view(i, found.get(i.id, []), [c for c in checks if c.instrument_id == i.id], clock),
            here=i.id in held or i.id in found,
            done=tuple(
                DoneLine(one.id, _told_done(one, moved.get(one.id, 0), i))
                for one in holding
                if one.instrument_id == i.id
            ),
        )
        for i in shelf.instruments()
        if i.kind is not InstrumentKind.MICROSCOPE
    ]
    return tuple(sorted(views, key=lambda view: not view.here))


def _view(
    instrument: Instrument, found: list[Bracket], checks: list[Check], clock: Clock
) -> ToolView:
    usual = load_check_standards().steps_for(instrument.kind)
    steps = usual or ((load_check_standards().kind("zero"),),)
    never = NEVER if usual else NOT_WANTED
    doubted = next((bracket for bracket in found if bracket.in_doubt), None)
    shown = doubted or (found[-1] if found else None)
    moment = usual_moment(found, steps)
    return ToolView(
        instrument=instrument,
        check=tool_check(found, clock.now()) if checks else never,
        here=False,
        steps=steps,
        moment=moment,
        step=usual_step(found, moment, steps),
        lines=_lines(shown, instrument) if shown else (),
        offer=offer(doubted, instrument) if doubted else None,
        done=(),
        checks=tuple(checks),
    )


def _lines(bracket: Bracket, instrument: Instrument) -> tuple[CheckLine, ...]:
    name = f"{instrument.name} · "
    return tuple(
        CheckLine(
            f"{check.at.astimezone():%H:%M}  {told_check(check, instrument).removeprefix(name)}",
            result_of(check, instrument).passed,
        )
        for check in (*bracket.openings, *bracket.closings)
    )


def _told_done(one: GroupCorrection, moved: int, instrument: Instrument) -> str:
    readings = "1 reading" if moved == 1 else f"{moved} readings"
    at = f"{one.at.astimezone():%H:%M}"
    if one.remedy is Remedy.SHIFT:
        return f"{at}  {readings} shifted by {shift_words(one.shift, instrument)}: {one.reason}"
    return f"{at}  {readings} marked as spoiled: {one.reason}"


def shift_words(shift: float, instrument: Instrument) -> str:
    """Return a shift as it is printed, with a true minus: "−0.05 mm"."""
    text = f"{decimal_of(shift):+f} {unit_symbol(instrument.unit)}".rstrip()
    return text.replace("-", "−")
