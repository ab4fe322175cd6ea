"""Take the pictures of the media: a field at a time, taken again, taken back, and measured."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace

from benchlog.errors import AskAgain, EntryRefused
from benchlog.measure.micrograph import (
    Micrograph,
    MicroscopeSetUp,
    PictureAnswer,
    latest_answers,
    standing_micrographs,
)
from benchlog.measure.reading import Reading
from benchlog.tasks.field_order import WantedField, field_of, field_words
from benchlog.tasks.photos import add_photo, looked_at
from benchlog.tasks.picture_ports import PictureMeasurer, PictureShelf
from benchlog.tasks.picture_readings import readings_of_answer, withdrawals_of
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Progress, Shelf
from benchlog.tasks.set_ups import standing_set_ups
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup

STATION = "microscope"


@dataclass(frozen=True)
class KeptAnswer:
    """An answer as it lies on the shelf, its readings, and what is unusual about them."""

    answer: PictureAnswer
    readings: tuple[Reading, ...]
    told: tuple[str, ...] = ()


def take_picture(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    field: WantedField,
    set_up_id: str,
    name: str,
    data: bytes,
    *,
    session_s: float = 0.0,
    sure: bool = False,
) -> Micrograph:
    """Keep a picture as a field of a medium; one that stands there already is taken again.

    A retake takes back the readings of the picture that it replaces. Raises PictureRefused for
    what is no picture; EntryRefused for a field or set-up that is not there, a size that is not
    the set-up's, and a picture that is a field already; AskAgain, unless `sure`, for a set-up
    other than that of the line-up's other pictures.
    """
    lineup = shelf.lineup(lineup_id)
    if field.specimen_id not in [s.id for s in lineup.specimens] or field.field < 1:
        raise EntryRefused(
            "There is no such field in this line-up.", "Choose one of its specimens."
        )
    set_up = _set_up(shelf, set_up_id)
    stand = standing_micrographs(tuple(shelf.micrographs(lineup_id)))
    _check_new(lineup, stand, field, set_up, name, data)
    others = {m.set_up_id for m in stand if field_of(m) != field} - {set_up.id}
    if others and not sure:
        names = " and ".join(s.name for s in shelf.set_ups() if s.id in others)
        raise AskAgain(
            f"The other pictures were taken with {names}, and pictures of unlike set-ups are not "
            "compared.",
            f"Take that set-up, or say yes to go on with {set_up.name}.",
        )
    old = next((m for m in stand if field_of(m) == field), None)
    caption = field_words(lineup, field)
    photo = add_photo(shelf, clock, lineup.id, field.specimen_id, STATION, name, data, caption)
    taken = Micrograph(
        id=new_id(),
        lineup_id=lineup.id,
        specimen_id=field.specimen_id,
        side=field.side,
        field=field.field,
        set_up_id=set_up.id,
        photo_id=photo.id,
        at=clock.now(),
        supersedes=old.id if old else "",
    )
    back = _taken_back(shelf, clock, old, "picture taken again", session_s) if old else []
    shelf.add_micrograph(taken, back)
    return taken


def take_back(
    shelf: Shelf, clock: Clock, lineup_id: str, micrograph_id: str, *, session_s: float = 0.0
) -> Micrograph:
    """Take a picture out of its field, with its readings; the photo stays among the photos.

    Raises EntryRefused for a picture that does not stand.
    """
    old = standing_micrograph(shelf, lineup_id, micrograph_id)
    gone = replace(old, id=new_id(), photo_id="", at=clock.now(), supersedes=old.id, withdrawn=True)
    shelf.add_micrograph(gone, _taken_back(shelf, clock, old, "picture taken back", session_s))
    return gone


def measured(
    shelf: Shelf, measurer: PictureMeasurer, micrograph: Micrograph, progress: Progress
) -> PictureAnswer:
    """Return what measuring a micrograph says; slow, and stores nothing: see `keep_answer`.

    Errors as `PictureMeasurer.measure`.
    """
    set_up = next(s for s in shelf.set_ups() if s.id == micrograph.set_up_id)
    return measurer.measure(shelf.photo_bytes(micrograph.photo_id), set_up, progress)


def keep_answer(
    shelf: Shelf,
    clock: Clock,
    sequence: Sequence,
    lineup_id: str,
    micrograph_id: str,
    said: PictureAnswer,
    *,
    session_s: float = 0.0,
) -> KeptAnswer:
    """Keep an answer and the readings that it makes; a bench that is open reloads then.

    Measured anew, a picture's new readings supersede the old. Numbers outside their ranges are
    kept and told, since nobody mistyped them. Raises EntryRefused for a picture that was taken
    again or back while it was measured.
    """
    micrograph = standing_micrograph(shelf, lineup_id, micrograph_id)
    before = latest_answers(tuple(shelf.picture_answers(lineup_id))).get(micrograph.id)
    taken = shelf.readings(lineup_id)
    fresh = readings_of_answer(said, micrograph, before, taken, sequence, clock, session_s)
    answer = replace(
        said,
        id=new_id(),
        micrograph_id=micrograph.id,
        at=clock.now(),
        readings=tuple(r.id for r in fresh.readings if not r.withdrawn),
    )
    shelf.add_picture_answer(answer, list(fresh.readings))
    return KeptAnswer(answer, fresh.readings, fresh.told)


def standing_micrograph(shelf: PictureShelf, lineup_id: str, micrograph_id: str) -> Micrograph:
    """Return a micrograph that stands; raises EntryRefused for any other."""
    stand = standing_micrographs(tuple(shelf.micrographs(lineup_id)))
    found = next((m for m in stand if m.id == micrograph_id), None)
    if found is None:
        raise EntryRefused(
            "That picture was taken again or taken back.", "Choose the one that stands now."
        )
    return found


def _set_up(shelf: PictureShelf, set_up_id: str) -> MicroscopeSetUp:
    found = next((s for s in standing_set_ups(shelf.set_ups()) if s.id == set_up_id), None)
    if found is None:
        raise EntryRefused(
            "That set-up is not in use: it was calibrated anew, or never made.",
            "Choose a set-up, or make one.",
        )
    return found


def _check_new(
    lineup: Lineup,
    stand: tuple[Micrograph, ...],
    field: WantedField,
    set_up: MicroscopeSetUp,
    name: str,
    data: bytes,
) -> None:
    """Refuse a picture of another size than the set-up's, and one that shows another field."""
    _, width, height = looked_at(name, data)
    sizes = ((set_up.width_px, set_up.height_px), (set_up.height_px, set_up.width_px))
    if set_up.width_px and (width, height) not in sizes:
        raise EntryRefused(
            f"{name} is {width} × {height} pixels, and {set_up.name} takes {set_up.width_px} × "
            f"{set_up.height_px}: at another size its scale does not hold.",
            "Take it at the same resolution, or make a set-up for this one.",
        )
    mark = hashlib.sha256(data).hexdigest()
    if mark == set_up.scale_picture:
        raise EntryRefused(f"{name} shows the stage micrometer.", "Take a picture of the media.")
    same = next((m for m in stand if m.photo_id == mark and field_of(m) != field), None)
    if same is not None:
        raise EntryRefused(
            f"{name} is the very picture of {field_words(lineup, field_of(same))}.",
            "Move the stage to another place and take a new one.",
        )


def _taken_back(
    shelf: Shelf, clock: Clock, old: Micrograph, reason: str, session_s: float
) -> list[Reading]:
    answer = latest_answers(tuple(shelf.picture_answers(old.lineup_id))).get(old.id)
    return withdrawals_of(answer, shelf.readings(old.lineup_id), clock, reason, session_s)
