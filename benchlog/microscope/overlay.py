"""What the reviewer flips over the picture to see what was measured: plain arrays of points.

All coordinates are x, y in pixels of the file, the middle of its upper left pixel at 0, 0.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchlog.microscope.kernels import outlines
from benchlog.microscope.measure import Working
from benchlog.microscope.openings import circles_to_draw


@dataclass(frozen=True)
class Overlay:
    """Outlines of the fibres' mask, centrelines that gave a width, and covering circles.

    `circles` has rows of x, y, radius: the largest ones that do not overlap.
    """

    outlines: tuple[NDArray[np.float64], ...]
    centrelines: tuple[NDArray[np.float64], ...]
    circles: NDArray[np.float64]


def overlay_of(working: Working, most_circles: int = 200) -> Overlay:
    """Return what to draw over a measured picture."""
    by = float(working.reduced)
    shift = 0.5 * (by - 1.0)
    circles = circles_to_draw(~working.fibres, most_circles) * by
    circles[:, :2] += shift
    return Overlay(
        tuple(one.astype(np.float64) * by + shift for one in outlines(working.fibres)),
        tuple(one * by + shift for one in _accepted(working)),
        circles,
    )


def _accepted(working: Working) -> list[NDArray[np.float64]]:
    lines, accepted = working.lines, working.accepted
    if lines is None or accepted is None:
        return []
    points = np.split(np.column_stack([lines.x, lines.y]), lines.first[1:])
    return [points[int(number)] for number in accepted]
