"""From the bench's clock to the seconds of a video: sessions, anchors, and what was kept of it.

The session clock begins anew whenever the bench is opened. Wall time less session time is when
that was, so entries for which it agrees belong to one session. The footage of the sessions is laid
end to end; what the editor kept of that is a list of ranges, in the order of the finished video.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise

from benchlog.errors import PublishRefused
from benchlog.tasks.record import Record

SAME_OPENING = timedelta(seconds=60)
"""Two entries whose sessions began within this belong to one: wall clocks are set now and then."""

LARGEST_DRIFT = 0.05
"""A camera that runs further off than this is an anchor mistaken. Common practice, no source."""

AFTER_LAST_S = 10.0
"""So long the footage is taken to go on after the last entry, where its length is not given."""


@dataclass(frozen=True)
class Session:
    """One opening of the bench: when it began, and its first and last entry in session seconds."""

    began: datetime
    first_s: float
    last_s: float


@dataclass(frozen=True)
class Anchor:
    """One moment known on both clocks, by a flash and a beep: session seconds and clip seconds."""

    session_s: float
    clip_s: float


@dataclass(frozen=True)
class Footage:
    """The clip of one session.

    With no anchor the clip begins with the session's first entry; one anchor sets its beginning,
    two also how fast the camera's clock runs. `length_s` is the clip's, None when not known.
    """

    anchors: tuple[Anchor, ...] = ()
    length_s: float | None = None


@dataclass(frozen=True)
class Kept:
    """A range of the uncut footage, in its seconds, that the finished video shows."""

    start_s: float
    end_s: float


@dataclass(frozen=True)
class Clip:
    """One session's footage on the uncut timeline: uncut = offset + shift + rate × session."""

    session: Session
    offset_s: float
    shift_s: float
    rate: float
    length_s: float


@dataclass(frozen=True)
class Timeline:
    """The finished video's clock."""

    clips: tuple[Clip, ...]
    kept: tuple[Kept, ...] = ()

    @property
    def length_s(self) -> float:
        """The length of the finished video."""
        if self.kept:
            return sum(part.end_s - part.start_s for part in self.kept)
        return sum(clip.length_s for clip in self.clips)

    def session_of(self, at: datetime, session_s: float) -> int | None:
        """Return which session an entry belongs to, None for one that was not made at the bench."""
        return _session_at([clip.session for clip in self.clips], at, session_s)

    def uncut(self, session: int, session_s: float) -> float | None:
        """Return the second of the uncut footage, None where the camera did not run."""
        clip = self.clips[session]
        seconds = clip.shift_s + clip.rate * session_s
        # What floats lose must not push the very first entry out of the picture.
        if not -1e-6 <= seconds <= clip.length_s:
            return None
        return clip.offset_s + max(seconds, 0.0)

    def shown(self, session: int, session_s: float) -> float | None:
        """Return the second of the finished video, None where it was cut away or not filmed."""
        uncut = self.uncut(session, session_s)
        if uncut is None or not self.kept:
            return uncut
        before = 0.0
        for part in self.kept:
            if part.start_s <= uncut < part.end_s:
                return before + uncut - part.start_s
            before += part.end_s - part.start_s
        return None

    def shown_from(self, session: int, session_s: float) -> float | None:
        """Return the first second shown at or after that of the footage, None when there is none.

        What began before the camera ran, begins with the clip.
        """
        clip = self.clips[session]
        seconds = min(max(clip.shift_s + clip.rate * session_s, 0.0), clip.length_s)
        uncut = clip.offset_s + seconds
        if not self.kept:
            return uncut
        starts, before = [], 0.0
        for part in self.kept:
            if part.start_s <= uncut < part.end_s:
                return before + uncut - part.start_s
            if part.start_s > uncut:
                starts.append((part.start_s, before))
            before += part.end_s - part.start_s
        return min(starts)[1] if starts else None


