"""Histograms of shares, brought to common edges and averaged."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

Histogram = tuple[Sequence[float], Sequence[float]]
"""Edges, one more than shares; and the shares between them."""


def common_edges(histograms: Sequence[Histogram], bins: int) -> tuple[float, ...]:
    """Return edges of so many equal bins from nought to the widest of the histograms."""
    top = max((edges[-1] for edges, _ in histograms if edges), default=0.0)
    return tuple(top * number / bins for number in range(bins + 1)) if top > 0.0 else ()


def averaged(histograms: Sequence[Histogram], edges: Sequence[float]) -> tuple[float, ...]:
    """Return the mean share between each two of `edges`; every histogram counts alike.

    Within a bin of a histogram its share is taken to lie evenly.
    """
    if not histograms or len(edges) < 2:
        return ()
    spread = [_brought(one, edges) for one in histograms]
    return tuple(sum(column) / len(spread) for column in zip(*spread, strict=True))


def _brought(histogram: Histogram, edges: Sequence[float]) -> list[float]:
    found = [0.0] * (len(edges) - 1)
    own, shares = histogram
    for low, high, share in zip(own, own[1:], shares, strict=False):
        for number, (left, right) in enumerate(pairwise(edges)):
            overlap = min(high, right) - max(low, left)
            if overlap > 0.0:
                found[number] += share * overlap / (high - low)
    return found
