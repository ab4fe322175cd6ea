"""What was published of a line-up, as lists show it: revisions, files, and what changed between."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from benchlog.errors import PublishRefused
from benchlog.tasks.changed import Change, outputs_touched
from benchlog.tasks.changed_between import changed_between
from benchlog.tasks.digest import plain
from benchlog.tasks.frozen_record import thawed
from benchlog.tasks.ports import Shelf
from benchlog.tasks.publication import Publication
from benchlog.tasks.publish_revision import changes_of
from benchlog.tasks.record import Record
from benchlog.tasks.revision import status_of


def publication_of(shelf: Shelf, lineup_id: str, revision: int) -> Publication:
    """Return a revision of a line-up; raises PublishRefused, naming those that there are."""
    every = shelf.publications(lineup_id)
    for one in every:
        if one.revision == revision:
            return one
    if not every:
        raise PublishRefused("Nothing of this line-up was published.", "Publish it first.")
    there = f"are revisions 1 to {len(every)}" if len(every) > 1 else "is revision 1 alone"
    raise PublishRefused(f"There is no revision {revision}.", f"There {there}.")


def changes_between_revisions(
    shelf: Shelf, lineup_id: str, older: int, newer: int
) -> tuple[Change, ...]:
    """Return what changed from one published revision to another, by their frozen records.

    Raises PublishRefused for a revision that there is not.
    """
    return changed_between(
        *(
            thawed(shelf.published_record(lineup_id, publication_of(shelf, lineup_id, n).revision))
            for n in (older, newer)
        )
    )


def latest_changes(shelf: Shelf, record: Record) -> tuple[str, tuple[Change, ...]]:
    """Return what changed last, and between what, in words.

    That is from the last revision to the draft, or between the last two revisions when nothing
    changed since. Raises PublishRefused while there are no two to compare.
    """
    last = publication_of(shelf, record.lineup.id, max(1, record.revision - 1)).revision
    if record.revision == 1:
        raise PublishRefused(
            "Nothing changed since revision 1 was published.", "There is nothing to compare yet."
        )
    if not record.draft:
        found = changes_between_revisions(shelf, record.lineup.id, last, record.revision)
        return f"from revision {last} to {record.revision}", found
    to = f"the draft of revision {record.revision}"
    return f"from revision {last} to {to}", changes_of(shelf, record)


def told_publications(shelf: Shelf, lineup_id: str) -> list[dict[str, Any]]:
    """Return every revision in JSON's own kinds, the oldest first, with its changes in words."""
    every = shelf.publications(lineup_id)
    return [
        {
            **plain(one),
            "status": status_of(one, every),
            "changes": thawed(shelf.published_record(lineup_id, one.revision))["changes"],
        }
        for one in every
    ]


def told_changes(changes: Iterable[Change]) -> list[dict[str, Any]]:
    """Return changes in JSON's own kinds, each with its sentence and the outputs that show it."""
    return [
        {
            "kind": type(change).__name__,
            **plain(change),
            "sentence": change.sentence,
            "outputs": list(outputs_touched(change)),
        }
        for change in changes
    ]


def outputs_as_lines(publication: Publication) -> list[str]:
    """Return a revision's files for people: a line for each kind, with its one file or how many."""
    by_kind: dict[str, list[str]] = {}
    for output in publication.outputs:
        by_kind.setdefault(output.kind, []).append(output.name)
    return [
        f"{kind + ':':<13} {names[0] if len(names) == 1 else f'{len(names)} files'}"
        for kind, names in by_kind.items()
    ]


def revisions_as_lines(shelf: Shelf, record: Record) -> list[str]:
    """Return the list of revisions for people, the oldest first, and whether there is a draft."""
    every = shelf.publications(record.lineup.id)
    lines = []
    for one in every:
        size = sum(output.bytes for output in one.outputs)
        lines.append(
            f"{one.revision:3d}  {one.at:%Y-%m-%d %H:%M}  {one.digest[:12]}  "
            f"{len(one.outputs)} files, {size / 1e6:.1f} MB  {status_of(one, every)}"
            f"{f'  ({one.reason})' if one.reason else ''}"
        )
    if record.draft:
        lines.append(f"{record.revision:3d}  draft, not published  {record.digest[:12]}")
    return lines