def sessions_of(record: Record) -> tuple[Session, ...]:
    """Return the openings of the bench at which something was recorded, oldest first.

    Corrections at the desk have no session time and belong to none.
    """
    found: list[Session] = []
    latest: int | None = None
    for reading in record.readings:
        if reading.session_s <= 0.0:
            continue
        # A clock that goes back means that the bench was closed and opened, however soon.
        at = _session_at(found, reading.at, reading.session_s)
        if at is not None and at == latest and reading.session_s < found[at].last_s:
            at = None
        latest = _entered(found, at, reading.at, reading.session_s)
    others = [(one.at, one.session_s) for one in record.moments]
    others += [(one.at, one.session_s) for one in record.checks]
    for when, session_s in sorted(one for one in others if one[1] > 0.0):
        _entered(found, _session_at(found, when, session_s), when, session_s)
    return tuple(sorted(found, key=lambda one: one.began))


def _entered(found: list[Session], number: int | None, at: datetime, session_s: float) -> int:
    """Widen a session by an entry, or begin one with it; return its place."""
    if number is None:
        found.append(Session(at - timedelta(seconds=session_s), session_s, session_s))
        return len(found) - 1
    one = found[number]
    first, last = min(one.first_s, session_s), max(one.last_s, session_s)
    found[number] = Session(one.began, first, last)
    return number


def timeline_of(
    record: Record, footage: Iterable[Footage] = (), kept: Iterable[Kept] = ()
) -> Timeline:
    """Return the finished video's clock.

    `footage` are the clips in the order of the sessions; those missing at the end have no anchors.
    Raises PublishRefused for more clips than sessions, for anchors that cannot both be right, for
    more than two, and for kept ranges that are empty, reach beyond the footage or overlap.
    """
    sessions, clips = sessions_of(record), list(footage)
    if len(clips) > len(sessions):
        raise PublishRefused(
            f"There are {len(clips)} clips and only {len(sessions)} openings of the bench.",
            "Give one clip for each.",
        )
    clips += [Footage()] * (len(sessions) - len(clips))
    laid: list[Clip] = []
    offset = 0.0
    for session, one in zip(sessions, clips, strict=True):
        shift, rate = _fitted(session, one)
        length = one.length_s
        if length is None:
            length = max(shift + rate * session.last_s, 0.0) + AFTER_LAST_S
        laid.append(Clip(session, offset, shift, rate, length))
        offset += length
    return Timeline(tuple(laid), _sound(tuple(kept), offset))


def _fitted(session: Session, footage: Footage) -> tuple[float, float]:
    """Return shift and rate of clip seconds over session seconds."""
    anchors = footage.anchors
    if len(anchors) > 2:
        raise PublishRefused("More than two anchors were given for one clip.", "Give two.")
    if not anchors:
        return -session.first_s, 1.0
    first = anchors[0]
    if len(anchors) == 1:
        return first.clip_s - first.session_s, 1.0
    bench = anchors[1].session_s - first.session_s
    clip = anchors[1].clip_s - first.clip_s
    rate = clip / bench if bench else 0.0
    if abs(rate - 1.0) > LARGEST_DRIFT:
        raise PublishRefused(
            f"Between the two anchors {bench:g} s passed at the bench and {clip:g} s in the clip.",
            "Look the anchors up again: one of them is not where the flash is.",
        )
    return first.clip_s - rate * first.session_s, rate


def _sound(kept: tuple[Kept, ...], length: float) -> tuple[Kept, ...]:
    for part in kept:
        if not 0.0 <= part.start_s < part.end_s:
            raise PublishRefused(
                f"The kept range {part.start_s:g} to {part.end_s:g} s is empty.",
                "Give each range its beginning first, then its end.",
            )
        if part.start_s >= length:
            raise PublishRefused(
                f"The kept range from {part.start_s:g} s begins after the footage ends, at"
                f" {length:g} s.",
                "Give the seconds of the uncut footage.",
            )
    ordered = sorted(kept, key=lambda part: part.start_s)
    for one, other in pairwise(ordered):
        if other.start_s < one.end_s:
            raise PublishRefused(
                f"The kept ranges from {one.start_s:g} and {other.start_s:g} s overlap.",
                "Give every second of the footage once.",
            )
    return kept


def _session_at(sessions: list[Session], at: datetime, session_s: float) -> int | None:
    """Return the session that an entry's clocks agree with best, None for an entry of none."""
    if session_s <= 0.0:
        return None
    began = at - timedelta(seconds=session_s)
    apart = [(abs(session.began - began), place) for place, session in enumerate(sessions)]
    near = [one for one in apart if one[0] <= SAME_OPENING]
    return min(near)[1] if near else None
