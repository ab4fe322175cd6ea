"""Scores of components."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.judge.scores import score_of
from benchlog.measure.state import WITHOUT_VALUE, State
from benchlog.trade.component import Component
from tests.derive.found import number, without, word
from tests.judge.bench_of import SHIPPED, evidence, piecewise, ranked, rules, unscored

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10), weight=3)
DENTS = ranked("dents", weight=1, none=10, light=6, deep=0)
CAN = rules(WALL, DENTS, unscored("can_height"))


def score(*findings, by=CAN):
    return score_of(Component.CAN, "a", by, evidence(findings))


def test_score_is_the_weighted_mean():
    found = score(number("can_wall", 0.3, "mm", 0.004), word("dents", "light"))
    assert found.value == pytest.approx((3 * 5 + 1 * 6) / 4)
    # 95 % of a normal lie within 1.96 standard deviations; the wall's 0.2 points weigh 3 of 4.
    assert found.high - found.value == pytest.approx(1.96 * 0.2 * 3 / 4, abs=1e-4)
    assert found.value - found.low == pytest.approx(1.96 * 0.2 * 3 / 4, abs=1e-4)
    assert (found.counted, found.of, found.coverage) == (2, 2, 1.0)


@pytest.mark.parametrize("state", WITHOUT_VALUE)
def test_missing_value_lowers_coverage_and_nothing_else(state):
    found = score(number("can_wall", 0.3, "mm"), without("dents", state))
    assert found.value == pytest.approx(5.0)
    assert (found.counted, found.of, found.coverage) == (1, 2, 0.75)
    (missing,) = [part for part in found.contributions if part.value is None]
    assert (missing.subject, missing.why_not) == ("dents", state.value)


def test_below_the_smallest_coverage_there_is_no_score():
    found = score(word("dents", "none"))
    assert (found.value, found.low, found.high) == (None, None, None)
    assert (found.counted, found.of, found.coverage) == (1, 2, 0.25)


def test_at_the_smallest_coverage_there_is_one():
    assert score(word("dents", "none"), by=rules(WALL, DENTS, coverage=0.25)).value == 10


def test_nothing_that_scores_gives_no_score():
    found = score(number("can_height", 90, "mm"), by=rules(unscored("can_height")))
    assert (found.value, found.counted, found.of, found.coverage) == (None, 0, 0, 0.0)


def test_interval_is_cut_at_the_ends():
    found = score(number("can_wall", 0.4, "mm", 0.1), word("dents", "none"))
    assert found.high == 10.0
    low = score(number("can_wall", 0.2, "mm", 0.1), word("dents", "deep"))
    assert low.low == 0.0


def test_refused_figure_says_why():
    area = rules(*(e for e in SHIPPED.entries if e.subject == "exposed_area"))
    found = score_of(Component.MEDIA, "a", area, evidence([number("media_length", 900, "mm")]))
    (part,) = found.contributions
    assert part.value is None
    assert part.why_not.startswith("No full width of the strip: not measured.")


words = st.sampled_from(["none", "light", "deep"])


@given(st.floats(0.01, 2), st.floats(0, 1), words, st.sampled_from(State))
def test_score_stays_within_its_scale(size, u, said, state):
    dents = word("dents", said, state=state) if state.has_value else without("dents", state)
    found = score(number("can_wall", size, "mm", u), dents)
    assert 0 <= found.low <= found.value <= found.high <= 10
    for part in found.contributions:
        assert part.value is None or 0 <= part.value <= 10


@given(st.floats(0.01, 2), words)
def test_missing_value_is_never_zero(size, said):
    full = score(number("can_wall", size, "mm"), word("dents", said))
    less = score(number("can_wall", size, "mm"), without("dents", State.SPOILED))
    own = min(max((size - 0.2) / 0.02, 0), 10)
    assert less.value == pytest.approx(own)
    assert full.value == pytest.approx((3 * own + {"none": 10, "light": 6, "deep": 0}[said]) / 4)
