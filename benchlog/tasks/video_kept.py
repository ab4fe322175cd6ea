"""Which ranges of the uncut footage the finished video shows, as they are typed and shown."""

from __future__ import annotations

import re
from collections.abc import Iterable

from benchlog.errors import PlanRefused, PublishRefused
from benchlog.tasks.footage import Footage, Kept, timeline_of
from benchlog.tasks.record import Record
from benchlog.tasks.video_start import KEPT, clip_seconds, clip_time

_BETWEEN = re.compile(r"[,;\n]+")
_TO = re.compile(r"\s*(?:-|–|\bto\b)\s*")


def typed_kept(kept: Iterable[Kept]) -> str:
    """Return kept ranges as they would be typed: "0:00.00-12:30.00, 14:00.00-20:00.00"."""
    return ", ".join(f"{clip_time(one.start_s)}-{clip_time(one.end_s)}" for one in kept)


def understood_kept(text: str) -> tuple[Kept, ...]:
    """Return the ranges that a text names, in its order; none for an empty one.

    Raises PlanRefused, naming the field, for what is no range.
    """
    found = []
    for typed in filter(None, (part.strip() for part in _BETWEEN.split(text))):
        ends = _TO.split(typed)
        if len(ends) != 2:
            raise PlanRefused(
                f"'{typed}' is no range of the footage.",
                "Type where it begins and ends: 0:30-12:00, 14:10-20:00.",
                field=KEPT,
            )
        found.append(Kept(*(clip_seconds(end, KEPT) for end in ends)))
    return tuple(found)


def with_kept(record: Record, footage: Iterable[Footage], text: str) -> tuple[Kept, ...]:
    """Return the ranges as typed; raises PlanRefused for those that the footage cannot have."""
    kept = understood_kept(text)
    try:
        timeline_of(record, footage, kept)
    except PublishRefused as refusal:
        raise PlanRefused(refusal.what, refusal.do, field=KEPT) from refusal
    return kept
