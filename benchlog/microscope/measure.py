"""One picture of the media: opened, judged, measured, or refused with the reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from benchlog.microscope.centrelines import Centrelines, Real, centrelines
from benchlog.microscope.evening import evened_by_sides, evened_by_tiles
from benchlog.microscope.figures import (
    MediaFigure,
    Scale,
    independent_fibres,
    opening_figures,
    width_figures,
)
from benchlog.microscope.gates import (
    Gate,
    contrast_gate,
    layer_gates,
    light_gates,
    low_gate,
    open_gates,
    sharpness_gates,
)
from benchlog.microscope.kernels import Map, Mask, distance_inside
from benchlog.microscope.level import Levels, levels_of, soft_share
from benchlog.microscope.masking import Light, bright_mask, light_of
from benchlog.microscope.openings import Openings, median_diameter, openings
from benchlog.microscope.picture import GreyPicture, coded
from benchlog.microscope.profiles import Profiles, profiles
from benchlog.microscope.widths import HISTOGRAM_BINS, Widths, widths

SWING = 0.10
"""Of the contrast: so far the level is moved either way to see what hangs on it."""

FEWEST_FIBRES = 15

WHOLE_PIXELS = 4_000_000

Step = Callable[[int, int, str], None]


@dataclass(frozen=True)
class SetUp:
    """What all pictures of one set-up share: scale, light, and the edge offset of a known fibre."""

    scale: Scale
    light: Light = "automatic"
    edge_offset_px: float | None = None


@dataclass(frozen=True)
class Histogram:
    """Share of fibre length by diameter: `edges` in µm, one more than `shares`."""

    edges: tuple[float, ...]
    shares: tuple[float, ...]


@dataclass(frozen=True)
class Working:
    """What the figures were read from, for drawing: mask of fibres, centrelines, in pixels here.

    `reduced` pixels of the file lie along one of these.
    """

    fibres: Mask
    lines: Centrelines | None = None
    accepted: np.ndarray | None = None
    reduced: int = 1


@dataclass(frozen=True)
class Measured:
    """The verdict on one picture: its figures by key, or why there are none.

    `withheld` says of single families why they are missing although the picture was measured.
    """

    verdict: Literal["measured", "refused"]
    reasons: tuple[str, ...]
    gates: tuple[Gate, ...]
    figures: dict[str, MediaFigure]
    histogram: Histogram | None
    light: Literal["above", "below"]
    fibres: float
    withheld: tuple[str, ...] = ()
    working: Working | None = field(default=None, repr=False, compare=False)

    @property
    def warnings(self) -> tuple[str, ...]:
        """What is worth knowing though it did not refuse the picture."""
        return tuple(gate.words for gate in self.gates if gate.outcome == "warned")


@dataclass(frozen=True)
class Seen:
    """A picture parted into fibres and openings."""

    evened: Map
    levels: Levels
    fibres: Mask
    light: Literal["above", "below"]
    ratio: float


def unwatched(done: int, total: int, what: str) -> None:
    """Take no notice of how far a measurement is."""


def quick_gates(picture: GreyPicture) -> list[Gate]:
    """Return the gates of light alone, at once, while the picture is still under the lens."""
    rough = np.ascontiguousarray(picture.light[::3, ::3])
    brightest = float(coded(float(np.percentile(rough, 99))))
    over = float(np.mean(coded(rough) >= 253.5))
    return light_gates(brightest, over, evened_by_tiles(rough).ratio)


def measure(picture: GreyPicture, setup: SetUp, step: Step = unwatched) -> Measured:
    """Measure one picture; `step` is told how far it is and may raise to stop the work."""
    step(0, 5, "the light")
    gates = quick_gates(picture)
    seen = parted(picture, setup.light)
    gates[2] = light_gates(0, 0, seen.ratio)[2]
    gates.append(contrast_gate(seen.levels.contrast / max(seen.levels.noise, 1e-6)))
    step(1, 5, "fibres")
    open_share = 1.0 - float(seen.fibres.mean())
    lines = centrelines(seen.fibres, distance_inside(seen.fibres))
    across = profiles(seen.evened, lines, seen.light == "above")
    if len(across.light) == 0 or not 0.0 < open_share < 1.0:
        gates.append(low_gate("fibre-like", 0.0, 0.80, "No fibres were found in this picture."))
        return _verdict(picture, gates, seen)
    step(2, 5, "widths")
    offset = setup.edge_offset_px or 0.0
    found = widths(lines, across, seen.levels.local, seen.light == "above", open_share, offset)
    gates += sharpness_gates(found.steepness, found.percentile(0.5), across.accepted)
    step(3, 5, "layers")
    gates += _layers(seen, open_share)
    step(4, 5, "openings")
    sizes = openings(~seen.fibres)
    gates += open_gates(open_share, float(np.sqrt(seen.fibres.size)) / max(sizes.d50, 1.0))
    return _measured(picture, setup, gates, seen, lines, across, found, sizes, open_share)


def parted(picture: GreyPicture, light: Light) -> Seen:
    """Part fibres from openings: once under roughly evened light, once under well evened."""
    # The rough round only has to tell sides: every n-th pixel of a large picture says as much.
    every = _thinning(picture.light.size)
    rough = evened_by_tiles(np.ascontiguousarray(picture.light[::every, ::every])).light
    bright = bright_mask(rough, levels_of(rough))
    evened = evened_by_sides(picture.light, bright, every)
    levels = levels_of(evened.light)
    bright = bright_mask(evened.light, levels)
    side = light_of(bright) if light == "automatic" else light
    return Seen(evened.light, levels, bright if side == "above" else ~bright, side, evened.ratio)


def _thinning(pixels: int) -> int:
    """Return every how many pixels of a large picture are enough to compare by."""
    return 1 if pixels <= WHOLE_PIXELS else 2


def _layers(seen: Seen, open_share: float) -> list[Gate]:
    """Return the gates of depth layers."""
    every = _thinning(seen.fibres.size)
    light = seen.evened[::every, ::every].copy()
    levels = replace(seen.levels, local=seen.levels.local[::every, ::every].copy())
    middle = median_diameter(~seen.fibres[::every, ::every])
    swing, open_swing = 0.0, 0.0
    for shift in (-SWING, SWING):
        bright = bright_mask(light, levels, shift)
        fibres = bright if seen.light == "above" else ~bright
        moved = median_diameter(~fibres)
        swing = max(swing, abs(moved / middle - 1.0) if middle > 0 else 1.0)
        open_swing = max(open_swing, abs(1.0 - float(fibres.mean()) - open_share))
    return layer_gates(swing, open_swing, soft_share(seen.evened, seen.fibres))


def _verdict(picture: GreyPicture, gates: list[Gate], seen: Seen) -> Measured:
    """Return a refusal."""
    reasons = tuple(dict.fromkeys(gate.words for gate in gates if gate.outcome == "refused"))
    working = Working(seen.fibres, reduced=picture.reduced)
    return Measured("refused", reasons, tuple(gates), {}, None, seen.light, 0.0, working=working)


def _measured(
    picture: GreyPicture,
    setup: SetUp,
    gates: list[Gate],
    seen: Seen,
    lines: Centrelines,
    across: Profiles,
    found: Widths,
    sizes: Openings,
    open_share: float,
) -> Measured:
    working = Working(seen.fibres, lines, across.stretch, picture.reduced)
    height, width = seen.fibres.shape
    fibres = independent_fibres(found, width, height)
    if any(gate.outcome == "refused" for gate in gates):
        refused = _verdict(picture, gates, seen)
        return Measured(
            "refused", refused.reasons, refused.gates, {}, None, seen.light, fibres, (), working
        )
    by = picture.reduced
    scale = Scale(setup.scale.um_per_px * by, setup.scale.u_um_per_px * by)
    open_share, sizes = _to_fitted_edges(seen, found, sizes, open_share)
    figures = opening_figures(sizes, open_share, scale, float(seen.fibres.size))
    withheld: tuple[str, ...] = ()
    histogram = None
    if fibres >= FEWEST_FIBRES:
        figures += width_figures(found, scale, fibres, setup.edge_offset_px is not None)
        histogram = _histogram(found, scale.um_per_px)
    else:
        withheld = (f"About {fibres:.0f} fibres cross the field: too few for their diameter.",)
    return Measured(
        "measured",
        (),
        tuple(gates),
        {figure.key: figure for figure in figures},
        histogram,
        seen.light,
        fibres,
        withheld,
        working,
    )


def _to_fitted_edges(
    seen: Seen, found: Widths, sizes: Openings, open_share: float
) -> tuple[float, Openings]:
    """Return open share and sizes as if the mask ended where the fitted edges lie.

    Moving the level would let deeper fibres in; moving the outline takes half the gap off the
    open area along every edge. Circles are read without half a pixel taken off and rest on the
    fibres that stand out most: on drawn mats half the gap off their diameter is nearest the truth.
    """
    reach = distance_inside(~seen.fibres)
    rim = float(np.count_nonzero((reach > 0.0) & (reach <= 3.0))) / 3.0 / reach.size
    gap = found.mask_gap
    share = float(np.clip(open_share - 0.5 * gap * rim, 0.0, 1.0))
    return share, Openings(
        *(max(d - 0.5 * gap, 0.0) for d in (sizes.d10, sizes.d50, sizes.d90, sizes.d95))
    )


def _histogram(found: Widths, um_per_px: float) -> Histogram:
    values: Real = found.width * um_per_px
    top = float(found.percentile(0.99)) * um_per_px * 1.25
    counts, edges = np.histogram(
        np.minimum(values, top * 0.999), HISTOGRAM_BINS, (0.0, top), weights=found.weight
    )
    shares = counts / counts.sum()
    return Histogram(tuple(float(e) for e in edges), tuple(float(s) for s in shares))
