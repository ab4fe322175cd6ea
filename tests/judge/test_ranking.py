"""Ranks of a line-up under a declared purpose."""

from dataclasses import replace
from decimal import Decimal
from itertools import permutations

import numpy
import pytest
from scipy.stats import norm
from uncertainties import ufloat

from benchlog.errors import OurFault
from benchlog.judge.evidence import Evidence
from benchlog.judge.purposes import Purpose
from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.ranking import ranking_of
from benchlog.judge.worth_draws import draw_worths
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from benchlog.trade.attribute import Support
from tests.derive.found import number, word
from tests.judge.bench_of import (
    SHIPPED,
    SPIN_ON,
    evidence,
    first,
    keyed,
    piecewise,
    ranked,
    rules,
)

TRIALS = 40_000
NOISE = 4 / (2 * TRIALS**0.5)
WALL = piecewise("can_wall", (0, 0), (1, 10), meaningful=0.02)
THREADS = piecewise("full_threads", (0, 0), (10, 10), meaningful=1)
DENTS = ranked("dents", none=10, light=6, deep=0)
BOTH = rules(WALL, THREADS, score=1.0)


def purpose(weights=(), left_open=(), share=0.0, criteria=()):
    return Purpose(
        "test", "Test", tuple(weights), tuple(left_open), share, Support.OPINION,
        "invented for a test", "invented for a test", tuple(criteria),
    )  # fmt: skip


CAN_ONLY = purpose([("can", 1.0)])
EVENLY = purpose([("can", 1.0), ("thread", 1.0)])
OPEN = purpose((), ("can", "thread"), 1.0)


def walls(*sizes, u=0.0):
    return [
        number("can_wall", size, "mm", u, s.id)
        for s, size in zip(first(len(sizes)), sizes, strict=True)
    ]


def threads(*counts):
    return [
        number("full_threads", count, "count", specimen=s.id)
        for s, count in zip(first(len(counts)), counts, strict=True)
    ]


def ranks(asked, findings, by=BOTH, count=2, **more):
    return ranking_of(asked, by, evidence(findings, first(count)), TRIALS, **more)


def test_two_normals_rank_as_their_gap():
    found = ranks(CAN_ONLY, walls(0.50, 0.52, u=0.02))
    ahead = norm.cdf(0.02 / (0.02 * 2**0.5))
    assert found.shares.before[1][0] == pytest.approx(ahead, abs=NOISE)
    assert found.ids == ("a", "b")
    assert found.coverage == 1.0
    assert [c.key for c in found.criteria] == ["can"]


def test_shared_instrument_cancels():
    """One gauge's error is the same in both: however large, it reverses no rank."""
    gauge = variable(0.05, Part("instrument/gauge", Spread.RECTANGULAR))
    findings = [
        Finding("can_wall", s, State.MEASURED, quantity=registry().Quantity(size + gauge, "mm"))
        for s, size in (("a", 0.50), ("b", 0.501))
    ]
    found = ranks(CAN_ONLY, findings)
    assert found.shares.acceptability == ((0.0, 1.0), (1.0, 0.0))


def test_open_weights_are_explored():
    """A is worth 8 and 2, B 5 and 5, so A is first where the can weighs more than half."""
    found = ranks(OPEN, [*walls(0.8, 0.5), *threads(2, 5)])
    assert [r[0] for r in found.shares.acceptability] == pytest.approx([0.5, 0.5], abs=NOISE)
    assert found.shares.central[0] == pytest.approx((0.75, 0.25), abs=NOISE)
    assert found.shares.central[1] == pytest.approx((0.25, 0.75), abs=NOISE)


def test_fixed_weights_are_kept():
    tilted = purpose([("can", 3.0), ("thread", 1.0)])
    found = ranks(tilted, [*walls(0.8, 0.5), *threads(2, 5)])
    assert found.shares.acceptability == ((1.0, 0.0), (0.0, 1.0))
    assert found.shares.central[0] == pytest.approx((0.75, 0.25))


def test_partly_open_weights_share_the_rest():
    part = purpose([("can", 1.0)], ("thread",), 0.4)
    found = ranks(part, [*walls(0.8, 0.5), *threads(2, 5)])
    assert found.shares.central[0] == pytest.approx((0.6, 0.4))


def test_value_function_bends_the_draws():
    """Beyond the last anchor more is worth no more: two walls up there are level."""
    found = ranks(CAN_ONLY, walls(1.5, 2.5, u=0.01))
    assert found.shares.acceptability == ((0.5, 0.5), (0.5, 0.5))


def test_specimen_without_values_is_not_ranked():
    found = ranks(EVENLY, [*walls(0.5, 0.6, 0.7), *threads(3, 4)], count=3)
    assert found.ids == ("a", "b", "c")
    assert set(found.left_out) == {"thread"}
    assert found.coverage == pytest.approx(0.5)
    strict = rules(WALL, THREADS, coverage=0.8)
    found = ranks(EVENLY, [*walls(0.5, 0.6, 0.7), *threads(3, 4)], strict, count=3)
    assert found.ids == ("a", "b")
    assert found.left_out["c"].startswith("too few values")
    assert found.shares is not None


