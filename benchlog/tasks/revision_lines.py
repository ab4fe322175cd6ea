"""What each further revision corrected, as lines for the sheet and the list of revisions."""

from __future__ import annotations

from collections.abc import Sequence

from benchlog.tasks.frozen_record import thawed
from benchlog.tasks.ports import Shelf
from benchlog.tasks.publication import Publication

MOST_CHANGES = 3


def published_lines(shelf: Shelf, published: Sequence[Publication], newest: int) -> tuple[str, ...]:
    """Return a line for each further revision up to `newest`; they keep the words they had then.

    One that was made for nothing but the reviewer's wishes has none: it corrected nothing.
    """
    lines = []
    for one in published:
        if 1 < one.revision <= newest:
            told = thawed(shelf.published_record(one.lineup_id, one.revision))
            chosen = told.get("chosen", [])
            changes = [change for change in told["changes"] if change not in chosen]
            if changes or not chosen:
                lines.append(revision_line(one.revision, one.reason, changes))
    return tuple(lines)


def revision_line(revision: int, reason: str, changes: Sequence[str]) -> str:
    """Return "Revision 2: misread. Amber · strip length: 1204 mm → 1240 mm, because misread; …".

    The first changes are told, which are those of readings, and how many more there are.
    """
    told = "; ".join(changes[:MOST_CHANGES])
    if (more := len(changes) - MOST_CHANGES) > 0:
        told += f"; and {more} more that follow or were made with them"
    head = f"Revision {revision}: {reason.rstrip('.')}" if reason else f"Revision {revision}"
    return ". ".join(filter(None, (head, told))) + "."
