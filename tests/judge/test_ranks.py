"""Rank acceptability, central weights and confidence against closed forms and a published case."""

from itertools import permutations

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from benchlog.judge.ranks import rank_shares, simplex_weights

TRIALS = 200_000
NOISE = 4 / (2 * TRIALS**0.5)
"""Four standard deviations of a share of these trials, at the most."""


def drawn(means, sizes, seed=1):
    """Values of one criterion, normal and independent."""
    rng = numpy.random.default_rng(seed)
    shape = (len(means), 1, TRIALS)
    return numpy.array(means)[:, None, None] + numpy.array(sizes)[:, None, None] * (
        rng.standard_normal(shape)
    )


ONE = numpy.ones((1, 1))


# Order statistics, P(i first) = ∫ fᵢ ∏ Fⱼ, worked by quadrature: N(50,1), N(51,1), N(53,1.5).
def test_three_normals_rank_as_integrated():
    found = rank_shares(drawn((50, 51, 53), (1, 1, 1.5)), ONE)
    first = [row[0] for row in found.acceptability]
    assert first == pytest.approx([0.0262339, 0.1235029, 0.8502632], abs=NOISE)
    assert found.acceptability[1] == pytest.approx([0.1235, 0.6467, 0.2298], abs=NOISE + 5e-5)
    assert found.before[1][0] == pytest.approx(0.7602499, abs=NOISE)
    assert found.before[2][1] == pytest.approx(0.8663713, abs=NOISE)
    assert found.before[2][0] == pytest.approx(0.9519538, abs=NOISE)


def test_quadrature_gives_the_same_shares():
    means, sizes = (2.0, 2.4, 3.0, 2.9), (0.5, 0.8, 0.3, 0.6)

    def share(i):
        def density(x):
            product = norm.pdf(x, means[i], sizes[i])
            for j in range(4):
                if j != i:
                    product *= norm.cdf(x, means[j], sizes[j])
            return product

        return quad(density, -3, 8)[0]

    found = rank_shares(drawn(means, sizes), ONE)
    assert [r[0] for r in found.acceptability] == pytest.approx(
        [share(i) for i in range(4)], abs=NOISE
    )


def best_at_one(count):
    """As many specimens as criteria, each best at its own and worthless in the others."""
    return numpy.repeat(numpy.eye(count)[:, :, None], TRIALS, axis=2)


# Who is best at the weightiest criterion is first. The weightiest of n weights spread evenly over
# the simplex is (1 + 1/2 + ... + 1/n)/n in the mean: the rank order centroid, published as 0.6111
# for n = 3 and 0.5208 for n = 4 (Barron and Barrett, Management Science 42 (1996) 1515).
@pytest.mark.parametrize(("count", "centroid"), [(2, 0.75), (3, 0.6111), (4, 0.5208)])
def test_central_weights_are_the_centroid(count, centroid):
    weights = simplex_weights((None,) * count, TRIALS, seed=7)
    found = rank_shares(best_at_one(count), weights)
    for i in range(count):
        assert found.acceptability[i] == pytest.approx([1 / count] * count, abs=NOISE)
        assert found.central[i][i] == pytest.approx(centroid, abs=2e-3)
        others = [w for j, w in enumerate(found.central[i]) if j != i]
        assert others == pytest.approx([(1 - centroid) / (count - 1)] * (count - 1), abs=2e-3)
        assert found.confidence[i] == 1.0


# Two criteria, exact values: A (1, 0), B (0.6, 0.6), C (0, 1). A is first where its weight w on
# the first is above 0.6, C where it is below 0.4, B between; so 0.4, 0.2, 0.4 with middles 0.8,
# 0.5 and 0.2. B is last nowhere, though A and C are first twice as often.
def test_lengths_of_the_weight_line():
    exact = numpy.array([[1, 0], [0.6, 0.6], [0, 1]])
    values = numpy.repeat(exact[:, :, None], TRIALS, axis=2)
    found = rank_shares(values, simplex_weights((None, None), TRIALS, seed=3))
    assert [r[0] for r in found.acceptability] == pytest.approx([0.4, 0.2, 0.4], abs=NOISE)
    assert [r[2] for r in found.acceptability] == pytest.approx([0.5, 0.0, 0.5], abs=NOISE)
    assert [c[0] for c in found.central] == pytest.approx([0.8, 0.5, 0.2], abs=NOISE)
    assert found.confidence == (1.0, 1.0, 1.0)
    assert found.before[1] == pytest.approx((0.6, 0.5, 0.6), abs=NOISE)


def test_confidence_is_of_the_central_weights():
    """One weight vector only: confidence is then acceptability itself."""
    found = rank_shares(drawn((5.0, 5.3), (0.4, 0.3)), ONE)
    apart = norm.cdf(0.3 / 0.5)
    assert found.confidence == pytest.approx((1 - apart, apart), abs=NOISE)
    assert found.central == ((1.0,), (1.0,))


def test_shared_uncertainty_changes_no_rank():
    common = drawn((0.0,), (5.0,))
    found = rank_shares(numpy.array([[[1.0]], [[2.0]]]) + common, ONE)
    assert found.acceptability == ((0.0, 1.0), (1.0, 0.0))
    assert found.central[0] is None
    assert found.confidence[0] is None