def test_too_little_in_common_ranks_nobody():
    found = ranks(EVENLY, [walls(0.5)[0], threads(3, 4)[1]])
    assert found.shares is None
    assert found.refused.startswith("Less than 50 % of what counts")
    alone = ranks(EVENLY, walls(0.5), by=rules(WALL, THREADS, coverage=0.5))
    assert alone.refused.startswith("Fewer than two specimens")


def test_unlike_methods_and_doubt_are_left_out():
    taken = [replace(w, taken_with=(k,)) for w, k in zip(walls(0.5, 0.8), "xy", strict=True)]
    found = ranks(EVENLY, [*taken, *threads(3, 4)])
    assert found.left_out["can"].startswith("the can wall thickness was taken with")
    findings = [*walls(0.5, 0.8), *threads(3, 4)]
    doubtful = replace(evidence(findings), in_doubt=frozenset({"can_wall-b"}))
    found = ranking_of(EVENLY, BOTH, doubtful, 100)
    assert "in doubt" in found.left_out["can"]
    assert [c.key for c in found.criteria] == ["thread"]


def test_price_counts_under_a_purpose_that_asks_for_it():
    price = piecewise("price", (2, 10), (40, 0))
    asked = purpose([("price", 1.0), ("can", 0.01)], criteria=[price])
    cheap, dear = first(2)
    cheap, dear = replace(cheap, price=Decimal(5)), replace(dear, price=Decimal(20))
    bench = Evidence(keyed(walls(0.5, 0.9)), {}, SPIN_ON, (cheap, dear))
    found = ranking_of(asked, BOTH, bench, 100)
    assert found.shares.acceptability[0] == (1.0, 0.0)
    other = Evidence(keyed(walls(0.5, 0.9)), {}, SPIN_ON, (cheap, replace(dear, currency="USD")))
    assert ranking_of(asked, BOTH, other, 100).left_out["price"].startswith("the currency")


def test_same_seed_gives_the_same_ranks():
    findings = [*walls(0.50, 0.51, u=0.02), *threads(3, 3)]
    one, other = (ranks(OPEN, findings) for _ in range(2))
    assert one == other
    assert ranks(OPEN, findings, seed=5).shares != one.shares


def test_order_of_specimens_changes_no_share():
    sizes = {"a": 0.50, "b": 0.51, "c": 0.53}
    findings = [
        Finding(
            "can_wall", s, State.MEASURED,
            quantity=registry().Quantity(ufloat(size, 0.02, tag=f"can_wall/{s}/repeats"), "mm"),
        )
        for s, size in sizes.items()
    ]  # fmt: skip
    straight = ranks(CAN_ONLY, findings, count=3)
    by_id = dict(zip(straight.ids, straight.shares.acceptability, strict=True))
    for order in permutations(first(3)):
        turned = ranking_of(CAN_ONLY, BOTH, evidence(findings, order), TRIALS)
        for s, own in zip(turned.ids, turned.shares.acceptability, strict=True):
            assert own == by_id[s]


def test_every_shipped_purpose_can_be_asked():
    findings = [*walls(0.3, 0.4, u=0.01), *(word("dents", "none", s) for s in "ab")]
    for asked in load_purposes():
        found = ranking_of(asked, SHIPPED, evidence(findings), 200)
        assert found.refused
        assert found.purpose is asked


def test_estimates_are_drawn_over_their_interval():
    about = number("full_threads", 5, "count", low=4.0, high=6.0, state=State.ESTIMATE)
    drawn = draw_worths((THREADS,), ("a",), evidence([about]), TRIALS, 1)["full_threads", "a"]
    assert drawn.min() == pytest.approx(4.0, abs=0.01)
    assert drawn.max() == pytest.approx(6.0, abs=0.01)
    assert drawn.std() == pytest.approx(1 / 3**0.5, rel=0.02)


def test_estimated_word_may_be_the_next():
    unsure = word("dents", "light", state=State.ESTIMATE)
    drawn = draw_worths((DENTS,), ("a",), evidence([unsure]), TRIALS, 1)["dents", "a"]
    assert (drawn.min(), drawn.max()) == pytest.approx((2.0, 10.0), abs=0.01)
    sure = draw_worths((DENTS,), ("a",), evidence([word("dents", "light")]), 10, 1)["dents", "a"]
    assert (sure == 6.0).all()


def test_number_near_an_anchor_gets_both_sides():
    """The mean worth behind the bend is the closed form's, which scores use."""
    steep = piecewise("can_wall", (0.3, 0), (0.4, 10))
    drawn = draw_worths((steep,), ("a",), evidence(walls(0.4, u=0.02)), TRIALS, 1)["can_wall", "a"]
    # E[min(0, x)] of N(0, σ) is -σ/√(2π); the slope is 100 a millimetre.
    assert drawn.mean() == pytest.approx(10 - 100 * 0.02 / (2 * numpy.pi) ** 0.5, abs=0.03)


def test_value_that_is_missing_cannot_be_drawn():
    with pytest.raises(OurFault, match="has no value"):
        draw_worths((WALL,), ("a",), evidence([]), 10, 1)
