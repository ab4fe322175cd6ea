"""Fibre widths of a picture, weighted so that each fibre counts by its length."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from benchlog.microscope.centrelines import Centrelines, Real
from benchlog.microscope.edge_fit import EdgeFit, fitted_widths
from benchlog.microscope.kernels import Map, sampled
from benchlog.microscope.profiles import SAMPLES, Profiles

HISTOGRAM_BINS = 24


@dataclass(frozen=True)
class Widths:
    """Widths of the measured stretches in pixels and the weight of each.

    `rule_gap` is by how much the fitted width exceeds the steepest one, `mask_gap` by how much it
    exceeds the mask's (medians, pixels). `steepness` has no unit: largest slope times width over
    height, w / (2.5 σ) for an ideal strip under a blur of σ. `line_density` is fibre length per
    area in 1/px.
    """

    width: Real
    weight: Real
    fit: EdgeFit
    rule_gap: float
    mask_gap: float
    steepness: float
    line_density: float

    def percentile(self, share: float) -> float:
        """Return the weighted percentile in pixels."""
        order = np.argsort(self.width)
        weight = self.weight[order]
        middle = np.cumsum(weight) - 0.5 * weight
        return float(np.interp(share * weight.sum(), middle, self.width[order]))

    @property
    def mean(self) -> float:
        """Weighted mean in pixels."""
        return float(np.average(self.width, weights=self.weight))

    @property
    def spread(self) -> float:
        """Weighted standard deviation in pixels."""
        return float(np.sqrt(np.average((self.width - self.mean) ** 2, weights=self.weight)))


def widths(
    lines: Centrelines,
    seen: Profiles,
    level: Map,
    upward: bool,
    open_share: float,
    edge_offset_px: float = 0.0,
) -> Widths:
    """Return the widths of all stretches with a profile; there must be one at least.

    `edge_offset_px` is by how much a fibre of known width reads too wide in this light.
    """
    fit = fitted_widths(seen.light, seen.offset, seen.steepest_width)
    width = np.maximum(fit.width - edge_offset_px, 0.5)
    length = lines.lengths[seen.stretch]
    density = -np.log(np.clip(open_share, 0.02, 0.98)) / float(np.average(width, weights=length))
    # Thick fibres lose more of their length to crossings; random lines say how much more.
    weight = length * np.exp(2.0 / np.pi * density * np.minimum(width, 4.0 * np.median(width)))
    at_level = _widths_at(seen, _levels(lines, seen, level, upward))
    return Widths(
        width,
        weight,
        fit,
        float(np.median(fit.width - seen.steepest_width)),
        float(np.nanmedian(width - at_level)) if np.isfinite(at_level).any() else 0.0,
        float(np.median(_steepness(seen))),
        float(density),
    )


def _levels(lines: Centrelines, seen: Profiles, level: Map, upward: bool) -> Real:
    """Return the mask's level at each measured stretch, in the sense of its profile."""
    middle = lines.first + np.diff(lines.first, append=len(lines.x)) // 2
    at = middle[seen.stretch]
    value = sampled(level, lines.x[at][:, None], lines.y[at][:, None])[:, 0].astype(float)
    return value if upward else -value


def _widths_at(seen: Profiles, level: Real) -> Real:
    """Return the width of each mean profile where it passes `level`, NaN where it does not."""
    above = seen.light > level[:, None]
    middle = SAMPLES // 2
    step = seen.offset[:, 1] - seen.offset[:, 0]
    total = np.zeros(len(level))
    for side in (seen.light[:, middle:], seen.light[:, middle::-1]):
        over = side > level[:, None]
        end = np.argmin(over, axis=1)
        end = np.where(over.all(axis=1) | (end == 0), -1, end)
        rows = np.arange(len(level))
        high, low = side[rows, end - 1], side[rows, end]
        share = (high - level) / np.where(high > low, high - low, 1.0)
        total += np.where(end > 0, (end - 1 + share) * step, np.nan)
    return np.where(above[:, middle], total, np.nan)


def _steepness(seen: Profiles) -> Real:
    step = (seen.offset[:, 1] - seen.offset[:, 0])[:, None]
    slope = np.abs(np.gradient(seen.light, axis=1) / step).max(axis=1)
    height = seen.light.max(axis=1) - np.percentile(seen.light, 8, axis=1)
    return np.asarray(slope * seen.steepest_width / np.maximum(height, 1e-9))
