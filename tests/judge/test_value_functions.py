"""What a value is worth."""

from math import sqrt

import pytest

from benchlog.judge.evidence import Outcome
from benchlog.judge.value_functions import Unworth, Worth, middle, uncertainty, worth_of
from benchlog.measure.state import WITHOUT_VALUE, State
from tests.derive.found import number, without, word
from tests.judge.bench_of import evidence, piecewise, ranked

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10))
DENTS = ranked("dents", none=10, light=6, deep=0)


def worth(rule, finding):
    return worth_of(rule, evidence([finding]).outcome(rule.subject, "a"))


def test_number_is_worth_its_place():
    found = worth(WALL, number("can_wall", 0.3, "millimeter", 0.004))
    assert middle(found.expected) == pytest.approx(5.0)
    assert uncertainty(found.expected) == pytest.approx(0.2)
    assert uncertainty(found.nominal) == pytest.approx(0.2)


def test_unit_of_the_reading_does_not_matter():
    found = worth(WALL, number("can_wall", 0.3 / 25.4, "inch", 0.004 / 25.4))
    assert middle(found.expected) == pytest.approx(5.0)
    assert uncertainty(found.expected) == pytest.approx(0.2)


def test_counts_and_bare_numbers_are_worth_something():
    threads = piecewise("full_threads", (3, 0), (5, 10))
    assert middle(worth(threads, number("full_threads", 4, "count")).expected) == pytest.approx(5)
    hard = piecewise("gasket_hardness", (40, 0), (60, 10))
    assert middle(worth(hard, number("gasket_hardness", 50, "")).expected) == pytest.approx(5)


# An interval is rectangular (JCGM 100, 4.3.7): 4.5 to 5.5 turns, half of it past the last anchor.
def test_estimate_near_an_anchor_gets_both_sides():
    threads = piecewise("full_threads", (3, 0), (5, 10))
    about = number(
        "full_threads", 5, "count", 0.5 / sqrt(3), low=4.5, high=5.5, state=State.ESTIMATE
    )
    found = worth(threads, about)
    assert middle(found.expected) == pytest.approx(10 - 5 * 0.5 / 4)
    assert middle(found.nominal) == pytest.approx(10.0)
    assert uncertainty(found.nominal) == pytest.approx(5 * 0.5 / sqrt(3))


def test_interval_without_uncertainty_still_counts():
    threads = piecewise("full_threads", (3, 0), (5, 10))
    found = worth(threads, number("full_threads", 4, "count", low=3.5, high=4.5))
    assert uncertainty(found.expected) == pytest.approx(5 * 0.5 / sqrt(3))
    assert uncertainty(found.nominal) == pytest.approx(5 * 0.5 / sqrt(3))


def test_reading_near_an_anchor_is_as_unsure_as_the_steep_side():
    found = worth(WALL, number("can_wall", 0.405, "millimeter", 0.004))
    assert middle(found.nominal) == pytest.approx(10.0)
    assert uncertainty(found.nominal) == pytest.approx(0.2)
    assert uncertainty(found.expected) < 0.2


def test_worths_of_one_reading_cancel():
    one = worth(WALL, number("can_wall", 0.405, "millimeter", 0.004))
    assert uncertainty(one.nominal - one.nominal) == 0.0
    assert uncertainty(one.expected - one.expected) == 0.0


@pytest.mark.parametrize(("said", "wanted"), [("none", 10), ("light", 6), ("deep", 0)])
def test_word_is_worth_its_rank(said, wanted):
    found = worth(DENTS, word("dents", said))
    assert found == Worth(wanted, wanted)


def test_estimated_word_could_be_the_next_rank():
    found = worth(DENTS, word("dents", "none", state=State.ESTIMATE))
    assert middle(found.expected) == 10
    assert uncertainty(found.expected) == pytest.approx(4 / sqrt(3))


def test_word_without_rank_has_no_worth():
    found = worth(ranked("dents", none=10, light=6), word("dents", "deep"))
    assert found == Unworth("the rules give this answer no rank")


@pytest.mark.parametrize("state", WITHOUT_VALUE)
@pytest.mark.parametrize("rule", [WALL, DENTS], ids=["number", "word"])
def test_state_without_value_has_no_worth(rule, state):
    assert worth(rule, without(rule.subject, state)) == Unworth(state.value)


def test_nothing_known_has_no_worth():
    assert worth_of(WALL, Outcome(word="thick")) == Unworth("no number")
    assert worth_of(DENTS, evidence([]).outcome("dents", "a")) == Unworth("not measured")
