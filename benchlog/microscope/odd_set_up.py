"""What no set-up can be: said before anything is measured with it, wherever it comes from."""

from __future__ import annotations

import math

from benchlog.errors import EntryRefused
from benchlog.microscope.measure import SetUp
from benchlog.tasks.set_ups import LIGHTS, MOST_OFFSET_PX


def refuse_odd(setup: SetUp) -> None:
    """Raise EntryRefused for a scale, an uncertainty, a light or an edge offset that is none."""
    scale, offset = setup.scale, setup.edge_offset_px
    if not (math.isfinite(scale.um_per_px) and scale.um_per_px > 0.0):
        raise EntryRefused(
            f"{scale.um_per_px} is no scale.", "Say how many micrometres one pixel is, above 0."
        )
    if not (math.isfinite(scale.u_um_per_px) and scale.u_um_per_px >= 0.0):
        raise EntryRefused(
            f"{scale.u_um_per_px} is no uncertainty of a scale.", "Say it as 0 or more."
        )
    if setup.light not in LIGHTS:
        raise EntryRefused(
            f"'{setup.light}' is no direction of light.", "Say above, below or automatic."
        )
    if offset is not None and not abs(offset) <= MOST_OFFSET_PX:
        raise EntryRefused(
            f"{offset} pixels are no edge offset: no light makes more than {MOST_OFFSET_PX:g}.",
            "Say it in pixels, such as -0.4 or 0.3.",
        )
