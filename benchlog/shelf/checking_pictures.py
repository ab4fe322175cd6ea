"""Looking over pictures through a microscope: set-ups, fields and answers that fit together."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from benchlog.measure.instrument import InstrumentKind
from benchlog.measure.micrograph import Micrograph
from benchlog.shelf.micrograph_shelf import MicrographShelf


def set_up_problems(shelf: MicrographShelf, raw: sqlite3.Connection) -> Iterator[str]:
    """Return what is wrong with the set-ups; raises ShelfFault for what cannot be read."""
    kinds = dict(raw.execute("SELECT id, kind FROM instrument"))
    for one in shelf.set_ups():
        if kinds.get(one.id) != InstrumentKind.MICROSCOPE.value:
            yield f"The instrument of set-up {one.id} is no microscope."


def scale_pictures(raw: sqlite3.Connection) -> list[tuple[str, str]]:
    """Return SHA-256 and media type of every picture that a set-up's scale comes from."""
    wanted = (
        "SELECT scale_picture, scale_media_type FROM microscope_set_up WHERE scale_picture <> ''"
    )
    return raw.execute(wanted).fetchall()


def picture_problems(
    shelf: MicrographShelf, raw: sqlite3.Connection, lineup_id: str
) -> Iterator[str]:
    """Return what is wrong with the micrographs of a line-up and their answers."""
    photos = set(raw.execute("SELECT id, specimen_id FROM photo WHERE lineup_id = ?", (lineup_id,)))
    made = shelf.micrographs(lineup_id)
    by_id = {one.id: one for one in made}
    for one in made:
        if (one.photo_id, one.specimen_id) not in photos and not (
            one.withdrawn and not one.photo_id
        ):
            yield f"Micrograph {one.id} shows a photo that is not in its line-up."
        if one.supersedes and not _same_field(one, by_id.get(one.supersedes)):
            yield f"Micrograph {one.id} replaces {one.supersedes}, which is not of its field."
    readings = {
        name for (name,) in raw.execute("SELECT id FROM reading WHERE lineup_id = ?", (lineup_id,))
    }
    for answer in shelf.picture_answers(lineup_id):
        for name in answer.readings:
            if name not in readings:
                yield f"Answer {answer.id} made reading {name}, which is not in its line-up."


def _same_field(one: Micrograph, other: Micrograph | None) -> bool:
    def of(m: Micrograph) -> tuple[str, str, str, int]:
        return m.lineup_id, m.specimen_id, m.side, m.field

    return other is not None and of(one) == of(other)
