"""What can be told of a picture at once, while it is still under the lens: light and sharpness."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from benchlog.microscope.centrelines import centrelines
from benchlog.microscope.gates import Gate, contrast_gate, light_gates, low_gate, sharpness_gates
from benchlog.microscope.kernels import distance_inside
from benchlog.microscope.measure import SetUp, quick_gates
from benchlog.microscope.parting import parted
from benchlog.microscope.picture import GreyPicture
from benchlog.microscope.profiles import profiles
from benchlog.microscope.widths import widths

LOOKED_AT = 1_000_000
"""Pixels of the middle of the picture, at full size: sharpness shows there as well as anywhere."""

EVENNESS = 2
"""The place of the gate of even light among those of light."""

FEWEST_STRETCHES = 8
"""Fewer stretches of fibre than this say nothing of how sharp the picture is."""


def quick_look(picture: GreyPicture, setup: SetUp) -> list[Gate]:
    """Return the gates of light and, where the light passes them, of contrast and sharpness.

    The whole measurement has its own word on each of them later, from the whole picture.
    """
    gates = quick_gates(picture)
    if gates[EVENNESS].outcome == "refused":
        # Large fibres look like uneven light to tiles; sides parted tell the one from the other.
        gates[EVENNESS] = light_gates(0, 0, parted(_thinned(picture), setup.light).ratio)[EVENNESS]
    if any(gate.outcome == "refused" for gate in gates):
        return gates
    middle = replace(picture, light=_middle(picture))
    seen = parted(middle, setup.light)
    gates.append(contrast_gate(seen.levels.contrast / max(seen.levels.noise, 1e-6)))
    open_share = 1.0 - float(seen.fibres.mean())
    if not 0.0 < open_share < 1.0:
        return [*gates, _no_fibres()]
    lines = centrelines(seen.fibres, distance_inside(seen.fibres))
    across = profiles(seen.evened, lines, seen.light == "above")
    if len(across.light) < FEWEST_STRETCHES:
        return [*gates, _no_fibres()]
    found = widths(lines, across, seen.levels.local, seen.light == "above", open_share)
    return gates + sharpness_gates(found.steepness, found.percentile(0.5), across.accepted)


def _thinned(picture: GreyPicture) -> GreyPicture:
    """Return the whole picture with but so many of its pixels: for light, not for edges."""
    every = max(1, math.ceil(math.sqrt(picture.light.size / LOOKED_AT)))
    return replace(picture, light=np.ascontiguousarray(picture.light[::every, ::every]))


def _middle(picture: GreyPicture) -> np.ndarray:
    height, width = picture.light.shape
    share = min(1.0, (LOOKED_AT / picture.light.size) ** 0.5)
    rows, columns = int(height * share), int(width * share)
    top, left = (height - rows) // 2, (width - columns) // 2
    return np.ascontiguousarray(picture.light[top : top + rows, left : left + columns])


def _no_fibres() -> Gate:
    words = "Hardly a fibre was found in the middle of this picture."
    return low_gate("fibre-like", 0.0, 0.80, words)
