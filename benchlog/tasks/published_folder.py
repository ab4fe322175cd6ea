"""Where the files of a revision are put for the reviewer, beside those kept on the shelf."""

from __future__ import annotations

import hashlib
from itertools import chain, count
from pathlib import Path

from benchlog.tasks.ports import Shelf
from benchlog.tasks.publication import Publication
from benchlog.tasks.publications import publication_of
from benchlog.tasks.publish import plain_name
from benchlog.tasks.publish_revision import hand_out
from benchlog.trade.specimen import Lineup


def revision_folder(base: Path, lineup: Lineup, revision: int) -> Path:
    """Return a folder for a revision's files that has nothing in it yet; it may not exist."""
    stem = base / plain_name(lineup) / f"revision-{revision}"
    numbered = (stem.with_name(f"{stem.name}-{number}") for number in count(2))
    return next(place for place in chain((stem,), numbered) if _is_free(place))


def files_of(shelf: Shelf, lineup: Lineup, revision: int, base: Path) -> Path:
    """Return a folder with the files of a revision, just as they were published.

    One that holds them already is taken again. Raises PublishRefused and ShelfDamaged as
    `hand_out` does.
    """
    publication = publication_of(shelf, lineup.id, revision)
    place = base / plain_name(lineup) / f"revision-{revision}"
    if not _holds(place, publication):
        place = revision_folder(base, lineup, revision)
        hand_out(shelf, publication, place)
    return place


def _is_free(place: Path) -> bool:
    return not place.exists() or (place.is_dir() and not any(place.iterdir()))


def _holds(place: Path, publication: Publication) -> bool:
    for output in publication.outputs:
        try:
            with (place / output.name).open("rb") as file:
                if hashlib.file_digest(file, "sha256").hexdigest() != output.sha256:
                    return False
        except OSError:
            return False
    return True
