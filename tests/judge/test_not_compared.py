"""Comparisons that the rules do not make: nothing of them is in gaps, scores, awards or ranks."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from benchlog.judge.differences import attribute_differences, difference
from benchlog.judge.purposes import Purpose
from benchlog.judge.ranking import ranking_of
from benchlog.judge.rules import NOT_COMPARED, AttributeRule, Rules
from benchlog.judge.rules_changes import changes_between
from benchlog.judge.rules_file import digest
from benchlog.judge.rules_json import rules_as_json, rules_from_json
from benchlog.judge.verdict import AwardKind
from benchlog.measure.finding import Finding
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from tests.derive.found import number
from tests.judge.bench_of import (
    SHIPPED,
    SPIN_ON,
    award,
    evidence,
    first,
    judged,
    keyed,
    piecewise,
    rules,
    unscored,
)

DIGEST_WITHOUT_THE_FIELD = "ddf5fd1f7fa4b0f201ce11cbee25ea16d5dd62a5113aa0d11d5b1ded28c084c4"
"""Of LOCKED, worked out before rules could say that they compare nothing."""

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.01)
HEIGHT = piecewise("can_height", (50, 0), (150, 10), meaningful=1.0)
LOCKED = rules(WALL, unscored("can_height", meaningful=0.5))


def shut(rule: AttributeRule) -> AttributeRule:
    return replace(rule, compared=False)


def found() -> list[Finding]:
    """Alpha has the thicker wall, Bravo the taller can."""
    return [
        number("can_wall", 0.40, "mm", 0.001, "a"),
        number("can_wall", 0.25, "mm", 0.001, "b"),
        number("can_height", 80, "mm", 0.1, "a"),
        number("can_height", 120, "mm", 0.1, "b"),
    ]


def test_rule_not_compared_has_no_gap() -> None:
    pair = difference(shut(WALL), "a", "b", evidence(found()))
    assert (pair.refused, pair.gap, pair.differs) == (NOT_COMPARED, None, False)
    assert difference(WALL, "a", "b", evidence(found())).differs


def test_nobody_stands_clear_uncompared() -> None:
    everything = (first(2), keyed(found()), {})
    (open_,) = attribute_differences(*everything, rules(WALL), SPIN_ON)
    (closed,) = attribute_differences(*everything, rules(shut(WALL)), SPIN_ON)
    assert open_.clear == ("a", "b")
    assert closed.clear == ()


def test_award_rests_on_what_is_compared() -> None:
    both = judged(found(), rules(replace(WALL, weight=3.0), HEIGHT))
    assert award(both, Component.CAN).winners == ("a",)
    one = judged(found(), rules(shut(replace(WALL, weight=3.0)), HEIGHT))
    won = award(one, Component.CAN)
    assert won.winners == ("b",)
    assert "wall" not in won.reason.lower()
    assert {p.subject for s in one.scores for p in s.contributions} == {"can_height"}
    assert {s.coverage for s in one.scores} == {1.0}


def test_what_differs_uncompared_is_not_told() -> None:
    told = award(judged(found(), rules(WALL, unscored("can_height"))), Component.CAN)
    silent = award(judged(found(), rules(WALL, shut(unscored("can_height")))), Component.CAN)
    assert "They differ in height, base to dome" in told.reason
    assert "height" not in silent.reason.lower()


def test_component_not_compared_is_not_judged() -> None:
    verdict = judged(found(), rules(shut(WALL), shut(unscored("can_height"))))
    can = award(verdict, Component.CAN)
    assert can.kind is AwardKind.NOT_JUDGED
    assert can.reason == "The rules compare nothing of this component."
    assert {score.value for score in verdict.scores} == {None}


@pytest.mark.parametrize("criteria", [(), (WALL,)], ids=["component", "own criterion"])
def test_ranks_leave_it_out(criteria: tuple[AttributeRule, ...]) -> None:
    key = criteria[0].subject if criteria else Component.CAN.value
    asked = Purpose("t", "T", ((key, 1.0),), (), 0.0, Support.OPINION, "test", "test", criteria)
    ranked = ranking_of(asked, rules(WALL), evidence(found()), 100)
    closed = ranking_of(asked, rules(shut(WALL)), evidence(found()), 100)
    assert ranked.shares is not None
    assert closed.shares is None
    assert closed.left_out[key] == NOT_COMPARED


def test_older_locks_keep_their_digest() -> None:
    text = rules_as_json(LOCKED)
    assert "compared" not in text
    back = rules_from_json(text)
    assert all(rule.compared for rule in back.entries)
    assert digest(back) == DIGEST_WITHOUT_THE_FIELD


def test_saying_the_usual_changes_no_digest() -> None:
    plain = json.loads(rules_as_json(LOCKED))
    for entry in plain["entries"]:
        entry["compared"] = True
    assert digest(rules_from_json(json.dumps(plain))) == DIGEST_WITHOUT_THE_FIELD


@pytest.mark.parametrize("place", [0, 5, len(SHIPPED.entries) - 1])
def test_switch_changes_digest_and_is_told(place: int) -> None:
    entries = list(SHIPPED.entries)
    entries[place] = shut(entries[place])
    switched: Rules = replace(SHIPPED, entries=tuple(entries))
    assert digest(switched) != digest(SHIPPED)
    assert rules_from_json(rules_as_json(switched)) == switched
    (away,) = changes_between(SHIPPED, switched)
    (back,) = changes_between(switched, SHIPPED)
    assert (away.words, back.words) == (("no longer compared",), ("compared again",))
    assert away.subject == entries[place].subject
