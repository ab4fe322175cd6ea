"""Scores and ranks against pymcdm's weighted sum model (Fishburn 1967) on random line-ups.

The model scales each criterion by the least and the most of all alternatives. Two more
alternatives, one at the worst anchors and one at the best, make that our absolute anchors.
pymcdm brings drawing libraries along, so only the tests here wait for it, not the collecting.
"""

from dataclasses import dataclass

import numpy
import pytest

from benchlog.judge.evidence import Evidence
from benchlog.judge.ranks import rank_shares
from benchlog.judge.scores import score_of
from benchlog.judge.value_functions import middle, worth_of
from benchlog.trade.component import Component
from tests.derive.found import number
from tests.judge.bench_of import SPIN_ON, first, keyed, piecewise, rules

SUBJECTS = ("can_wall", "can_dome_wall", "can_height", "can_diameter")


@dataclass(frozen=True)
class Case:
    """A random line-up: values by specimen and subject, anchors, weights."""

    values: numpy.ndarray
    low: numpy.ndarray
    high: numpy.ndarray
    rising: numpy.ndarray
    weights: numpy.ndarray

    def entries(self):
        """Our rules for it."""
        ends = [(0, 10) if up else (10, 0) for up in self.rising]
        return tuple(
            piecewise(subject, (low, at_low), (high, at_high), weight=weight)
            for subject, low, high, (at_low, at_high), weight in zip(
                SUBJECTS, self.low, self.high, ends, self.weights, strict=True
            )
        )

    def theirs(self):
        """What the outside model makes of the specimens, 0 to 1."""
        from pymcdm.methods import WSM
        from pymcdm.normalizations import minmax_normalization

        best = numpy.where(self.rising, self.high, self.low)
        worst = numpy.where(self.rising, self.low, self.high)
        types = numpy.where(self.rising, 1, -1)
        model = WSM(minmax_normalization)
        table = numpy.vstack([self.values, best, worst])
        return model(table, self.weights / self.weights.sum(), types, validation=False)[:-2]


def case(seed):
    chance = numpy.random.default_rng(seed)
    low = chance.uniform(0.1, 5, len(SUBJECTS))
    high = low + chance.uniform(0.5, 50, len(SUBJECTS))
    count = int(chance.integers(2, 7))
    return Case(
        values=chance.uniform(low, high, (count, len(SUBJECTS))),
        low=low,
        high=high,
        rising=chance.random(len(SUBJECTS)) < 0.5,
        weights=chance.uniform(0.1, 5, len(SUBJECTS)),
    )


def bench(known):
    specimens = first(len(known.values))
    found = [
        number(subject, value, "mm", 0.0, specimen.id)
        for specimen, row in zip(specimens, known.values, strict=True)
        for subject, value in zip(SUBJECTS, row, strict=True)
    ]
    return specimens, Evidence(keyed(found), {}, SPIN_ON, specimens)


@pytest.mark.parametrize("seed", range(12))
def test_scores_are_weighted_sums(seed):
    known = case(seed)
    specimens, found = bench(known)
    by = rules(*known.entries())
    scores = [score_of(Component.CAN, s.id, by, found).value for s in specimens]
    assert scores == pytest.approx(10 * known.theirs(), abs=1e-9)


@pytest.mark.parametrize("seed", range(12, 24))
def test_ranks_are_the_weighted_sums(seed):
    from pymcdm.helpers import rrankdata

    known = case(seed)
    specimens, found = bench(known)
    worths = numpy.array(
        [
            [[middle(worth_of(e, found.outcome(e.subject, s.id)).nominal)] for e in known.entries()]
            for s in specimens
        ]
    )
    shares = rank_shares(worths, (known.weights / known.weights.sum())[:, None])
    ours = [row.index(1.0) + 1 for row in shares.acceptability]
    assert ours == list(rrankdata(known.theirs()))
