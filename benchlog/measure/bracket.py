"""Readings between two checks of their instrument, and which of them are in doubt.

A bracket is opened by checks, holds the readings that follow, and is closed by checks. Readings
that follow a closing check without a new opening one are opened by that closing check: what it
showed is the last that is known of the instrument.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from enum import StrEnum

from benchlog.errors import OurFault
from benchlog.measure.check import Check, CheckMoment, GroupCorrection
from benchlog.measure.checking import active_corrections, result_of
from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading, standing
from benchlog.measure.units import same_dimension


class BracketState(StrEnum):
    """How a bracket of readings stands, in the words that are printed."""

    OPEN = "open"
    PASSED = "closed and passed"
    OPENING_FAILED = "opening failed"
    CLOSING_FAILED = "closing failed"
    NOT_CHECKED = "not checked"


@dataclass(frozen=True)
class Bracket:
    """The standing readings of one instrument between its checks.

    `openings` and `closings` are the checks at its ends, in log order: a zero and a check
    weight, say. Of opening checks that were repeated before any reading the last one of each
    standard counts, since the instrument may have been set in between; a closing check that
    failed is not made good by a second one. `failed` are those that failed, closing ones first:
    the first is the one that a correction goes by. `in_doubt` are the ids of readings that no
    correction for one of them has dealt with yet.
    """

    instrument_id: str
    openings: tuple[Check, ...]
    closings: tuple[Check, ...]
    readings: tuple[Reading, ...]
    state: BracketState
    failed: tuple[Check, ...] = ()
    in_doubt: frozenset[str] = frozenset()

    @property
    def opening(self) -> Check | None:
        """The opening check to show: the first that failed, else the last."""
        return _shown(self.openings, self.failed)

    @property
    def closing(self) -> Check | None:
        """The closing check to show: the first that failed, else the last."""
        return _shown(self.closings, self.failed)


@dataclass
class _Draft:
    """A bracket while it is being gathered."""

    openings: list[Check] = field(default_factory=list)
    readings: list[Reading] = field(default_factory=list)
    closings: list[Check] = field(default_factory=list)


def brackets(
    readings: Iterable[Reading],
    checks: Iterable[Check],
    corrections: Iterable[GroupCorrection],
    instruments: Iterable[Instrument],
) -> tuple[Bracket, ...]:
    """Return the brackets of every instrument with checks or numbers, each in log order.

    `readings` and `checks` are a line-up's, all of them, in log order. A reading that supersedes
    another stands in the other's place, since it tells of the same look at the part. Raises
    OurFault for a check that follows a reading that is not there.
    """
    every, made = list(readings), list(checks)
    active = {one.id: one.check_id for one in active_corrections(corrections)}
    log = _Log(every)
    found: list[Bracket] = []
    for instrument in instruments:
        taken = [r for r in standing(every) if is_touched(r, instrument)]
        own = [check for check in made if check.instrument_id == instrument.id]
        for draft in _drafts(log.in_order(taken, own)):
            found.append(_bracket(instrument, draft, log, active))
    return tuple(found)


def is_touched(reading: Reading, instrument: Instrument) -> bool:
    """Whether an error of the instrument goes into a reading: taken with it, in its dimension."""
    if reading.instrument_id != instrument.id:
        return False
    return reading.said is None or same_dimension(reading.said.unit, instrument.unit)


class _Log:
    """The readings of a line-up by id, by place, and by what they supersede."""

    def __init__(self, readings: list[Reading]) -> None:
        self._by_id = {reading.id: reading for reading in readings}
        self._place = {reading.id: place for place, reading in enumerate(readings, 1)}

    def chain(self, reading: Reading) -> Iterator[Reading]:
        """Yield the reading and all that it supersedes, back to the first."""
        one: Reading | None = reading
        while one is not None:
            yield one
            one = self._by_id.get(one.supersedes or "")

    def in_order(self, readings: list[Reading], checks: list[Check]) -> list[Reading | Check]:
        """Return both by their place in the log; a check stands behind the reading it names."""
        placed: list[tuple[int, int, int, Reading | Check]] = []
        for number, reading in enumerate(readings):
            first = list(self.chain(reading))[-1]
            placed.append((self._place[first.id], 0, number, reading))
        for number, check in enumerate(checks):
            if check.after and check.after not in self._place:
                raise OurFault(f"check {check.id} follows reading {check.after}, which is not here")
            placed.append((self._place.get(check.after, 0), 1, number, check))
        return [one for *_, one in sorted(placed, key=lambda entry: entry[:3])]


def _drafts(log: list[Reading | Check]) -> list[_Draft]:
    drafts: list[_Draft] = []
    now = _Draft()
    for one in log:
        if isinstance(one, Reading):
            if now.closings:
                drafts.append(now)
                now = _Draft(openings=list(now.closings))
            now.readings.append(one)
        elif one.moment is CheckMoment.CLOSING:
            now.closings.append(one)
        else:
            if now.readings or now.closings:
                drafts.append(now)
                now = _Draft()
            now.openings.append(one)
    if now.openings or now.readings or now.closings:
        drafts.append(now)
    return drafts


def _bracket(instrument: Instrument, draft: _Draft, log: _Log, active: dict[str, str]) -> Bracket:
    latest = {(c.known, c.standard): c for c in draft.openings if c.moment is CheckMoment.OPENING}
    carried = [c for c in draft.openings if c.moment is CheckMoment.CLOSING]
    bad_ends = [c for c in draft.closings if not result_of(c, instrument).passed]
    bad_starts = [c for c in (*carried, *latest.values()) if not result_of(c, instrument).passed]
    failed = (*bad_ends, *bad_starts)
    return Bracket(
        instrument.id,
        tuple(draft.openings),
        tuple(draft.closings),
        tuple(draft.readings),
        _state(draft, bad_starts, bad_ends),
        failed,
        frozenset(r.id for r in draft.readings if not _dealt_with(r, log, active, failed)),
    )


def _state(draft: _Draft, bad_starts: list[Check], bad_ends: list[Check]) -> BracketState:
    if bad_ends:
        return BracketState.CLOSING_FAILED
    if bad_starts:
        return BracketState.OPENING_FAILED
    if draft.closings:
        return BracketState.PASSED
    return BracketState.OPEN if draft.openings else BracketState.NOT_CHECKED


def _dealt_with(
    reading: Reading, log: _Log, active: dict[str, str], failed: tuple[Check, ...]
) -> bool:
    """Whether nothing failed, or a correction for what failed is in the reading's past."""
    if not failed or reading.said is None:
        return True
    against = {check.id for check in failed}
    return any(active.get(one.group) in against for one in log.chain(reading))


def _shown(checks: tuple[Check, ...], failed: tuple[Check, ...]) -> Check | None:
    return next((c for c in checks if c in failed), checks[-1] if checks else None)
