"""Records whose media were looked at through a microscope, worked out from invented fields."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from functools import cache

from benchlog.judge.rules_file import load_rules
from benchlog.measure.micrograph import Micrograph, MicroscopeSetUp, PictureAnswer, Side
from benchlog.measure.reading import Reading
from benchlog.tasks.contents import Contents
from benchlog.tasks.ports import Photo
from benchlog.tasks.record import Record
from benchlog.tasks.set_ups import instrument_of_set_up
from benchlog.tasks.work_out import worked_out
from tests.sheet.sample_record import SPECIMENS, START, PictureShelf, picture_bytes
from tests.small_media import SET_UP, SPIN_ON, measured, refused
from tests.small_media import fields as some_fields
from tests.small_trade import small_lineup

STAGED = replace(
    SET_UP, width_px=240, height_px=180, scale_notes=("17 lines found, 38.46 px a division.",),
    note="Ring light, low.",
)  # fmt: skip
STRONGER = replace(
    STAGED, id="m-2", name="Forty times", objective="40×", um_per_px=0.115, scale_notes=()
)
BLURRED = "The picture is blurred: focus on the uppermost fibres and take it again."
SOFT = "The picture is a little soft."


class _Making:
    """Gathers what the shelf would hold."""

    def __init__(self) -> None:
        self.readings: list[Reading] = []
        self.micrographs: list[Micrograph] = []
        self.answers: list[PictureAnswer] = []
        self.photos: list[Photo] = []
        self.bytes: dict[str, bytes] = {}

    def picture(self, specimen: str) -> str:
        data = picture_bytes(len(self.photos), (240, 180))
        name = hashlib.sha256(data).hexdigest()
        number = len(self.photos)
        self.photos.append(
            Photo(name, "l-1", specimen, "microscope", f"{number}.jpg", "image/jpeg", 240, 180,
                  START, caption="a field")
        )  # fmt: skip
        self.bytes[name] = data
        return name

    def fields(self, specimen: str, d50s: tuple[float, ...], set_up: str, side: Side) -> None:
        readings, micrographs, answers = some_fields(specimen, d50s, set_up, side)
        self.readings += readings
        self.micrographs += [replace(m, photo_id=self.picture(specimen)) for m in micrographs]
        warned = (SOFT,) if specimen == "s2" else ()
        whole = measured()
        self.answers += [
            replace(a, warnings=warned, edges_um=whole.edges_um, shares=whole.shares, fibres=24.0)
            for a in answers
        ]

    def refused(self, specimen: str, field: int, *, retaken: bool) -> None:
        name = f"refused-{specimen}"
        made = Micrograph(name, "l-1", specimen, Side.IN, field, SET_UP.id,
                          self.picture(specimen), START)  # fmt: skip
        self.answers.append(replace(refused(BLURRED), id=f"no-{specimen}", micrograph_id=name))
        if retaken:
            again = next(
                n for n, m in enumerate(self.micrographs)
                if (m.specimen_id, m.field, m.side) == (specimen, field, Side.IN)
            )  # fmt: skip
            self.micrographs[again] = replace(self.micrographs[again], supersedes=name)
        self.micrographs.append(made)


@cache
def looked_at(count: int, sides: tuple[Side, ...] = (Side.IN,)) -> tuple[Record, PictureShelf]:
    """Return a record of so many specimens and the shelf with its pictures.

    The second's pictures are soft, one of the first was taken again, one of the last is refused;
    of six, the last two were taken with another set-up.
    """
    making = _Making()
    specimens = SPECIMENS[:count]
    for number, specimen in enumerate(specimens):
        set_up = STRONGER.id if number > 3 else STAGED.id
        for side in sides:
            middle = 40.0 + 12.0 * number + (5.0 if side is Side.OUT else 0.0)
            making.fields(specimen.id, (middle, middle + 2.0, middle - 1.5), set_up, side)
    making.refused(specimens[0].id, 2, retaken=True)
    making.refused(specimens[-1].id, 4, retaken=False)
    used: tuple[MicroscopeSetUp, ...] = (STAGED, STRONGER) if count > 4 else (STAGED,)
    contents = Contents(
        lineup=small_lineup(specimens=specimens, sequence="spin_on", attributes=()),
        sequence=SPIN_ON,
        rules=load_rules(),
        readings=tuple(making.readings),
        instruments=tuple(instrument_of_set_up(one) for one in used),
        photos=tuple(making.photos),
        set_ups=used,
        micrographs=tuple(making.micrographs),
        answers=tuple(making.answers),
    )
    return worked_out(contents), PictureShelf(making.bytes)
