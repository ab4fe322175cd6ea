"""Line-ups of parts, several specimens each, measured by chance and judged."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy

from benchlog.judge.comparisons import ring_of
from benchlog.judge.evidence import Evidence
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.trade.component import Component
from tests.judge.bench_of import SPIN_ON, first, piecewise, rules

SUBJECT = "can_wall"


@dataclass(frozen=True)
class Made:
    """How far specimens of one part lie apart, and what each of them is measured with."""

    apart: float
    repeated: float
    limit: float
    shared: float = 0.02


def leads(
    made: Made, truths: tuple[float, ...], each: int, rng: numpy.random.Generator, *, told: bool
) -> set[tuple[str, str]]:
    """Return who leads whom when `each` specimens of parts of these true means are measured.

    Not `told` of their part numbers, the judge takes every specimen for itself.
    """
    specimens = tuple(
        replace(s, maker="Larkfield", part_number=f"LF-{n // each}" if told else "")
        for n, s in enumerate(first(len(truths) * each))
    )
    error = rng.uniform(-made.shared, made.shared)
    tool = variable(made.shared / 3**0.5, Part("instrument/calliper", Spread.RECTANGULAR))
    findings = {}
    for n, specimen in enumerate(specimens):
        own = Part(f"{specimen.id}/scatter", Spread.NORMAL)
        step = Part(f"{specimen.id}/resolution", Spread.RECTANGULAR)
        read = (
            truths[n // each] + error + made.apart * rng.standard_normal()
            + made.repeated * rng.standard_normal() + rng.uniform(-made.limit, made.limit)
        )  # fmt: skip
        value = read + tool + variable(made.repeated, own) + variable(made.limit / 3**0.5, step)
        findings[SUBJECT, specimen.id] = Finding(
            SUBJECT, specimen.id, State.MEASURED, quantity=registry().Quantity(value, "millimeter")
        )
    bench = Evidence(findings, {}, SPIN_ON, specimens)
    by = rules(piecewise(SUBJECT, (-1, 0), (2, 10)), score=1e-9)
    ring = ring_of(Component.CAN, tuple(s.id for s in specimens), by, bench)
    return {(pair.ahead, pair.behind) for pair in ring.compared if pair.ahead}


def share_with_a_lead(
    made: Made, parts: int, each: int, lineups: int, seed: int, *, told: bool = True
) -> float:
    """Return the share of line-ups of equal parts in which somebody leads."""
    rng = numpy.random.default_rng(seed)
    truths = (0.5,) * parts
    return sum(bool(leads(made, truths, each, rng, told=told)) for _ in range(lineups)) / lineups


def share_found(made: Made, each: int, gap: float, lineups: int, seed: int) -> float:
    """Return the share of line-ups of two parts in which the better one leads."""
    rng = numpy.random.default_rng(seed)
    found = (leads(made, (0.5 + gap, 0.5), each, rng, told=True) for _ in range(lineups))
    return sum(bool(lead) and next(iter(lead))[0] == "a" for lead in found) / lineups
