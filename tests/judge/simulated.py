"""Line-ups of filters whose true sizes are known, measured by chance, and judged."""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from benchlog.judge.comparisons import ring_of
from benchlog.judge.evidence import Evidence
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.trade.component import Component
from tests.judge.bench_of import SPIN_ON, first, piecewise, rules

SUBJECTS = ("can_wall", "can_dome_wall", "can_height")
SCATTER = 0.01


@dataclass(frozen=True)
class Way:
    """How every filter of a line-up is measured.

    `repeats` 0 stands for a scatter that is known beforehand; `limit` is the half-width of a
    rectangular error of each reading's own, `shared` that of the instrument's, which all share.
    """

    repeats: int
    limit: float = 0.0
    shared: float = 0.0
    subjects: int = 1


def leads(way: Way, truths: tuple[float, ...], rng: numpy.random.Generator) -> set[tuple[str, str]]:
    """Return who leads whom when filters of these true sizes are measured and judged once."""
    specimens = first(len(truths))
    subjects = SUBJECTS[: way.subjects]
    findings = {}
    for subject in subjects:
        error = rng.uniform(-1.0, 1.0) * way.shared
        instrument = _rectangular(way.shared, f"instrument/{subject}")
        for specimen, truth in zip(specimens, truths, strict=True):
            value = truth + error + _measured(way, f"{subject}/{specimen.id}", rng) + instrument
            findings[subject, specimen.id] = Finding(
                subject, specimen.id, State.MEASURED,
                quantity=registry().Quantity(value, "millimeter"),
            )  # fmt: skip
    entries = [piecewise(subject, (0, 0), (1, 10)) for subject in subjects]
    bench = Evidence(findings, {}, SPIN_ON, specimens)
    ids = tuple(specimen.id for specimen in specimens)
    ring = ring_of(Component.CAN, ids, rules(*entries, score=1e-9), bench)
    return {(pair.ahead, pair.behind) for pair in ring.compared if pair.ahead}


def share_with_a_lead(way: Way, count: int, lineups: int, seed: int) -> float:
    """Return the share of line-ups of equal filters in which somebody leads."""
    rng = numpy.random.default_rng(seed)
    return sum(bool(leads(way, (0.5,) * count, rng)) for _ in range(lineups)) / lineups


def share_found(way: Way, count: int, gap: float, lineups: int, seed: int) -> float:
    """Return the share of line-ups in which the one that is `gap` ahead leads the second."""
    rng = numpy.random.default_rng(seed)
    truths = (0.5 + gap, *(0.5,) * (count - 1))
    return sum(("a", "b") in leads(way, truths, rng) for _ in range(lineups)) / lineups


def uncertainty_of_a_gap(way: Way) -> float:
    """Return the true standard uncertainty of the difference between two filters."""
    scatter = SCATTER**2 / max(way.repeats, 1)
    return float((2 * (scatter + way.limit**2 / 3)) ** 0.5)


def _measured(way: Way, name: str, rng: numpy.random.Generator) -> object:
    off = rng.uniform(-1.0, 1.0) * way.limit
    own = _rectangular(way.limit, f"{name}/resolution")
    if not way.repeats:
        known = variable(SCATTER, Part(f"{name}/scatter"))
        return rng.standard_normal() * SCATTER + off + known + own
    taken = rng.standard_normal(way.repeats) * SCATTER
    size = float(taken.std(ddof=1)) / way.repeats**0.5
    part = Part(f"{name}/repeats", Spread.REPEATS, way.repeats - 1)
    return float(taken.mean()) + off + variable(size, part) + own


def _rectangular(half: float, name: str) -> object:
    return variable(half / 3**0.5, Part(name, Spread.RECTANGULAR)) if half else 0.0
