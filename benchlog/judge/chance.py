"""How far apart two values must lie before chance is ruled out, for a whole line-up at once."""

from __future__ import annotations

import math
from statistics import NormalDist
from typing import Any

from benchlog.measure.coverage import degrees_of_freedom, t_factor
from benchlog.measure.part import part_of

FAMILY_LEVEL = 0.05
"""Chance that equal filters differ anywhere among the pairs of one subject, at the most."""

METHOD = "Student's t, shared out by Bonferroni"
"""How the level is kept: by the degrees of freedom of each difference, split over the pairs."""


def judged_by(specimens: int) -> str:
    """Return the sentence that names level and method for so many specimens."""
    pairs = pairs_among(specimens)
    whose = f"for all {pairs} pairs together" if pairs > 1 else "for the one pair"
    how = METHOD if pairs > 1 else METHOD.partition(",")[0]
    return f"Level: {100 * FAMILY_LEVEL:g} % {whose}, by {how}."


def pairs_among(specimens: int) -> int:
    """Return how many pairs so many specimens make, 1 at the least."""
    return max(specimens * (specimens - 1) // 2, 1)


def coverage_factor(specimens: int, freedom: float = math.inf) -> float:
    """Return k for one of the pairs among so many specimens, two-sided.

    Every pair gets an equal part of `FAMILY_LEVEL`, so that the chance of any false difference
    among them stays below it whatever they share (Bonferroni's inequality; Dunn 1961). `freedom`
    are the degrees of freedom of the difference (JCGM 100 G.3.2); one pair and infinite freedom
    give 1.960.
    """
    return t_factor(freedom, 1.0 - FAMILY_LEVEL / pairs_among(specimens))


def expanded_gap(gap: Any, specimens: int) -> float:
    """Return the expanded uncertainty of a difference between two of so many specimens, 0 if exact.

    What both share has cancelled in `gap`. The scatter of the repeats left in it is widened by
    its own degrees of freedom (Welch-Satterthwaite, JCGM 100 G.4.1), what rests on resolution and
    other limits by the normal factor, and the two are joined in quadrature, which is never too
    short (Banerjee, Sankhyā 22 (1960) 359; from memory). One factor for the whole would be shorter
    for a coarser instrument: a wide resolution must not vouch for a few scattered repeats.
    """
    if not hasattr(gap, "error_components"):
        return 0.0
    parts = [(part_of(v.tag).freedom, size**2) for v, size in gap.error_components().items()]
    whole = math.fsum(square for _, square in parts)
    scatter = math.fsum(square for freedom, square in parts if math.isfinite(freedom))
    limits = max(whole - scatter, 0.0)
    factor = coverage_factor(specimens)
    if scatter <= 1e-24 * whole:  # so little that its freedom could no longer be worked out
        return factor * math.sqrt(whole)
    freedom = degrees_of_freedom(gap) * (scatter / whole) ** 2
    return math.hypot(
        coverage_factor(specimens, freedom) * math.sqrt(scatter), factor * math.sqrt(limits)
    )


def power(gap: float, specimens: int, freedom: float = math.inf) -> float:
    """Return the chance that a real gap of so many standard uncertainties of itself is found.

    For a pair among so many specimens, and an uncertainty that is known or comes from repeats
    with that many degrees of freedom (noncentral t: Johnson, Kotz and Balakrishnan, Continuous
    Univariate Distributions 2, chapter 31; from memory). Three uncertainties are found in 85 of
    100 single pairs and in 73 among three specimens when known; few repeats find far less.
    """
    factor = coverage_factor(specimens, freedom)
    if math.isinf(freedom):
        normal = NormalDist()
        return normal.cdf(gap - factor) + normal.cdf(-gap - factor)
    from scipy.special import nctdtr  # noqa: PLC0415 - slow to load, and seldom needed

    return float(1.0 - nctdtr(freedom, gap, factor) + nctdtr(freedom, gap, -factor))
