"""Which revision a record is: the published one, or the draft of the next."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from benchlog.tasks.publication import Publication
from benchlog.tasks.record import Record

DRAFT = "draft, not published"


@dataclass(frozen=True)
class Standing:
    """Where a record stands; fields as in `Record`."""

    revision: int
    draft: bool
    reason: str = ""


def revision_of(published: Iterable[Publication], digest: str) -> Standing:
    """Return where the record of that digest stands among what was published of its line-up.

    It is the last published revision while nothing differs from it, and else a draft of the next.
    """
    last = max(published, key=lambda one: one.revision, default=None)
    if last is None:
        return Standing(1, draft=True)
    if last.digest == digest:
        return Standing(last.revision, draft=False, reason=last.reason)
    return Standing(last.revision + 1, draft=True)


def placed(record: Record, published: Iterable[Publication]) -> Record:
    """Return the record with where it stands among what was published of its line-up."""
    standing = revision_of(published, record.digest)
    return replace(
        record,
        revision=standing.revision,
        draft=standing.draft,
        revision_reason=standing.reason,
    )


def revision_words(record: Record) -> str:
    """Return "revision 2", or that this is a draft."""
    return DRAFT if record.draft else f"revision {record.revision}"


def revision_told(record: Record) -> str:
    """Return "revision 2", or "draft of revision 2, not published"."""
    words = f"revision {record.revision}"
    return f"draft of {words}, not published" if record.draft else words


def status_of(publication: Publication, published: Iterable[Publication]) -> str:
    """Return "published", or "superseded by revision 3" with the number of the newest one."""
    newest = max((one.revision for one in published), default=publication.revision)
    if newest <= publication.revision:
        return "published"
    return f"superseded by revision {newest}"
