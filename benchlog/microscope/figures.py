"""Figures of one picture with their uncertainty, each part kept apart.

Standard uncertainties throughout. Fields of one medium differ because each holds only so many
fibres and openings; light and edges shift all pictures of a set-up alike; so does its scale.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchlog.microscope.openings import Openings
from benchlog.microscope.widths import Widths

EDGE_HALF_WIDTH_PX = 0.8
EDGE_HALF_WIDTH_REFERENCE_PX = 0.3
OPEN_HALF_WIDTH = 0.04
OPENING_HALF_WIDTH = 0.05
"""Half-widths of what light and edges may shift, found on drawn mats of known truth."""

_SPREAD_OF_OPENINGS = {"D10": 1.6, "D50": 2.0, "D90": 3.0, "D95": 4.0}
"""Relative field-to-field spread times the number of openings across: drawn random mats."""

_SPREAD_OF_OPEN_SHARE = 0.47


@dataclass(frozen=True)
class Scale:
    """Micrometres per pixel of the file and their standard uncertainty."""

    um_per_px: float
    u_um_per_px: float = 0.0


@dataclass(frozen=True)
class MediaFigure:
    """One figure: value, unit ("um" or "1"), and the standard uncertainty by where it comes from.

    `sampling` is how this field may differ from the medium, `systematic` what light and edges may
    shift, `calibration` what the scale may.
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


def independent_fibres(found: Widths, width: int, height: int) -> float:
    """Return how many fibres cross the frame: 2 (W + H) L_A / π for long random ones."""
    return max(1.0, 2.0 * (width + height) * found.line_density / math.pi)


def opening_figures(
    seen: Openings, open_share: float, scale: Scale, area_px: float
) -> list[MediaFigure]:
    """Return D10, D50, D90, D95 and the open area; D10 only from 10 pixels up."""
    across = math.sqrt(area_px) / max(seen.d50, 1.0)
    um, calibration = scale.um_per_px, scale.u_um_per_px / scale.um_per_px
    made = []
    for key, px in zip(("D10", "D50", "D90", "D95"), _all(seen), strict=True):
        if key == "D10" and px < 10.0:
            continue
        value = px * um
        systematic = max(OPENING_HALF_WIDTH * value, EDGE_HALF_WIDTH_PX * um) / math.sqrt(3.0)
        sampling = _SPREAD_OF_OPENINGS[key] / across * value
        made.append(MediaFigure(key, value, "um", sampling, systematic, calibration * value))
    sampling = _SPREAD_OF_OPEN_SHARE / across
    systematic = OPEN_HALF_WIDTH / math.sqrt(3.0)
    made.append(MediaFigure("open area", open_share, "1", sampling, systematic, 0.0))
    return made


def _all(seen: Openings) -> tuple[float, float, float, float]:
    return seen.d10, seen.d50, seen.d90, seen.d95


def width_figures(
    found: Widths, scale: Scale, fibres: float, with_reference: bool
) -> list[MediaFigure]:
    """Return mean, median, P10 and P90 of the fibre diameter, weighted by length.

    A mean is known to sd / √n, a median to 1.25 times that, P10 and P90 to 1.71 times (normal
    theory); n counts fibres, not profiles: profiles of one fibre are no news.
    """
    um, calibration = scale.um_per_px, scale.u_um_per_px / scale.um_per_px
    edge = EDGE_HALF_WIDTH_REFERENCE_PX if with_reference else EDGE_HALF_WIDTH_PX
    # Two rules of where the edge lies: half of what parts them may be wrong.
    rules = 0.0 if with_reference else 0.5 * abs(found.rule_gap)
    # Blur and roundness look alike once blur is a good part of a fibre.
    blur = found.fit.blur if found.steepness < 3.5 else 0.0
    systematic = max(edge, rules, blur) * um / math.sqrt(3.0)
    one = found.spread / math.sqrt(fibres) * um
    made = [
        ("fibre mean", found.mean, 1.0),
        ("fibre median", found.percentile(0.5), 1.2533),
        ("fibre P10", found.percentile(0.1), 1.71),
        ("fibre P90", found.percentile(0.9), 1.71),
    ]
    return [
        MediaFigure(key, px * um, "um", wider * one, systematic, calibration * px * um)
        for key, px, wider in made
    ]
