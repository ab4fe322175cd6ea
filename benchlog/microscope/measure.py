"""One picture of the media: opened, judged, measured, or refused with the reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from benchlog.measure.micrograph import PictureFigure
from benchlog.microscope.centrelines import Centrelines, Real, centrelines
from benchlog.microscope.evening import evened_by_sides, evened_by_tiles
from benchlog.microscope.figures import (
    Doubt,
    Scale,
    independent_fibres,
    opening_figures,
    width_figures,
)
from benchlog.microscope.gates import (
    LARGE_OPENINGS,
    MOST_UNEVEN,
    Gate,
    contrast_gate,
    light_gates,
    low_gate,
    open_gates,
    sharpness_gates,
)
from benchlog.microscope.kernels import Map, Mask, distance_inside
from benchlog.microscope.level import levels_of
from benchlog.microscope.masking import Light, bright_mask
from benchlog.microscope.openings import Openings, openings
from benchlog.microscope.parting import Layers, Seen, layers_of, parted, thinning
from benchlog.microscope.picture import GreyPicture, coded
from benchlog.microscope.profiles import Profiles, profiles
from benchlog.microscope.widths import HISTOGRAM_BINS, Widths, widths

FEWEST_FIBRES = 15

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
    figures: dict[str, PictureFigure]
    histogram: Histogram | None
    light: Literal["above", "below"]
    fibres: float
    withheld: tuple[str, ...] = ()
    working: Working | None = field(default=None, repr=False, compare=False)

    @property
    def warnings(self) -> tuple[str, ...]:
        """What is worth knowing though it did not refuse the picture."""
        return tuple(gate.words for gate in self.gates if gate.outcome == "warned")


def unwatched(done: int, total: int, what: str) -> None:
    """Take no notice of how far a measurement is."""


def quick_gates(picture: GreyPicture) -> list[Gate]:
    """Return the gates of light alone, at once, while the picture is still under the lens."""
    rough = np.ascontiguousarray(picture.light[::3, ::3])
    brightest = float(coded(float(np.percentile(rough, 99))))
    over = float(np.mean(coded(rough) >= 253.5))
    return light_gates(brightest, over, _unevenness(rough))


def _unevenness(rough: Map) -> float:
    """Return the light's brightest over its darkest, with a second look where it may be too much.

    Tiles take thin and dense places for dark and bright ones, and read up to twice as much.
    """
    tiles = evened_by_tiles(rough)
    if tiles.ratio <= MOST_UNEVEN:
        return tiles.ratio
    return evened_by_sides(rough, bright_mask(tiles.light, levels_of(tiles.light))).ratio


def measure(picture: GreyPicture, setup: SetUp, step: Step = unwatched) -> Measured:
    """Measure one picture; `step` is told how far it is and may raise to stop the work."""
    step(0, 5, "the light")
    gates = quick_gates(picture)
    seen = parted(picture, setup.light)
    gates[2] = light_gates(0, 0, seen.ratio)[2]
    gates.append(contrast_gate(seen.levels.contrast / max(seen.levels.noise, 1e-6)))
    step(1, 5, "fibres")
    open_share = 1.0 - float(seen.fibres.mean())
    lines = _lines(seen.fibres)
    across = profiles(seen.evened, lines, seen.light == "above")
    if len(across.light) == 0 or not 0.0 < open_share < 1.0:
        gates.append(low_gate("fibre-like", 0.0, 0.80, "No fibres were found in this picture."))
        return _verdict(picture, gates, seen)
    step(2, 5, "widths")
    offset = setup.edge_offset_px or 0.0
    found = widths(lines, across, seen.levels.local, seen.light == "above", open_share, offset)
    gates += sharpness_gates(found.steepness, found.percentile(0.5), across.accepted)
    step(3, 5, "layers")
    layers = layers_of(seen, open_share)
    gates += layers.gates
    step(4, 5, "openings")
    sizes = openings(~seen.fibres)
    gates += open_gates(open_share, float(np.sqrt(seen.fibres.size)) / max(sizes.d50, 1.0))
    return _measured(picture, setup, gates, seen, lines, across, found, sizes, open_share, layers)


def _lines(fibres: Mask) -> Centrelines:
    """Return the centrelines; of a large picture, found on every n-th pixel of its mask."""
    every = thinning(fibres.size)
    thin = np.ascontiguousarray(fibres[::every, ::every])
    return centrelines(thin, distance_inside(thin)).enlarged(every)


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
    layers: Layers,
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
    share, sizes, rim = _to_fitted_edges(seen, found, sizes, open_share)
    doubt = Doubt(layers.swing, found.fit.doubt, rim)
    figures = opening_figures(sizes, share, scale, float(seen.fibres.size), doubt)
    withheld: list[str] = []
    if any(gate.key == LARGE_OPENINGS and gate.outcome == "warned" for gate in gates):
        figures = [figure for figure in figures if figure.key not in ("D90", "D95")]
        withheld.append("D90 and D95 hang on where the level is set, so they are left out.")
    histogram = None
    if fibres < FEWEST_FIBRES:
        withheld.append(f"About {fibres:.0f} fibres cross the field: too few for their diameter.")
    else:
        figures += width_figures(found, scale, fibres, setup.edge_offset_px is not None)
        histogram = _histogram(found, scale.um_per_px)
    return Measured(
        "measured",
        (),
        tuple(gates),
        {figure.key: figure for figure in figures},
        histogram,
        seen.light,
        fibres,
        tuple(withheld),
        working,
    )


def _to_fitted_edges(
    seen: Seen, found: Widths, sizes: Openings, open_share: float
) -> tuple[float, Openings, float]:
    """Return open share and sizes as if the mask ended where the fitted edges lie, and the rim.

    Moving the level would let deeper fibres in; moving the outline takes half the gap off the
    open area along every edge. Circles are read without half a pixel taken off and rest on the
    fibres that stand out most: on drawn mats half the gap off their diameter is nearest the
    truth, a quarter off D10, whose circles lie in corners. The rim is outline a pixel of area.
    """
    reach = distance_inside(~seen.fibres)
    rim = float(np.count_nonzero((reach > 0.0) & (reach <= 3.0))) / 3.0 / reach.size
    gap = found.mask_gap
    share = float(np.clip(open_share - 0.5 * gap * rim, 0.0, 1.0))
    small, *others = (sizes.d10, sizes.d50, sizes.d90, sizes.d95)
    d50, d90, d95 = (max(d - 0.5 * gap, 0.0) for d in others)
    return share, Openings(max(small - 0.25 * gap, 0.0), d50, d90, d95), rim


def _histogram(found: Widths, um_per_px: float) -> Histogram:
    values: Real = found.width * um_per_px
    top = float(found.percentile(0.99)) * um_per_px * 1.25
    counts, edges = np.histogram(
        np.minimum(values, top * 0.999), HISTOGRAM_BINS, (0.0, top), weights=found.weight
    )
    shares = counts / counts.sum()
    return Histogram(tuple(float(e) for e in edges), tuple(float(s) for s in shares))
