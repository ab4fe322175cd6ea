"""The entry that takes a reading back: it stays in the log and puts nothing in its place."""

from __future__ import annotations

from dataclasses import replace

from benchlog.measure.reading import Reading, Source
from benchlog.measure.state import State
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock


def withdrawal_of(
    reading: Reading, clock: Clock, reason: str, session_s: float, text: str = "taken back"
) -> Reading:
    """Return the entry that takes a reading back now, with `text` in the place of what was said."""
    return replace(
        reading,
        id=new_id(),
        at=clock.now(),
        session_s=session_s,
        source=Source.TYPED,
        state=State.NOT_MEASURED,
        text=text,
        said=None,
        word=None,
        si_value=None,
        si_low=None,
        si_high=None,
        si_unit="",
        raw=None,
        reason=reason,
        supersedes=reading.id,
        withdrawn=True,
    )
