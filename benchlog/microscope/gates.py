"""What a picture must hold before it is measured: each gate has a value, a limit and its words."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Outcome = Literal["passed", "warned", "refused"]


@dataclass(frozen=True)
class Gate:
    """One gate: what was measured, the limit it was held against, what came of it and why."""

    key: str
    value: float
    limit: float
    outcome: Outcome
    words: str = ""


MOST_UNEVEN = 4.3
"""Of the fitted surface's brightest over its darkest. A smooth surface falls short of a steep
fall-off: light that falls to a fifth in the corners reads 4.1 to 4.4, to a third 2.8 to 3.0."""

UNEVEN = "The light is too uneven: centre it, or take out the stop."


def low_gate(key: str, value: float, limit: float, words: str) -> Gate:
    """Return a gate that refuses a value below its limit."""
    bad = not value >= limit
    return Gate(key, value, limit, "refused" if bad else "passed", words if bad else "")


def high_gate(key: str, value: float, limit: float, words: str) -> Gate:
    """Return a gate that refuses a value above its limit."""
    bad = not value <= limit
    return Gate(key, value, limit, "refused" if bad else "passed", words if bad else "")


def light_gates(brightest: float, over: float, ratio: float) -> list[Gate]:
    """Return the gates that need no fibres: how bright and how even the picture is.

    `brightest` is the 99th percentile as the file's value of 255, `over` the share at white.
    """
    return [
        low_gate("brightness", brightest, 45.0, "The picture is too dark: more light, or longer."),
        high_gate("white", over, 0.05, "Too much of the picture is pure white: less light."),
        high_gate("evenness", ratio, MOST_UNEVEN, UNEVEN),
    ]


def contrast_gate(contrast_to_noise: float) -> Gate:
    """Return the gate of contrast between fibres and openings over the noise of a pixel."""
    return low_gate(
        "contrast",
        contrast_to_noise,
        5.0,
        "Fibres hardly stand out from the noise: a darker backing, or more light.",
    )


def sharpness_gates(steepness: float, width_px: float, accepted: float) -> list[Gate]:
    """Return the gates of edges: steep enough, enough pixels a fibre, and fibres at all."""
    coarse = "Fibres are too few pixels wide: a stronger objective."
    blurred = "The picture is blurred: focus on the uppermost fibres and take it again."
    sharp = low_gate("sharpness", steepness, 2.0, coarse if width_px < 8.0 else blurred)
    if sharp.outcome == "passed" and steepness < 2.8:
        sharp = Gate("sharpness", steepness, 2.0, "warned", "The picture is a little soft.")
    wide = low_gate("pixels a fibre", width_px, 7.0, coarse)
    if wide.outcome == "passed" and width_px < 10.0:
        words = "Fibres are less than 10 pixels wide: their diameter may be 10 to 15 % off."
        wide = Gate("pixels a fibre", width_px, 7.0, "warned", words)
    fibres = low_gate(
        "fibre-like", accepted, 0.80, "Much of what was found does not look like fibres."
    )
    return [sharp, wide, fibres]


LAYERS = (
    "Deeper fibres are nearly as bright and sharp as the top ones, so the layers cannot be told "
    "apart: light at a lower angle over a black backing, or a thinner layer."
)


SOFTEST = {"above": 0.11, "below": 0.075}
"""Share of soft outline by light. A round fibre lit from above has soft edges of its own."""


def layer_gates(
    swing: float, open_swing: float, soft_edges: float, softest: float = SOFTEST["above"]
) -> list[Gate]:
    """Return the gates of depth: how much hangs on the level, and how many edges are soft.

    `swing` is the largest change of D50 as a share, `open_swing` that of the open area, when the
    level moves by a tenth of the contrast either way. "layers" is for pictures that all but fail
    twice.
    """
    return [
        high_gate("level swing", swing, 0.15, LAYERS),
        high_gate("open area swing", open_swing, 0.12, LAYERS),
        high_gate("soft edges", soft_edges, softest, LAYERS),
        high_gate("layers", math.hypot(swing / 0.15, soft_edges / softest), 1.2, LAYERS),
    ]


LARGE_OPENINGS = "large openings swing"


def large_openings_gate(swing: float) -> Gate:
    """Return the gate of D90: a warning where it changes by more than its limit with the level."""
    limit = 0.15
    if swing <= limit:
        return Gate(LARGE_OPENINGS, swing, limit, "passed")
    words = "In the largest openings deeper fibres can hardly be told from dark ground."
    return Gate(LARGE_OPENINGS, swing, limit, "warned", words)


def open_gates(open_share: float, openings_across: float) -> list[Gate]:
    """Return the gates of the open area: some, not all, and enough openings in the field."""
    return [
        low_gate("open, least", open_share, 0.03, "Hardly anything is open in this picture."),
        high_gate("open, most", open_share, 0.97, "Hardly a fibre lies in this picture."),
        low_gate(
            "openings across",
            openings_across,
            7.0,
            "The field holds too few openings: a weaker objective, or a larger picture.",
        ),
    ]
