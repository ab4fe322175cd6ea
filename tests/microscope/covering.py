"""Covering circles by brute force: slow, plain, and made without the code that it checks."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import distance_transform_edt


def thickness(open_mask: np.ndarray) -> np.ndarray:
    """Diameter of the largest circle within `open_mask` that covers each of its pixels.

    Every pixel's own circle is painted, the small ones first; circles may pass the frame.
    """
    reach = distance_transform_edt(open_mask)
    painted = np.zeros(open_mask.shape)
    ys, xs = np.nonzero(open_mask)
    order = np.argsort(reach[ys, xs], kind="stable")
    height, width = open_mask.shape
    for y, x in zip(ys[order], xs[order], strict=True):
        r = reach[y, x]
        n = int(np.ceil(r))
        top, left = max(0, y - n), max(0, x - n)
        down, across = np.ogrid[
            top - y : min(height, y + n + 1) - y, left - x : min(width, x + n + 1) - x
        ]
        inside = down**2 + across**2 < r * r
        view = painted[top : top + inside.shape[0], left : left + inside.shape[1]]
        view[inside] = np.maximum(view[inside], 2 * r)
    return painted


def percentile_diameters(open_mask: np.ndarray, shares: tuple[float, ...]) -> np.ndarray:
    """Area-weighted percentiles of `thickness` over the open pixels."""
    return np.quantile(thickness(open_mask)[open_mask], shares)
