"""The pictures of a part that is judged blind: by its code alone, without whose part it is."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.blind import BlindRun
from benchlog.measure.micrograph import Side, standing_micrographs
from benchlog.tasks.fields import STATION
from benchlog.tasks.judge_blind import BlindQuestion
from benchlog.tasks.picture_ports import PictureShelf


@dataclass(frozen=True)
class BlindPicture:
    """One picture under the microscope: its bytes' id, its scale, and which side it shows."""

    photo_id: str
    um_per_px: float
    side: Side


def blind_pictures(
    shelf: PictureShelf, run: BlindRun, asked: BlindQuestion
) -> tuple[BlindPicture, ...]:
    """Return the pictures of the part under the code that is asked, by side and field.

    None for what is not judged under the microscope. What a file is called may tell whose part
    it is, so no name comes along.
    """
    if asked.attribute.station != STATION:
        return ()
    owner = next(owner for owner, code in run.codes if code == asked.code)
    scales = {one.id: one.um_per_px for one in shelf.set_ups()}
    own = [
        m
        for m in standing_micrographs(tuple(shelf.micrographs(run.lineup_id)))
        if m.specimen_id == owner
    ]
    sides = list(Side)
    own.sort(key=lambda m: (sides.index(m.side), m.field))
    return tuple(BlindPicture(m.photo_id, scales[m.set_up_id], m.side) for m in own)
