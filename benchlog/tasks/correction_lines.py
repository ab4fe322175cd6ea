"""The log of corrections as it is published: date, reading, old and new value, reason."""

from __future__ import annotations

from benchlog.measure.check import Remedy
from benchlog.measure.reading import Reading
from benchlog.measure.rounding import MINUS
from benchlog.tasks.checks_view import shift_words
from benchlog.tasks.record import Record
from benchlog.tasks.subtitles import reading_line, value_said


def correction_lines(record: Record) -> tuple[str, ...]:
    """Return a sentence for each correction, oldest first; none when nothing was corrected.

    A scratch, or putting one back, is none. The correction of a group is one, however many
    readings it holds.
    """
    every = {reading.id: reading for reading in record.readings}
    withdrawals = {r.id for r in record.readings if r.withdrawn}
    told: list[str] = []
    groups: set[str] = set()
    for reading in record.readings:
        old = every.get(reading.supersedes or "")
        if old is None or reading.withdrawn or reading.supersedes in withdrawals:
            continue
        if not reading.group:
            told.append(_single(record, old, reading))
        elif reading.group not in groups:
            groups.add(reading.group)
            told.append(_group(record, reading.group))
    return tuple(told)


def _single(record: Record, old: Reading, new: Reading) -> str:
    line = f"{reading_line(record, old)} → {value_said(record, new)}"
    return f"{new.at:%Y-%m-%d}: {line}. {_reason(new.reason)}".strip()


def _group(record: Record, group: str) -> str:
    made = next((c for c in record.corrections if c.id == group), None)
    count = sum(r.group == group for r in record.readings)
    readings = "1 reading" if count == 1 else f"{count} readings"
    if made is None:
        return f"{readings} corrected together."
    tool = next((i for i in record.instruments if i.id == made.instrument_id), None)
    name = tool.name if tool else "an instrument"
    if made.takes_back:
        what = "an earlier correction taken back"
    elif made.remedy is Remedy.SHIFT:
        shift = shift_words(made.shift, tool) if tool else f"{made.shift:+g}".replace("-", MINUS)
        what = f"shifted by {shift}"
    else:
        what = "marked as spoiled"
    return f"{made.at:%Y-%m-%d}: {readings} with {name}: {what}. {_reason(made.reason)}".strip()


def _reason(reason: str) -> str:
    line = " ".join(reason.split())
    return f"Reason: {line.rstrip('.')}." if line else ""
