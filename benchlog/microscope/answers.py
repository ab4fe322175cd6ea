"""Pictures in, plain answers out: numbers and words that go into JSON as they are."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

from benchlog.errors import EntryRefused
from benchlog.measure.micrograph import NOT_A_RATING, PictureFigure
from benchlog.microscope.figures import Scale
from benchlog.microscope.gates import Gate
from benchlog.microscope.masking import Light
from benchlog.microscope.measure import Measured, SetUp, Step, measure, unwatched
from benchlog.microscope.odd_set_up import refuse_odd
from benchlog.microscope.picture import read_picture
from benchlog.microscope.scale import find_scale


def measure_picture(
    path: Path,
    setup: SetUp | float,
    light: Light = "automatic",
    u_um_per_px: float = 0.0,
    step: Step = unwatched,
) -> dict[str, Any]:
    """Measure the picture at `path` and return verdict, reasons, gates and figures.

    `setup` is a whole set-up, or just its µm per pixel with `light` and `u_um_per_px` beside it.
    Figures carry value, unit and standard uncertainty, in all and by part; `step` is told how far
    it is. Raises PictureRefused
    when the file is no picture, EntryRefused when the scale or the light is none.
    """
    taken = setup if isinstance(setup, SetUp) else SetUp(Scale(setup, u_um_per_px), light)
    refuse_odd(taken)
    picture = read_picture(path)
    size = {"width_px": picture.width, "height_px": picture.height}
    return {**as_answer(measure(picture, taken, step)), **size}


def measure_scale(path: Path, division_um: float, division_u_um: float = 0.0) -> dict[str, Any]:
    """Find the scale in the stage micrometer's picture at `path`, one division `division_um`.

    Raises PictureRefused when the file is no picture, ScaleRefused when its lines cannot be
    trusted, EntryRefused when the division is none.
    """
    if not (math.isfinite(division_um) and division_um > 0.0):
        raise EntryRefused(
            f"{division_um} is no division.", "Say how many micrometres lie between two lines."
        )
    picture = read_picture(path)
    found = find_scale(picture)
    um_per_px, u = found.um_per_px(division_um, division_u_um)
    return {
        "px_per_division": found.px_per_division,
        "u_px_per_division": found.u_px,
        "um_per_px": um_per_px,
        "u_um_per_px": u,
        "width_px": picture.width,
        "height_px": picture.height,
        "turned_deg": found.turned_deg,
        "lines_found": len(found.lines),
        "lines_missing": found.missing,
        "residual_share": found.residual,
        "curvature_share": found.curvature,
        "notes": list(found.notes),
    }


def as_answer(seen: Measured) -> dict[str, Any]:
    """Return a measured picture as plain numbers, words, lists and dicts."""
    histogram = seen.histogram
    return {
        "verdict": seen.verdict,
        "reasons": list(seen.reasons),
        "warnings": list(seen.warnings),
        "withheld": list(seen.withheld),
        "light": seen.light,
        "gates": {gate.key: _gate(gate) for gate in seen.gates},
        "figures": {key: _figure(figure) for key, figure in seen.figures.items()},
        "independent_fibres": seen.fibres,
        "histogram": None
        if histogram is None
        else {"edges_um": list(histogram.edges), "shares": list(histogram.shares)},
        "beside": NOT_A_RATING,
    }


def _gate(gate: Gate) -> dict[str, Any]:
    return {
        "value": gate.value if math.isfinite(gate.value) else None,
        "limit": gate.limit,
        "outcome": gate.outcome,
        "words": gate.words,
    }


def _figure(figure: PictureFigure) -> dict[str, Any]:
    return {
        "value": figure.value,
        "unit": figure.unit,
        "u": figure.u,
        "u_sampling": figure.sampling,
        "u_systematic": figure.systematic,
        "u_calibration": figure.calibration,
    }
