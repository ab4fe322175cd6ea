"""When the clip of each opening of the bench starts, as it is typed and shown."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from benchlog.errors import PlanRefused, PublishRefused
from benchlog.tasks.footage import Anchor, Footage, Session, sessions_of, timeline_of
from benchlog.tasks.record import Record

START, LATER_CLIP, LATER_TIME = "start", "later_clip", "later_time"
LENGTH, KEPT = "length", "kept"
_DAY_TIME = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?")
_CLIP_TIME = re.compile(r"(?:(?:(\d+):)?(\d+):)?(\d+(?:[.,]\d+)?)")


@dataclass(frozen=True)
class FlaggedAt:
    """A flagged moment of an opening: its words and its time of day, as it would be typed."""

    words: str
    time: str


@dataclass(frozen=True)
class Opening:
    """One opening of the bench, in words, with what was flagged in it."""

    words: str
    session: Session
    moments: tuple[FlaggedAt, ...]


@dataclass(frozen=True)
class TypedStart:
    """As typed: the time of day at 0:00 of the clip, "" for the first reading's.

    A second moment is known by its second in the clip and its time of day; "" for none. `length`
    is the clip's, "" while it is not known.
    """

    start: str = ""
    later_clip: str = ""
    later_time: str = ""
    length: str = ""


def openings_of(record: Record) -> tuple[Opening, ...]:
    """Return the openings of the bench at which something was recorded, oldest first."""
    sessions = sessions_of(record)
    timeline = timeline_of(record)
    return tuple(
        Opening(
            f"{_local(one, one.first_s):%Y-%m-%d, %H:%M} to {_local(one, one.last_s):%H:%M}",
            one,
            tuple(
                FlaggedAt(
                    f"{_day_time(one, moment.session_s)[:8]} {moment.label or 'flagged'}",
                    _day_time(one, moment.session_s),
                )
                for moment in record.moments
                if timeline.session_of(moment.at, moment.session_s) == place
            ),
        )
        for place, one in enumerate(sessions)
    )


def typed_start(session: Session, footage: Footage) -> TypedStart:
    """Return what is known of a clip, as it would be typed."""
    length = "" if footage.length_s is None else clip_time(footage.length_s)
    if not footage.anchors:
        return TypedStart(length=length)
    first, *more = footage.anchors
    start = _day_time(session, first.session_s - first.clip_s)
    if not more:
        return TypedStart(start, length=length)
    later = clip_time(more[0].clip_s), _day_time(session, more[0].session_s)
    return TypedStart(start, *later, length)


def understood_start(session: Session, typed: TypedStart) -> Footage:
    """Return the clip as typed; raises PlanRefused, naming the field, for what cannot be read."""
    start, clip, time = (
        " ".join(t.split()) for t in (typed.start, typed.later_clip, typed.later_time)
    )
    length = _length(typed.length)
    if not start:
        if clip or time:
            raise PlanRefused(
                "A second moment needs the clip's start first.",
                "Type the time of day at 0:00 of the clip.",
                field=START,
            )
        return Footage(length_s=length)
    first = Anchor(_session_s(session, start, START), 0.0)
    if not clip and not time:
        return Footage((first,), length)
    later = Anchor(_session_s(session, time, LATER_TIME), clip_seconds(clip, LATER_CLIP))
    return Footage((first, later), length)


def with_start(
    record: Record, footage: Iterable[Footage], place: int, typed: TypedStart
) -> tuple[Footage, ...]:
    """Return all clips, with that of one opening as typed.

    Raises PlanRefused, naming the field, for what cannot be read and for moments that cannot both
    be right.
    """
    sessions = sessions_of(record)
    clips = [*footage][: len(sessions)]
    clips += [Footage()] * (len(sessions) - len(clips))
    clips[place] = understood_start(sessions[place], typed)
    try:
        timeline_of(record, clips)
    except PublishRefused as refusal:
        raise PlanRefused(refusal.what, refusal.do, field=LATER_CLIP) from refusal
    return tuple(clips)


def _session_s(session: Session, text: str, field: str) -> float:
    """Return a time of day in session seconds, on the day that lies nearest to the session."""
    read = _DAY_TIME.fullmatch(text)
    if read is None or int(read[1]) > 23 or int(read[2]) > 59 or _number(read[3]) >= 60:
        raise PlanRefused(
            f"'{text}' is no time of day." if text else "The time of day is missing.",
            "Type it as 14:05 or 14:05:30.5.",
            field=field,
        )
    middle = _local(session, (session.first_s + session.last_s) / 2)
    at = middle.replace(
        hour=int(read[1]), minute=int(read[2]), second=0, microsecond=0
    ) + timedelta(seconds=_number(read[3]))
    days = (at + timedelta(days=n) for n in (-1, 0, 1))
    nearest = min(days, key=lambda one: abs(one - middle))
    return (nearest - session.began).total_seconds()


def _length(text: str) -> float | None:
    typed = " ".join(text.split())
    if not typed:
        return None
    length = clip_seconds(typed, LENGTH)
    if length <= 0:
        raise PlanRefused(
            "A clip of no length shows nothing.", "Leave it empty if not known.", field=LENGTH
        )
    return length


def clip_seconds(text: str, field: str) -> float:
    """Return a place in a clip, such as 1:02:03.5, in seconds.

    Raises PlanRefused, naming the field, for what cannot be read.
    """
    read = _CLIP_TIME.fullmatch(text)
    if read is None:
        raise PlanRefused(
            f"'{text}' is no place in the clip." if text else "The place in the clip is missing.",
            "Type it as 12:34 or 1:02:03.5.",
            field=field,
        )
    return 3600 * _number(read[1]) + 60 * _number(read[2]) + _number(read[3])


def _number(text: str | None) -> float:
    return float((text or "0").replace(",", "."))


def _local(session: Session, session_s: float) -> datetime:
    return (session.began + timedelta(seconds=session_s)).astimezone()


def _day_time(session: Session, session_s: float) -> str:
    """Return a second of a session as time of day, to the hundredth."""
    at = _local(session, session_s) + timedelta(milliseconds=5)
    return f"{at:%H:%M:%S}.{at.microsecond // 10_000:02d}"


def clip_time(seconds: float) -> str:
    """Return seconds of a clip as they would be typed: "12:34.50"."""
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(int(minutes), 60)
    tail = f"{rest:05.2f}"
    return f"{hours}:{minutes:02}:{tail}" if hours else f"{minutes}:{tail}"
