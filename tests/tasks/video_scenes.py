"""The sample record with its readings spread over a session, or two, as a camera would see them."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from benchlog.measure.reading import Reading
from benchlog.tasks.ports import Moment
from benchlog.tasks.record import Record
from tests.tasks.sample_records import sample_record

START = datetime(2026, 3, 7, 9, 0, tzinfo=UTC)
STEP_S = 15.0
FIRST_S = 5.0


def filmed(count: int = 60, step_s: float = STEP_S, pause_after: int | None = None) -> Record:
    """Return a record of the first readings, one each `step_s`, and one flagged moment.

    The bench is opened a second time, a day later, after `pause_after` readings.
    """
    record = sample_record()
    readings = [r for r in record.readings if not r.supersedes and not r.group][:count]
    placed = tuple(_at(r, place, step_s, pause_after) for place, r in enumerate(readings))
    seconds = FIRST_S + step_s / 2
    moment = Moment("m-1", record.lineup.id, START + timedelta(seconds=seconds), seconds, "Look")
    return replace(record, readings=placed, moments=(moment,), checks=(), corrections=())


def _at(reading: Reading, place: int, step_s: float, pause_after: int | None) -> Reading:
    opened, number = START, place
    if pause_after is not None and place >= pause_after:
        opened, number = START + timedelta(days=1), place - pause_after
    seconds = FIRST_S + number * step_s
    return replace(reading, at=opened + timedelta(seconds=seconds), session_s=seconds)
