"""Subtitles and markers of the numbers: each appears when it was read."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.measure.reading import Reading, standing
from benchlog.measure.rounding import with_symbol
from benchlog.tasks.footage import Timeline
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import label_of

SHOWN_S = 4.0
SHORTEST_S = 1.0
CORRECTED = " (corrected later)"


@dataclass(frozen=True)
class Subtitle:
    """One line shown from `start_s` to `end_s` of the finished video."""

    start_s: float
    end_s: float
    text: str


@dataclass(frozen=True)
class Marker:
    """One marked second of the finished video, for the editor."""

    seconds: float
    name: str
    note: str = ""


def subtitles_of(record: Record, timeline: Timeline) -> tuple[Subtitle, ...]:
    """Return one line for each standing reading that is shown, in the order of the video.

    A line stays 4 s, less when the next one comes sooner, yet never less than 1 s. What was
    corrected afterwards shows the corrected value, at the moment at which it was first read.
    """
    lines = sorted(_lines(record, timeline), key=lambda one: one[0])
    found = []
    for place, (start, text) in enumerate(lines):
        following = lines[place + 1][0] if place + 1 < len(lines) else start + SHOWN_S
        end = max(min(start + SHOWN_S, following), start + SHORTEST_S)
        found.append(Subtitle(start, end, text))
    return tuple(found)


def markers_of(record: Record, timeline: Timeline) -> tuple[Marker, ...]:
    """Return a marker for each number that is shown and each flagged moment, in video order."""
    found = [Marker(start, text) for start, text in _lines(record, timeline)]
    for moment in record.moments:
        session = timeline.session_of(moment.at, moment.session_s)
        seconds = None if session is None else timeline.shown(session, moment.session_s)
        if seconds is not None:
            found.append(Marker(seconds, moment.label or "Flagged", "flagged at the bench"))
    return tuple(sorted(found, key=lambda marker: marker.seconds))


def reading_line(record: Record, reading: Reading) -> str:
    """Return what is shown of a reading: "Amber · Whole weight: 287.4 g"."""
    names = {s.id: s.nickname for s in record.lineup.specimens}
    label = label_of(record, reading.attribute)
    value = value_said(record, reading)
    return " ".join(f"{names.get(reading.specimen_id, '')} · {label}: {value}".split())


def value_said(record: Record, reading: Reading) -> str:
    """Return a reading's value as it was said, a choice's label, or the word for its state."""
    said = reading.said
    if said is not None:
        number = f"{said.low} to {said.high}" if said.low is not None else f"{said.value}"
        about = "about " if said.approximate else ""
        return about + with_symbol(number, said.unit).replace("money", "").rstrip()
    if reading.word is None:
        return reading.state.value
    choices = (
        choice
        for attribute in record.sequence.attributes
        if attribute.key == reading.attribute
        for choice in attribute.choices
    )
    return next((c.label for c in choices if c.key == reading.word), reading.word)


def _lines(record: Record, timeline: Timeline) -> list[tuple[float, str]]:
    every = {reading.id: reading for reading in record.readings}
    found = []
    for reading in standing(list(record.readings)):
        seen, corrected = reading, ""
        while timeline.session_of(seen.at, seen.session_s) is None and seen.supersedes in every:
            seen, corrected = every[seen.supersedes], CORRECTED
        session = timeline.session_of(seen.at, seen.session_s)
        seconds = None if session is None else timeline.shown(session, seen.session_s)
        if seconds is not None:
            found.append((seconds, reading_line(record, reading) + corrected))
    return found
