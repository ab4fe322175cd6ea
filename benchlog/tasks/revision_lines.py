"""What each revision corrected, as lines for the sheet, the cards and the list of revisions."""

from __future__ import annotations

from benchlog.tasks.changed import Change, ReadingChange
from benchlog.tasks.frozen_record import thawed
from benchlog.tasks.ports import Shelf
from benchlog.tasks.publication import Publication
from benchlog.tasks.publish_revision import changes_of
from benchlog.tasks.record import Record

MOST_CHANGES = 3


def revision_lines(shelf: Shelf, record: Record) -> tuple[str, ...]:
    """Return a line for each revision after the first, up to the record's own; oldest first.

    Each gives number, date, reason and what changed: "Revision 2 (2026-05-04): digits swapped.
    Amber · strip length: 1204 mm → 1240 mm". What was published keeps the words that it had
    then; a record that is not published yet is held against the last revision. None while there
    is only a first.
    """
    published = [p for p in shelf.publications(record.lineup.id) if p.revision < record.revision]
    lines = [_published_line(shelf, one) for one in published if one.revision > 1]
    if record.revision > 1:
        own = _own(shelf, record)
        lines.append(_published_line(shelf, own) if own is not None else _new_line(shelf, record))
    return tuple(lines)


def latest_corrections(shelf: Shelf, record: Record) -> tuple[Change, ...]:
    """Return the readings that the record's own revision corrects, for the correction card."""
    return tuple(c for c in changes_of(shelf, record) if isinstance(c, ReadingChange))


def _own(shelf: Shelf, record: Record) -> Publication | None:
    published = shelf.publications(record.lineup.id)
    return next((p for p in published if p.revision == record.revision), None)


def _published_line(shelf: Shelf, one: Publication) -> str:
    frozen = thawed(shelf.published_record(one.lineup_id, one.revision))
    return _line(f"Revision {one.revision} ({one.at:%Y-%m-%d})", one.reason, frozen["changes"])


def _new_line(shelf: Shelf, record: Record) -> str:
    changes = [change.sentence for change in changes_of(shelf, record)]
    return _line(f"Revision {record.revision}", record.revision_reason, changes)


def _line(head: str, reason: str, changes: list[str]) -> str:
    told = "; ".join(changes[:MOST_CHANGES])
    if more := len(changes) - MOST_CHANGES:
        told += f"; and {more} more" if more > 0 else ""
    parts = (f"{head}: {reason.rstrip('.')}" if reason else head, told)
    return ". ".join(filter(None, parts)) + "."
