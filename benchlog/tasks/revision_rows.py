"""The list of what was published of a line-up, and what changed from one to the next."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.tasks.ports import Shelf
from benchlog.tasks.publications import changes_between_revisions
from benchlog.tasks.publish_revision import changes_of
from benchlog.tasks.record import Record
from benchlog.tasks.revision import DRAFT, status_of

DIGEST_SHOWN = 12
FIRST = "This is the first revision: there is nothing before it."
SAME = "Nothing in the record differs from the revision before."


@dataclass(frozen=True)
class RevisionRow:
    """One line of the list; `draft` for what is not published yet, which has no files."""

    revision: int
    date: str
    status: str
    reason: str
    digest: str
    files: str
    draft: bool = False


def revision_rows(shelf: Shelf, record: Record) -> tuple[RevisionRow, ...]:
    """Return every revision of a record's line-up, newest first, a draft before them."""
    every = shelf.publications(record.lineup.id)
    rows = [
        RevisionRow(
            one.revision,
            f"{one.at.astimezone():%Y-%m-%d %H:%M}",
            status_of(one, every),
            one.reason,
            one.digest[:DIGEST_SHOWN],
            f"{len(one.outputs)} files, {sum(o.bytes for o in one.outputs) / 1e6:.1f} MB",
        )
        for one in reversed(every)
    ]
    if record.draft:
        rows.insert(
            0,
            RevisionRow(record.revision, "", DRAFT, "", record.digest[:DIGEST_SHOWN], "", True),
        )
    return tuple(rows)


def what_changed(shelf: Shelf, record: Record, row: RevisionRow) -> tuple[str, tuple[str, ...]]:
    """Return a heading and a sentence for each change from the revision before this one."""
    number = row.revision
    if number == 1:
        return FIRST, ()
    if row.draft:
        found = changes_of(shelf, record)
    else:
        found = changes_between_revisions(shelf, record.lineup.id, number - 1, number)
    if not found:
        return SAME, ()
    to = f"the draft of revision {number}" if row.draft else f"revision {number}"
    count = "1 change" if len(found) == 1 else f"{len(found)} changes"
    head = f"{count} from revision {number - 1} to {to}"
    return head, tuple(change.sentence for change in found)
