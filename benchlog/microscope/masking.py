"""The mask of fibres: cut at the level, cleaned of specks, and told which side is fibre."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from benchlog.microscope.kernels import Map, Mask, distance_inside, pieces, smoothed
from benchlog.microscope.level import EDGE_BLUR, Levels

Light = Literal["above", "below", "automatic"]

SMALLEST = 12  # pixels: specks and pinholes below are noise


def bright_mask(light: Map, levels: Levels, shift: float = 0.0) -> Mask:
    """Return where an evened picture is brighter than its level, specks removed.

    `shift` moves the level by a share of the contrast between bright and dark.
    """
    move = np.float32(shift * levels.contrast)
    return cleaned(smoothed(light, EDGE_BLUR) > levels.local + move)


def cleaned(mask: Mask, smallest: int = SMALLEST) -> Mask:
    """Return the mask without pieces and holes of fewer than `smallest` pixels."""
    filled = mask | _small(~mask, smallest)
    return filled & ~_small(filled, smallest)


def _small(mask: Mask, smallest: int) -> Mask:
    labels, areas = pieces(mask)
    small = areas < smallest
    small[0] = False
    return small[labels]


def light_of(bright: Mask) -> Literal["above", "below"]:
    """Return where the light comes from: fibres are the side whose width varies less.

    Fibres of bright side are lit from above, of dark side from below. Widths are read on the
    ridges of each side's distance map; openings vary far more in size than fibres do.
    """
    return "above" if _ridge_spread(bright) <= _ridge_spread(~bright) else "below"


def _ridge_spread(mask: Mask) -> float:
    """Return the spread over the mean of the distance map's ridge heights."""
    reach = distance_inside(mask)
    ridge = ridge_heights(reach)
    return float(ridge.std() / ridge.mean()) if ridge.size > 20 else np.inf


def ridge_heights(reach: Map) -> NDArray[np.float32]:
    """Return a distance map's heights where it is highest along rows or along columns."""
    middle = reach[1:-1, 1:-1]
    across = (middle >= reach[1:-1, :-2]) & (middle > reach[1:-1, 2:])
    down = (middle >= reach[:-2, 1:-1]) & (middle > reach[2:, 1:-1])
    return middle[(across | down) & (middle > 1.5)]