def test_level_specimens_share_their_ranks():
    values = numpy.full((3, 1, 10), 4.0)
    values[2] = 1.0
    found = rank_shares(values, ONE)
    assert found.acceptability == ((0.5, 0.5, 0.0), (0.5, 0.5, 0.0), (0.0, 0.0, 1.0))
    assert found.before[0] == (0.5, 0.5, 1.0)
    assert found.confidence == (0.5, 0.5, None)


def test_alone_one_is_first():
    found = rank_shares(numpy.full((1, 2, 5), 3.0), simplex_weights((None, None), 5, 1))
    assert found.acceptability == ((1.0,),)


@given(st.integers(2, 6), st.integers(1, 4), st.integers(0, 1000))
def test_rows_and_columns_sum_to_one(count, criteria, seed):
    rng = numpy.random.default_rng(seed)
    values = numpy.round(rng.uniform(0, 3, (count, criteria, 300)))
    found = rank_shares(values, simplex_weights((None,) * criteria, 300, seed))
    table = numpy.array(found.acceptability)
    assert table.sum(axis=0) == pytest.approx(numpy.ones(count))
    assert table.sum(axis=1) == pytest.approx(numpy.ones(count))
    before = numpy.array(found.before)
    assert before + before.T == pytest.approx(numpy.ones((count, count)))
    for central in found.central:
        assert central is None or sum(central) == pytest.approx(1.0)


def test_order_of_specimens_turns_nothing():
    values = numpy.random.default_rng(5).normal(5, 1, (3, 2, 2000))
    weights = simplex_weights((None, None), 2000, 9)
    straight = rank_shares(values, weights)
    for order in permutations(range(3)):
        turned = rank_shares(values[list(order)], weights)
        assert turned.acceptability == tuple(straight.acceptability[i] for i in order)


def test_open_weights_cover_the_simplex_evenly():
    """Each of n weights is Beta(1, n - 1): mean 1/n, variance (n - 1)/(n²(n + 1))."""
    weights = simplex_weights((None,) * 4, TRIALS, seed=11)
    assert weights.sum(axis=0) == pytest.approx(numpy.ones(TRIALS))
    assert weights.mean(axis=1) == pytest.approx([0.25] * 4, abs=2e-3)
    assert weights.var(axis=1) == pytest.approx([3 / 80] * 4, rel=0.02)


def test_fixed_weights_stay_and_the_rest_is_shared():
    weights = simplex_weights((0.5, None, 0.2, None), 1000, seed=2)
    assert (weights[0] == 0.5).all()
    assert (weights[2] == 0.2).all()
    assert weights.sum(axis=0) == pytest.approx(numpy.ones(1000))
    assert simplex_weights((3.0, 1.0), 1000, seed=2).tolist() == [[0.75], [0.25]]


@pytest.mark.parametrize("fixed", [(0.8, 0.4, None), (-0.1, None), (0.0, 0.0)])
def test_weights_without_room_are_refused(fixed):
    with pytest.raises(ValueError, match="weigh"):
        simplex_weights(fixed, 10, 1)


def test_weights_of_other_criteria_are_refused():
    with pytest.raises(ValueError, match="do not belong"):
        rank_shares(numpy.ones((2, 3, 10)), numpy.ones((2, 10)))


def test_same_seed_gives_the_same_weights():
    one = simplex_weights((None, None), 50, seed=4)
    simplex_weights.cache_clear()
    assert (one == simplex_weights((None, None), 50, seed=4)).all()
    assert (one != simplex_weights((None, None), 50, seed=5)).any()


# A published worked example of SMAA-2: two medicines, three risks as beta distributions, each worth
# 1 to 0 over a stated scale, printed from 10 000 trials (the reference output of van Valkenhoef's
# smaa for R, 2013; the trial is Lynd and O'Brien's, J. Clin. Epidemiol. 57 (2004) 795).
FIRST_MEDICINE = ((20, 116), (40, 96), (1, 135))
SECOND_MEDICINE = ((8, 121), (32, 97), (5, 124))
SCALES = ((0.25, 0.0), (0.4, 0.15), (0.1, 0.0))
PRINTED_NOISE = 4 * 0.5 / 10_000**0.5


def medicines():
    rng = numpy.random.default_rng(12)
    return numpy.array(
        [
            [
                (worst - rng.beta(a, b, TRIALS)) / (worst - best)
                for (a, b), (worst, best) in zip(risks, SCALES, strict=True)
            ]
            for risks in (FIRST_MEDICINE, SECOND_MEDICINE)
        ]
    )


def test_published_example_with_open_weights():
    found = rank_shares(medicines(), simplex_weights((None,) * 3, TRIALS, seed=21))
    assert [r[0] for r in found.acceptability] == pytest.approx([0.3504, 0.6496], abs=PRINTED_NOISE)
    assert found.central[0] == pytest.approx((0.1865, 0.2772, 0.5363), abs=0.012)
    assert found.central[1] == pytest.approx((0.4073, 0.3641, 0.2285), abs=0.012)
    assert found.confidence == pytest.approx((0.6682, 0.8956), abs=PRINTED_NOISE)


def test_published_example_with_fixed_weights():
    found = rank_shares(medicines(), simplex_weights((0.5, 0.2, 0.3), TRIALS, seed=21))
    assert [r[0] for r in found.acceptability] == pytest.approx([0.1279, 0.8721], abs=PRINTED_NOISE)
