"""A picture parted into fibres and openings, and how much hangs on where the cut lies."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from benchlog.microscope.evening import evened_by_sides, evened_by_tiles
from benchlog.microscope.gates import SOFTEST, Gate, large_openings_gate, layer_gates
from benchlog.microscope.kernels import Map, Mask
from benchlog.microscope.level import Levels, levels_of, soft_share
from benchlog.microscope.masking import Light, bright_mask, light_of
from benchlog.microscope.openings import rough_diameters
from benchlog.microscope.picture import GreyPicture

SWING = 0.10
"""Of the contrast: so far the level is moved either way to see what hangs on it."""

TOWARDS_FIBRES = 0.10
"""Of the contrast: so far the level is moved towards the fibres in light from below, where deep
fibres that cross take away as much light as a thin one of the top layer."""

_NO_SOFTER = 0.02
_WHOLE_PIXELS = 4_000_000


@dataclass(frozen=True)
class Seen:
    """A picture parted into fibres and openings."""

    evened: Map
    levels: Levels
    fibres: Mask
    light: Literal["above", "below"]
    ratio: float


@dataclass(frozen=True)
class Layers:
    """The gates of depth, and by which share D50 and D90 change when the level moves."""

    gates: list[Gate]
    swing: float
    large_swing: float


def thinning(pixels: int) -> int:
    """Return every how many pixels of a large picture are enough to compare by."""
    return 1 if pixels <= _WHOLE_PIXELS else 2


def parted(picture: GreyPicture, light: Light) -> Seen:
    """Part fibres from openings: once under roughly evened light, once under well evened."""
    # The rough round only has to tell sides: every n-th pixel of a large picture says as much.
    every = thinning(picture.light.size)
    rough = evened_by_tiles(np.ascontiguousarray(picture.light[::every, ::every])).light
    bright = bright_mask(rough, levels_of(rough))
    evened = evened_by_sides(picture.light, bright, every)
    levels = levels_of(evened.light)
    bright = bright_mask(evened.light, levels)
    thin = np.ascontiguousarray(bright[::every, ::every])
    side = light_of(thin) if light == "automatic" else light
    seen = Seen(evened.light, levels, bright if side == "above" else ~bright, side, evened.ratio)
    return _without_deep(seen) if side == "below" else seen


def _without_deep(seen: Seen) -> Seen:
    """Return what a level nearer the fibres parts, unless fibres go soft with it.

    The fitted edges put back what the fibres lose. A fibre with a bright core would lose its core.
    """
    move = np.float32(TOWARDS_FIBRES * seen.levels.contrast)
    nearer = replace(seen.levels, local=seen.levels.local - move)
    fibres = ~bright_mask(seen.evened, nearer)
    softer = soft_share(seen.evened, fibres) - soft_share(seen.evened, seen.fibres)
    return replace(seen, levels=nearer, fibres=fibres) if softer <= _NO_SOFTER else seen


def layers_of(seen: Seen, open_share: float) -> Layers:
    """Return what hangs on the level: deep layers that nearly pass for the top one."""
    every = thinning(seen.fibres.size)
    thin = np.ascontiguousarray(seen.fibres[::every, ::every])
    middle, large = rough_diameters(~thin, (0.50, 0.90))
    swing, large_swing, open_swing = 0.0, 0.0, 0.0
    for fibres in _moved(seen, every):
        moved, moved_large = rough_diameters(~fibres, (0.50, 0.90))
        swing = max(swing, _change(moved, middle))
        large_swing = max(large_swing, _change(moved_large, large))
        open_swing = max(open_swing, abs(1.0 - float(fibres.mean()) - open_share))
    soft = soft_share(seen.evened, seen.fibres)
    gates = [
        *layer_gates(swing, open_swing, soft, SOFTEST[seen.light]),
        large_openings_gate(large_swing),
    ]
    return Layers(gates, swing, large_swing)


def _moved(seen: Seen, every: int) -> Iterator[Mask]:
    """Yield the fibres with the level moved down and up."""
    light = seen.evened[::every, ::every].copy()
    levels = replace(seen.levels, local=seen.levels.local[::every, ::every].copy())
    for shift in (-SWING, SWING):
        bright = bright_mask(light, levels, shift)
        yield bright if seen.light == "above" else ~bright


def _change(moved: float, middle: float) -> float:
    return abs(moved / middle - 1.0) if middle > 0.0 else 1.0
