"""Two media by their pictures: plain answers in, plain answers out, as they go into JSON."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from typing import Any

from benchlog.errors import EntryRefused
from benchlog.measure.micrograph import NOT_A_RATING
from benchlog.measure.picture_doubt import OWN_LIGHT, typical_share
from benchlog.microscope.comparing import opening_difference
from benchlog.microscope.fields import medium_mean, more_fields

COMPARED = ("D50", "open area", "fibre median")

_IN_WORDS = {"tighter": "smaller", "more open": "larger"}
"""What the answer on an opening means for a figure that is none."""

Plain = dict[str, Any]


def compare_media(first: Sequence[Plain], second: Sequence[Plain], wanted: float) -> Plain:
    """Return how two media of one set-up differ by their pictures' answers (see `answers`).

    `wanted` is the difference, as a share, that should be told apart. Refused pictures take no
    part. Raises EntryRefused without two measured fields of each, or when light was found to come
    from above in some and from below in others.
    """
    a, b = _measured(first), _measured(second)
    lights = {one["light"] for one in (*a, *b)}
    if len(lights) > 1:
        raise EntryRefused(
            "Some fields are lit from above, some from below: those are not compared.",
            "Say where the light comes from, or take all in one light.",
        )
    light = next(iter(lights), "")
    return {
        "light": light,
        "first": _medium(first, a, wanted),
        "second": _medium(second, b, wanted),
        "differences": {
            key: _difference(key, a, b, light)
            for key in COMPARED
            if key == COMPARED[0] or _fewest(key, a, b) > 1
        },
        "beside": NOT_A_RATING,
    }


def _measured(answers: Sequence[Plain]) -> list[Plain]:
    return [one for one in answers if one["verdict"] == "measured"]


def _values(key: str, answers: Sequence[Plain]) -> list[float]:
    return [one["figures"][key]["value"] for one in answers if key in one["figures"]]


def _fewest(key: str, *media: Sequence[Plain]) -> int:
    return min(len(_values(key, answers)) for answers in media)


def _medium(answers: Sequence[Plain], measured: Sequence[Plain], wanted: float) -> Plain:
    means = {}
    for key in COMPARED:
        if values := _values(key, measured):
            mean = medium_mean(values)
            means[key] = {
                "mean": mean.mean,
                "fields": mean.count,
                "spread": mean.spread,
                "half_width": mean.half_width,
                "more_fields": more_fields(values, wanted * abs(mean.mean)),
            }
    return {
        "pictures": len(answers),
        "measured": len(measured),
        "reasons": [reason for one in answers for reason in one["reasons"]],
        "means": means,
    }


def _difference(key: str, a: Sequence[Plain], b: Sequence[Plain], light: str) -> Plain:
    """Return the difference of one figure; its light is common but for each medium's own share."""
    stated = typical_share(
        (one["figures"][key]["value"], one["figures"][key]["u_sampling"])
        for one in (*a, *b)
        if key in one["figures"]
    )
    own = OWN_LIGHT.get(light, 0.0) * math.hypot(*(_systematic(key, part) for part in (a, b)))
    found = opening_difference(_values(key, a), _values(key, b), own, stated)
    answer = found.answer if key == "D50" else _IN_WORDS.get(found.answer, found.answer)
    return {
        "answer": answer,
        "why": found.why,
        "difference": found.difference,
        "low": found.low,
        "high": found.high,
        "percent": found.percent if math.isfinite(found.percent) else None,
        "degrees_of_freedom": found.freedom if math.isfinite(found.freedom) else None,
    }


def _systematic(key: str, answers: Sequence[Plain]) -> float:
    known = [one["figures"][key]["u_systematic"] for one in answers if key in one["figures"]]
    return statistics.fmean(known) if known else 0.0
