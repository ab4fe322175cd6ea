"""What a figure of a picture is unsure by beyond its repeats: scale, light, and its one field."""

from __future__ import annotations

import math
import statistics
from collections.abc import Iterable
from dataclasses import dataclass

from benchlog.measure.micrograph import PictureFigure
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.uncertainty import of_half_width

OWN_LIGHT = {"above": 0.2, "below": 0.35}
"""The share of what light and edges may shift that differs from medium to medium, as their fibres
look; the rest shifts all pictures of a set-up alike. D50 may be off by 5 % in all. Drawn mats of
flat, round and glassy fibres lit from above read 0.8 % to either side of each other, flat and
round ones lit from below 0.1 %; fewer looks were tried there, so more is allowed for."""


@dataclass(frozen=True)
class PictureDoubt:
    """Of one reading, in its attribute's unit.

    `sampling` is the stated standard uncertainty of one field, `scale` the standard uncertainty
    by the scale of the set-up, which all its pictures share; `light` is the half-width within
    which light and edges shift every picture of the set-up in this figure, and `own_light` the
    one for each medium apart.
    """

    set_up: str
    sampling: float
    scale: float
    light: float
    own_light: float


def doubt_of(set_up: str, light: str, figure: PictureFigure, factor: float = 1.0) -> PictureDoubt:
    """Return the doubt in a figure times `factor`; `light` is "above" or "below", as it was found.

    What light shifts alike and apart, as the root of the sum of squares, is all that it may shift.
    """
    half = math.sqrt(3.0) * figure.systematic * factor
    own = OWN_LIGHT.get(light, max(OWN_LIGHT.values()))
    return PictureDoubt(
        set_up,
        sampling=figure.sampling * factor,
        scale=figure.calibration * factor,
        light=math.sqrt(1.0 - own**2) * half,
        own_light=own * half,
    )


def typical_share(fields: Iterable[tuple[float, float]]) -> float | None:
    """Return the typical stated sampling uncertainty as a share, of (value, sampling) by field.

    It is the median: a field that holds few openings says little of the others. None where
    nothing is stated.
    """
    shares = [sampling / abs(value) for value, sampling in fields if value and sampling > 0.0]
    return statistics.median(shares) if shares else None


def scale_variable(set_up: str) -> object:
    """Return a fresh variable for a set-up's scale, of standard uncertainty 1."""
    return variable(1.0, Part(f"picture scale/{set_up}"))


def light_variable(set_up: str, attribute: str) -> object:
    """Return a fresh variable for what light shifts in one figure: within plus or minus 1."""
    part = Part(f"picture light/{set_up}/{attribute}", Spread.RECTANGULAR)
    return variable(of_half_width(1.0), part)
