"""Pictures of the media through a microscope: how they were taken, and what each of them says."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

NOT_A_RATING = (
    "The opening of the top layers that this light and focus show: no micron rating, no efficiency."
)
"""What stands beside every figure of a picture."""


class Side(StrEnum):
    """Which side of the strip a picture shows, as the oil meets it."""

    IN = "inlet side"
    OUT = "outlet side"


class ScaleFrom(StrEnum):
    """Where a set-up's scale comes from."""

    STAGE = "stage micrometer"
    TYPED = "typed"


@dataclass(frozen=True)
class MicroscopeSetUp:
    """What all pictures of one set-up share; an instrument of kind microscope has the same `id`.

    `light` is "above", "below" or "automatic". `um_per_px` are micrometres along one pixel of a
    picture of `width_px` × `height_px` (0 where any size is taken), `u_um_per_px` its standard
    uncertainty. From a stage micrometer, `division_um` and its standard uncertainty are what the
    slide says, `scale_picture` is the SHA-256 of the picture's bytes and `scale_notes` what was
    found on it. `edge_offset_px` is the offset of a fibre's edges in this light by a reference
    fibre, None without one. A set-up is never changed: a new calibration is a new one that
    `replaces` the old.
    """

    id: str
    name: str
    microscope: str
    objective: str
    light: str
    um_per_px: float
    u_um_per_px: float
    scale_from: ScaleFrom
    at: datetime
    width_px: int = 0
    height_px: int = 0
    division_um: float = 0.0
    division_u_um: float = 0.0
    scale_picture: str = ""
    scale_notes: tuple[str, ...] = ()
    edge_offset_px: float | None = None
    reference_fibre: str = ""
    note: str = ""
    replaces: str = ""


@dataclass(frozen=True)
class Micrograph:
    """One field of a medium: a picture on the shelf, taken with one set-up.

    `field` counts the places of one side of one specimen from 1. A retake `supersedes` the
    earlier micrograph of its field; `withdrawn` marks one that takes it back and puts no picture
    in its place (`photo_id` is "" then).
    """

    id: str
    lineup_id: str
    specimen_id: str
    side: Side
    field: int
    set_up_id: str
    photo_id: str
    at: datetime
    supersedes: str = ""
    withdrawn: bool = False


@dataclass(frozen=True)
class PictureGate:
    """What a picture was held against: `outcome` is "passed", "warned" or "refused"."""

    key: str
    value: float | None
    limit: float
    outcome: str
    words: str = ""


@dataclass(frozen=True)
class PictureFigure:
    """One figure of one picture: its key, value, unit ("um" or "1") and standard uncertainties.

    `sampling` is how the field may differ from the medium, `systematic` what light and edges may
    shift in every picture of the set-up, `calibration` what its scale may.
    """

    key: str
    value: float
    unit: str
    sampling: float
    systematic: float
    calibration: float

    @property
    def u(self) -> float:
        """The parts together, as the root of the sum of squares."""
        return math.sqrt(self.sampling**2 + self.systematic**2 + self.calibration**2)


@dataclass(frozen=True)
class PictureAnswer:
    """What measuring one micrograph said: figures by key, or why there are none.

    `verdict` is "measured" or "refused"; `method` names the version of the measurement, so that
    an old answer is known for what it is. `withheld` says why single figures are missing.
    `edges_um` and `shares` are the histogram of fibre length by diameter, () where there is none.
    `readings` are the ids of the readings that it made.
    """

    id: str
    micrograph_id: str
    at: datetime
    method: str
    verdict: str
    light: str
    reasons: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    withheld: tuple[str, ...] = ()
    gates: tuple[PictureGate, ...] = ()
    figures: tuple[PictureFigure, ...] = ()
    fibres: float = 0.0
    edges_um: tuple[float, ...] = ()
    shares: tuple[float, ...] = ()
    readings: tuple[str, ...] = ()

    def figure(self, key: str) -> PictureFigure | None:
        """Return the figure of that key, None where it was not measured."""
        return next((one for one in self.figures if one.key == key), None)


def standing_micrographs(micrographs: tuple[Micrograph, ...]) -> tuple[Micrograph, ...]:
    """Return the micrographs that stand: neither retaken nor taken back, in given order."""
    gone = {one.supersedes for one in micrographs if one.supersedes}
    return tuple(m for m in micrographs if m.id not in gone and not m.withdrawn)


def latest_answers(answers: tuple[PictureAnswer, ...]) -> dict[str, PictureAnswer]:
    """Return the latest answer of each micrograph by the micrograph's id; given oldest first."""
    return {one.micrograph_id: one for one in answers}
