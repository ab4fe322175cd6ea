"""Figures of one picture with their uncertainty, each part kept apart.

Standard uncertainties throughout. Fields of one medium differ because each holds only so many
fibres and openings; light and edges shift all pictures of a set-up alike; so does its scale.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchlog.measure.micrograph import PictureFigure
from benchlog.microscope.openings import Openings
from benchlog.microscope.widths import Widths

EDGE_HALF_WIDTH_PX = 0.8
EDGE_HALF_WIDTH_REFERENCE_PX = 0.5
OPEN_HALF_WIDTH = 0.04
OPENING_HALF_WIDTH = 0.05
LARGE_HALF_WIDTH = 0.10
SMALL_HALF_WIDTH_PX = 1.2
"""Half-widths of what light and edges may shift, found on drawn mats of known truth; the one in
pixels is D10's."""

COARSE_PX, COARSE_HALF_WIDTH = 10.0, 0.15
"""Below so many pixels a fibre its diameter may be that share off: drawn mats again."""

TAIL_HALF_WIDTHS = {"fibre P10": 0.15, "fibre P90": 0.30}
"""Of P10 and P90: fibres side by side that pass for one wide one move the tails most."""

_SPREAD_OF_OPENINGS = {"D10": 0.8, "D50": 1.0, "D90": 1.5, "D95": 2.0}
"""Field-to-field spread over D50's: drawn random mats."""

_BY_OPENINGS, _BY_FIBRES = 1.6, 0.29
_SPREAD_OF_OPEN_SHARE = 0.10
"""Of drawn random mats of 12 to 42 openings across: what independent openings would spread by
falls with their number across, what long fibres through the whole field do with its root."""


@dataclass(frozen=True)
class Scale:
    """Micrometres per pixel of the file and their standard uncertainty."""

    um_per_px: float
    u_um_per_px: float = 0.0


@dataclass(frozen=True)
class Doubt:
    """What is in doubt about one picture's edges, beyond what every picture may be off by.

    `swing` is by which share D50 changes with the level, `width_px` the standard deviation of the
    mean width over the ways its edges can be explained, `rim` the outline a pixel of area.
    """

    swing: float = 0.0
    width_px: float = 0.0
    rim: float = 0.0


def independent_fibres(found: Widths, width: int, height: int) -> float:
    """Return how many fibres cross the frame: 2 (W + H) L_A / π for long random ones."""
    return max(1.0, 2.0 * (width + height) * found.line_density / math.pi)


def opening_figures(
    seen: Openings, open_share: float, scale: Scale, area_px: float, doubt: Doubt | None = None
) -> list[PictureFigure]:
    """Return D10, D50, D90, D95 and the open area; D10 only from 10 pixels up."""
    doubt = doubt or Doubt()
    across = math.sqrt(area_px) / max(seen.d50, 1.0)
    spread = math.hypot(_BY_OPENINGS / across, _BY_FIBRES / math.sqrt(across))
    um, calibration = scale.um_per_px, scale.u_um_per_px / scale.um_per_px
    made = []
    for key, px in zip(("D10", "D50", "D90", "D95"), _all(seen), strict=True):
        if key == "D10" and px < 10.0:
            continue
        value = px * um
        share = OPENING_HALF_WIDTH if key in ("D10", "D50") else LARGE_HALF_WIDTH
        pixels = SMALL_HALF_WIDTH_PX if key == "D10" else EDGE_HALF_WIDTH_PX
        edges = max(share * value, pixels * um, doubt.swing * value) / math.sqrt(3.0)
        systematic = math.hypot(edges, 0.5 * doubt.width_px * um)
        sampling = _SPREAD_OF_OPENINGS[key] * spread * value
        made.append(PictureFigure(key, value, "um", sampling, systematic, calibration * value))
    sampling = _SPREAD_OF_OPEN_SHARE / math.sqrt(across)
    systematic = math.hypot(OPEN_HALF_WIDTH / math.sqrt(3.0), 0.5 * doubt.width_px * doubt.rim)
    made.append(PictureFigure("open area", open_share, "1", sampling, systematic, 0.0))
    return made


def _all(seen: Openings) -> tuple[float, float, float, float]:
    return seen.d10, seen.d50, seen.d90, seen.d95


def width_figures(
    found: Widths, scale: Scale, fibres: float, with_reference: bool
) -> list[PictureFigure]:
    """Return mean, median, P10 and P90 of the fibre diameter, weighted by length.

    A mean is known to sd / √n, a median to 1.25 times that, P10 and P90 to 1.71 times (normal
    theory); n counts fibres, not profiles: profiles of one fibre are no news.
    """
    um, calibration = scale.um_per_px, scale.u_um_per_px / scale.um_per_px
    # Half the blur may be wrong of an edge, or what a reference fibre leaves; and blur and
    # roundness look alike, of which the reference fibre, in the same light, settles a part.
    edge = EDGE_HALF_WIDTH_REFERENCE_PX if with_reference else EDGE_HALF_WIDTH_PX
    edge = edge if with_reference else max(edge, 0.5 * found.fit.blur)
    middle = found.percentile(0.5)
    edge = max(edge, COARSE_HALF_WIDTH * middle) if middle < COARSE_PX else edge
    alike = (0.5 if with_reference else 1.0) * found.fit.doubt
    systematic = math.hypot(edge / math.sqrt(3.0), alike) * um
    one = found.spread / math.sqrt(fibres) * um
    made = [
        ("fibre mean", found.mean, 1.0),
        ("fibre median", middle, 1.2533),
        ("fibre P10", found.percentile(0.1), 1.71),
        ("fibre P90", found.percentile(0.9), 1.71),
    ]
    return [
        PictureFigure(
            key,
            px * um,
            "um",
            wider * one,
            math.hypot(systematic, TAIL_HALF_WIDTHS.get(key, 0.0) / math.sqrt(3.0) * px * um),
            calibration * px * um,
        )
        for key, px, wider in made
    ]
