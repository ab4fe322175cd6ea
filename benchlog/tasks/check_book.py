"""What is known of the instruments of a line-up, from their checks, in a word and in a sign."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from benchlog.measure.bracket import Bracket, BracketState, brackets
from benchlog.measure.check import CheckMoment
from benchlog.measure.checking import result_of
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading
from benchlog.tasks.ports import Clock, Shelf
from benchlog.trade.check_standard import load_check_standards


class CheckMark(StrEnum):
    """How an instrument stands, for a shape beside the words."""

    NOT_CHECKED = "not checked"
    OPEN = "open"
    PASSED = "passed"
    IN_DOUBT = "in doubt"
    PUT_RIGHT = "put right"


@dataclass(frozen=True)
class ToolCheck:
    """What the checks of one instrument say of it: "closing failed: 6 readings in doubt"."""

    mark: CheckMark
    words: str

    @property
    def stands_out(self) -> bool:
        """Whether the reviewer has something to put right."""
        return self.mark is CheckMark.IN_DOUBT


NEVER = ToolCheck(CheckMark.NOT_CHECKED, "not checked")


class CheckBook:
    """The checks of one line-up, read once; answers while readings come in, without the shelf.

    Readings are only ever appended, so what was worked out holds until there are more of them.
    Make a new one after a check or a group correction.
    """

    def __init__(self, shelf: Shelf, clock: Clock, lineup_id: str) -> None:
        self._clock = clock
        self._checks = tuple(shelf.checks(lineup_id))
        self._corrections = tuple(shelf.group_corrections(lineup_id))
        self._kept: dict[str, tuple[tuple[int, Instrument], tuple[Bracket, ...]]] = {}
        self.taken_back = frozenset(c.id for c in self._corrections if c.takes_back)
        """The ids of corrections that put back what another had done."""

    def brackets(self, readings: Sequence[Reading], instrument: Instrument) -> tuple[Bracket, ...]:
        """Return the brackets of one instrument; none where it was never checked."""
        own = [c for c in self._checks if c.instrument_id == instrument.id]
        if not own:
            return ()
        so_far = len(readings), instrument
        kept = self._kept.get(instrument.id)
        if kept is None or kept[0] != so_far:
            kept = so_far, brackets(readings, own, self._corrections, [instrument])
            self._kept[instrument.id] = kept
        return kept[1]

    def tool(self, readings: Sequence[Reading], instrument: Instrument) -> ToolCheck | None:
        """Return how an instrument stands; None for one that wants no check and had none."""
        found = self.brackets(readings, instrument)
        if found:
            return tool_check(found, self._clock.now())
        return NEVER if load_check_standards().steps_for(instrument.kind) else None

    def in_doubt(
        self, readings: Sequence[Reading], instruments: Iterable[Instrument]
    ) -> frozenset[str]:
        """Return the ids of the readings in doubt."""
        doubted: set[str] = set()
        for instrument in instruments:
            own = (c for c in self._checks if c.instrument_id == instrument.id)
            if any(not result_of(c, instrument).passed for c in own):
                for bracket in self.brackets(readings, instrument):
                    doubted |= bracket.in_doubt
        return frozenset(doubted)

    def still_open(
        self, readings: Sequence[Reading], instruments: Iterable[Instrument]
    ) -> tuple[str, ...]:
        """Return the names of the instruments whose last bracket holds readings and is not closed.

        One that was never checked is not open: there is no bracket to close.
        """
        return tuple(
            instrument.name
            for instrument in instruments
            if (found := self.brackets(readings, instrument))
            and not found[-1].closings
            and found[-1].readings
        )


def tool_check(found: Sequence[Bracket], now: datetime) -> ToolCheck:
    """Return what the brackets of one instrument come to: what is in doubt first, else the last."""
    doubted = [bracket for bracket in found if bracket.in_doubt]
    if doubted:
        number = sum(len(bracket.in_doubt) for bracket in doubted)
        return ToolCheck(
            CheckMark.IN_DOUBT, f"{_failure(doubted[0])}: {_readings(number)} in doubt"
        )
    last = found[-1]
    if last.failed:
        if any(reading.group for reading in last.readings):
            return ToolCheck(CheckMark.PUT_RIGHT, "put right")
        return ToolCheck(CheckMark.IN_DOUBT, f"{_failure(last)}; no reading hangs on it")
    if last.state is BracketState.PASSED:
        return ToolCheck(CheckMark.PASSED, "closed and passed")
    if last.openings:
        return ToolCheck(CheckMark.OPEN, f"opened {_when(last.openings[-1].at, now)}")
    return NEVER


def _failure(bracket: Bracket) -> str:
    closing = bracket.failed[0].moment is CheckMoment.CLOSING
    return "closing failed" if closing else "opening failed"


def _readings(number: int) -> str:
    return "1 reading" if number == 1 else f"{number} readings"


def _when(at: datetime, now: datetime) -> str:
    """Return the time of day, with the day where that is not today's."""
    local, today = at.astimezone(), now.astimezone()
    if local.date() == today.date():
        return f"{local:%H:%M}"
    return f"{local.day} {local:%b, %H:%M}"
