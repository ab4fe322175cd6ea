"""The scale of a set-up from a picture of a stage micrometer: pixels between two of its lines.

It finds lines and how far apart they lie; how many micrometres that is, only the person knows who
sees the lines marked on the picture. Ten micrometres are never assumed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchlog.errors import ScaleRefused
from benchlog.microscope.picture import GreyPicture
from benchlog.microscope.scale_lines import (
    FEWEST_LINES,
    LineFit,
    finer_hint,
    line_fit,
    rough_period,
)
from benchlog.microscope.scale_profile import Profile, profile_across

SHORTEST_PERIOD = 5.0
WORST_RESIDUAL = 0.08
MOST_MISSING = 0.35
"""Limits found on drawn pictures; beyond them only every fifth line may be what is seen."""

THIN_LINE = 0.06
"""Lines thinner than this share of their distance: others between them may be too fine to see."""

THICK_LINE = 0.13
"""Lines thicker than this are no fifth marks whose finer neighbours are drowned."""

CHAIN = 0.01
"""What slide, tilt and zoom may add together, as a half-width (0.5 to 1 %): common practice."""


@dataclass(frozen=True)
class ScaleFound:
    """Pixels of the file per division, and how far it may be trusted.

    `residual` and `curvature` are shares of a division; `lines` holds the two ends of every line
    found as (n, 2, 2) x, y in pixels of the file; `notes` are sentences for the reviewer.
    """

    px_per_division: float
    u_px: float
    turned_deg: float
    lines: NDArray[np.float64]
    missing: int
    residual: float
    curvature: float
    notes: tuple[str, ...]

    def um_per_px(self, division_um: float, division_u_um: float = 0.0) -> tuple[float, float]:
        """Return µm per pixel and its standard uncertainty, slide, tilt and zoom included."""
        value = division_um / self.px_per_division
        shares = (self.u_px / self.px_per_division, division_u_um / division_um, CHAIN / 3**0.5)
        return value, value * float(np.hypot.reduce(shares))


def find_scale(picture: GreyPicture) -> ScaleFound:
    """Find the lines of a stage micrometer; raises ScaleRefused when they cannot be trusted."""
    profile = profile_across(picture.light)
    period = rough_period(profile.light)
    if period <= 0.0:
        raise _no_lines()
    fit = line_fit(profile.light, period)
    if fit is None:
        raise _no_lines()
    _judge(fit)
    if fit.width < THICK_LINE * fit.period and finer_hint(
        profile.light, fit.period, fit.columns[0]
    ):
        raise ScaleRefused(
            "There are hints of finer lines between those that were found.",
            "Focus, or take it at a larger size, until every line shows.",
        )
    by = picture.reduced * profile.per_column
    return ScaleFound(
        px_per_division=fit.period * by,
        u_px=fit.period_u * by,
        turned_deg=float(np.rad2deg(np.arctan2(-profile.along[0], profile.along[1]))),
        lines=_ends(fit, profile) * picture.reduced,
        missing=fit.missing,
        residual=fit.residual / fit.period,
        curvature=fit.curvature,
        notes=tuple(_notes(fit)),
    )


def _no_lines() -> ScaleRefused:
    return ScaleRefused(
        f"Fewer than {FEWEST_LINES} evenly spaced lines were found.",
        "Take the stage micrometer in focus, its lines across the whole picture.",
    )


def _judge(fit: LineFit) -> None:
    if fit.period < SHORTEST_PERIOD:
        raise ScaleRefused(
            f"The lines lie {fit.period:.1f} pixels apart; at least {SHORTEST_PERIOD:.0f} are "
            "needed.",
            "Take it at a larger size, or use a scale with wider divisions.",
        )
    share = fit.missing / (len(fit.numbers) + fit.missing)
    if share > MOST_MISSING:
        raise ScaleRefused(
            f"{100 * share:.0f} % of the lines are missing between the first and the last.",
            "Clean the slide, focus, and take it again.",
        )
    if fit.residual > WORST_RESIDUAL * fit.period:
        raise ScaleRefused(
            f"The lines stray from even spacing by {100 * fit.residual / fit.period:.0f} % of "
            "their distance.",
            "Take the ruled part alone, flat and in focus.",
        )


def _notes(fit: LineFit) -> list[str]:
    notes = []
    if fit.width < THIN_LINE * fit.period:
        notes.append(
            "The lines are thin for their distance: look whether finer ones lie between them."
        )
    if fit.curvature > 0.01:
        notes.append(
            f"The distance between lines changes by {100 * fit.curvature:.1f} % across the "
            "picture: the lens bends it, or the slide lay tilted."
        )
    if fit.missing:
        notes.append(f"{fit.missing} lines between the first and the last were not found.")
    return notes


def _ends(fit: LineFit, profile: Profile) -> NDArray[np.float64]:
    """Return where each line begins and ends in the picture."""
    centres = np.array(profile.origin) + fit.columns[:, None] * np.array(profile.step)
    reach = profile.half_length * np.array(profile.along)
    return np.stack([centres - reach, centres + reach], axis=1)
