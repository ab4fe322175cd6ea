"""Chapters of the video: when each station's first reading is shown.

Video platforms commonly want the first chapter at 0:00, three or more of them in ascending order,
each at least 10 s long, with short titles (common practice; trade press).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from benchlog.tasks.footage import Timeline
from benchlog.tasks.record import Record

SHORTEST_S = 10.0
LONGEST_TITLE = 49
FEWEST = 3
ELLIPSIS = "…"
BEFORE = "Before the first reading"


@dataclass(frozen=True)
class Chapter:
    """One chapter: the second at which it begins, and its title."""

    seconds: float
    title: str


def chapters_of(record: Record, timeline: Timeline) -> tuple[Chapter, ...]:
    """Return the chapters of the finished video; none when nothing was read at the bench.

    Stations whose first reading was cut away begin with the next second that is shown. Chapters
    that would last less than 10 s are merged with the one before.
    """
    starts = sorted(_starts(record, timeline), key=lambda one: one[0])
    merged: list[tuple[float, list[str]]] = []
    if starts and starts[0][0] >= SHORTEST_S:
        merged.append((0.0, [BEFORE]))
    for seconds, title in starts:
        if not merged:
            merged.append((0.0, [title]))
        elif seconds - merged[-1][0] < SHORTEST_S:
            merged[-1][1].append(title)
        else:
            merged.append((seconds, [title]))
    if len(merged) > 1 and timeline.length_s - merged[-1][0] < SHORTEST_S:
        _, titles = merged.pop()
        merged[-1][1].extend(titles)
    return tuple(Chapter(seconds, joined(titles)) for seconds, titles in merged)


def chapter_lines(chapters: Iterable[Chapter]) -> str:
    """Return the list as it is pasted into a description: "0:00 Outside", one on a line."""
    return "\n".join(f"{stamp(one.seconds)} {one.title}" for one in chapters)


def chapter_notes(chapters: tuple[Chapter, ...]) -> tuple[str, ...]:
    """Return what the reviewer should know of the list, in sentences; none when all is well."""
    if 0 < len(chapters) < FEWEST:
        count = "Only one chapter" if len(chapters) == 1 else f"Only {len(chapters)} chapters"
        return (f"{count}: video platforms commonly show none when there are fewer than three.",)
    return () if chapters else ("Nothing was read at the bench, so there are no chapters.",)


def stamp(seconds: float) -> str:
    """Return whole seconds as 0:00 or 1:02:03; a chapter never begins before its reading."""
    minutes, rest = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"


def joined(titles: list[str]) -> str:
    """Return several titles as one of at most 49 characters."""
    titles = list(dict.fromkeys(" ".join(title.split()) for title in titles))
    whole = ", ".join(titles)
    if len(whole) <= LONGEST_TITLE:
        return whole
    more = f" and {len(titles) - 1} more" if len(titles) > 1 else ""
    room = LONGEST_TITLE - len(more)
    first = titles[0]
    if len(first) > room:
        first = first[: room - 1].rstrip() + ELLIPSIS
    return first + more


def _starts(record: Record, timeline: Timeline) -> list[tuple[float, str]]:
    """Return when each station begins; one taken up again in a later session is continued."""
    stations = {a.key: record.sequence.station(a.station) for a in record.sequence.attributes}
    found: list[tuple[float, str]] = []
    begun: set[str] = set()
    opened: set[int] = set()
    for reading in sorted(record.readings, key=lambda r: r.at):
        session = timeline.session_of(reading.at, reading.session_s)
        station = stations.get(reading.attribute)
        if session is None or station is None or reading.withdrawn:
            continue
        anew = session not in opened
        if station.key in begun and not anew:
            continue
        seconds = timeline.shown_from(session, reading.session_s)
        if seconds is None:
            continue
        label = station.label or station.key
        again = station.key in begun
        found.append((seconds, f"{label}, continued" if again else label))
        begun.add(station.key)
        opened.add(session)
    return found
