"""Six invented filters with a value for everything that the shipped rules score."""

from __future__ import annotations

import random

from benchlog.judge.evidence import Evidence
from benchlog.judge.rules import ValueKind
from benchlog.measure.finding import Finding
from tests.derive.found import number, word
from tests.judge.bench_of import SHIPPED, SPECIMENS, SPIN_ON, evidence

UNCERTAIN = 0.02
"""Standard uncertainty of every number, as a share of the span of its value function."""


def six_filters(seed: int = 3) -> Evidence:
    """Return what is known of them, figures worked out."""
    chance = random.Random(seed)
    asked = {attribute.key for attribute in SPIN_ON.attributes}
    scored = [e for e in SHIPPED.entries if e.subject in asked and e.kind is not ValueKind.NONE]
    found: list[Finding] = []
    for specimen in SPECIMENS:
        for entry in scored:
            if entry.kind is ValueKind.PIECEWISE:
                low, high = entry.anchors[0].at, entry.anchors[-1].at
                value, u = chance.uniform(low, high), UNCERTAIN * (high - low)
                found.append(number(entry.subject, value, entry.unit, u, specimen.id))
            else:
                rank = chance.choice(entry.ranks)
                found.append(word(entry.subject, rank.key, specimen.id))
        found += [
            number("media_length", chance.uniform(1200, 1300), "mm", 2.0, specimen.id),
            number("media_width", 62, "mm", 0.1, specimen.id),
            number("media_hidden", 7, "mm", 0.1, specimen.id),
            word("media_kind", "blend", specimen.id),
            number("outlet_bore", 20, "mm", 0.1, specimen.id),
            number("tube_open_area", chance.uniform(300, 340), "mm**2", 5.0, specimen.id),
        ]
    return evidence(found, SPECIMENS)
