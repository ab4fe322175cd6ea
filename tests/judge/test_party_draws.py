"""Several specimens of one part are ranked as one, as sure as they agree."""

from dataclasses import replace

import numpy
import pytest
from scipy.stats import norm
from scipy.stats import t as student

from benchlog.judge.groups import expanded_between
from benchlog.judge.party_draws import party_values
from benchlog.judge.ranking import ranking_of
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from tests.judge.bench_of import evidence, first
from tests.judge.test_parties import parts
from tests.judge.test_ranking import BOTH, CAN_ONLY, NOISE, TRIALS, walls

PAIR = parts("LF-1", "LF-2", "LF-1")
"""Alpha and Charlie are one part, Bravo is another."""
FOUR = parts("LF-1", "LF-2", "LF-1", "LF-2")


def ranked(sizes, specimens, u=0.0, by=CAN_ONLY):
    return ranking_of(by, BOTH, evidence(walls(*sizes, u=u), specimens), TRIALS)


def test_one_part_takes_one_rank():
    found = ranked((0.50, 0.30, 0.52), PAIR, u=0.001)
    assert found.parties == (("a", "c"), ("b",))
    assert found.ids == ("a", "b")
    assert found.party("a") == ("a", "c")
    assert len(found.shares.acceptability) == 2


def test_alike_specimens_rank_by_their_mean():
    # s² of 0.49 and 0.51 is 0.0002; measured within 0.02 each they scatter by more than that.
    found = ranked((0.49, 0.52, 0.51), PAIR, u=0.02)
    size = (0.02**2 / 2 + 0.02**2) ** 0.5
    assert found.shares.before[1][0] == pytest.approx(norm.cdf(0.02 / size), abs=NOISE)


def test_scatter_between_specimens_counts():
    """Exact walls: the part's mean is as sure as s/√2, with one degree of freedom (Welch)."""
    found = ranked((0.45, 0.52, 0.55), PAIR)
    size = (0.45 - 0.55) ** 2 / 2
    share = student.cdf(0.02 / (size / 2) ** 0.5, 1)
    assert found.shares.before[1][0] == pytest.approx(share, abs=NOISE)
    assert found.shares.leads[1][0] == pytest.approx(-found.shares.leads[0][1])


def test_scatter_is_that_of_the_awards():
    """Half of the draws lie between the quartiles of what `groups` gives the same mean."""
    numbers = [variable(0.3, Part(f"own/{n}")) + 5 + shift for n, shift in enumerate((-1, 0, 1))]
    drawn = numpy.random.default_rng(3).standard_normal((3, 1, TRIALS)) * 0.3
    drawn += numpy.array([4.0, 5.0, 6.0])[:, None, None]
    (mean,) = party_values(drawn, "abc", (("a", "b", "c"),), ["can"], 1)
    low, high = numpy.percentile(mean, (2.5, 97.5))
    expanded = expanded_between(numbers, [0.0], 2)
    assert (high - low) / 2 == pytest.approx(expanded, rel=0.05)


def test_shared_error_is_no_scatter():
    """One gauge pushes both of a part the same way: the part stays as far behind as it was."""
    gauge = variable(0.05, Part("instrument/gauge", Spread.RECTANGULAR))
    findings = [
        Finding("can_wall", s, State.MEASURED, quantity=registry().Quantity(size + gauge, "mm"))
        for s, size in (("a", 0.50), ("b", 0.51), ("c", 0.50))
    ]
    found = ranking_of(CAN_ONLY, BOTH, evidence(findings, PAIR), TRIALS)
    assert found.shares.acceptability == ((0.0, 1.0), (1.0, 0.0))


def test_worths_stay_within_the_scale():
    drawn = numpy.repeat(numpy.array([0.1, 9.9])[:, None, None], TRIALS, axis=2)
    values = party_values(drawn, "ab", (("a", "b"),), ["can"], 1)
    assert values.shape == (1, 1, TRIALS)
    assert (values.min(), values.max()) == (0.0, 10.0)


def test_single_specimens_are_left_as_they_are():
    drawn = numpy.ones((2, 1, 5))
    assert party_values(drawn, "ab", (("a",), ("b",)), ["can"], 1) is drawn


def test_order_on_the_bench_changes_no_share():
    findings = walls(0.40, 0.45, 0.50, 0.47, u=0.01)
    straight = ranking_of(CAN_ONLY, BOTH, evidence(findings, FOUR), TRIALS)
    turned = ranking_of(CAN_ONLY, BOTH, evidence(findings, FOUR[::-1]), TRIALS)
    assert turned.parties == (("d", "b"), ("c", "a"))
    firsts = [own[0] for own in straight.shares.acceptability]
    assert [own[0] for own in turned.shares.acceptability] == pytest.approx(firsts[::-1], abs=NOISE)


def test_member_without_values_leaves_the_others():
    found = ranked((0.50, 0.30), PAIR, u=0.001)
    assert found.left_out == {"c": "too few values for what counts under this purpose"}
    assert found.parties == (("a",), ("b",))


def test_one_part_alone_is_ranked_piece_by_piece():
    same = tuple(replace(s, maker="Larkfield", part_number="LF-1") for s in first(2))
    assert ranked((0.50, 0.30), same).ids == ("a", "b")
    lone = ranked((0.50,), PAIR)
    assert lone.refused == "Fewer than two parts have values for what counts under this purpose."
