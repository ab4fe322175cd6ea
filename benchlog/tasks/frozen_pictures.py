"""What of the pictures of the media is frozen with a revision: set-ups, and each field.

Words as they were, to be held against a later revision by programs that know no more.
"""

from __future__ import annotations

from typing import Any

from benchlog.measure.micrograph import PictureAnswer, latest_answers, standing_micrographs
from benchlog.tasks.field_order import FieldState, field_of, field_words
from benchlog.tasks.record import Record
from benchlog.tasks.set_ups import scale_words, set_up_words

Plain = dict[str, Any]


def frozen_set_ups(record: Record) -> list[Plain]:
    """Return every set-up that a picture was taken with, its fields as label and text."""
    return [
        {
            "id": one.id,
            "name": one.name,
            "fields": {
                "set-up": set_up_words(one),
                "scale": scale_words(one),
                "found on the scale": " ".join(one.scale_notes),
                "note": one.note,
            },
        }
        for one in record.set_ups
    ]


def frozen_pictures(record: Record) -> list[Plain]:
    """Return every field that stands: where it is, its picture, and what came of it."""
    answers = latest_answers(record.answers)
    names = {one.id: one.name for one in record.set_ups}
    return [
        {
            "specimen_id": one.specimen_id,
            "side": one.side.value,
            "field": one.field,
            "name": field_words(record.lineup, field_of(one)),
            "photo": one.photo_id,
            "set_up": names.get(one.set_up_id, ""),
            "text": _came_of(answers.get(one.id)),
        }
        for one in standing_micrographs(record.micrographs)
    ]


def picture_photos(record: Record) -> frozenset[str]:
    """Return the ids of the photos that are fields of the media, retaken ones too."""
    return frozenset(one.photo_id for one in record.micrographs if one.photo_id)


def _came_of(answer: PictureAnswer | None) -> str:
    if answer is None:
        return FieldState.WAITING.value
    return f"{answer.verdict}: {' '.join(answer.reasons)}" if answer.reasons else answer.verdict
