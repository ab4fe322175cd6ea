"""Editing rules: every step gives other rules and leaves the ones before as they were."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.judge.rules import Anchor, RankValue, Rules, ValueKind
from benchlog.judge.rules_changes import changes_between
from benchlog.judge.rules_file import digest
from benchlog.judge.rules_json import sound
from benchlog.tasks.edit_rules import (
    anchor_texts,
    count,
    leave_out,
    rule_about,
    set_anchors,
    set_meaningful,
    set_meaningful_score,
    set_smallest_coverage,
    set_weight,
    set_worths,
)
from benchlog.tasks.verdict_view import meaningful_text
from tests.tasks.fair_scenes import SHIPPED

SCORED = [rule for rule in SHIPPED.entries if rule.kind is not ValueKind.NONE]
WITH_LIMIT = [rule for rule in SHIPPED.entries if rule.meaningful]
PIECEWISE = [rule for rule in SCORED if rule.kind is ValueKind.PIECEWISE]


def changed(rules: Rules) -> list[str]:
    return [change.subject for change in changes_between(SHIPPED, rules)]


@pytest.mark.parametrize(("text", "weight"), [("3", 3.0), ("2,5", 2.5), (" 1/2 ", 0.5)])
def test_weight_is_a_bare_number(text: str, weight: float) -> None:
    edited = set_weight(SHIPPED, "dents", text)
    assert rule_about(edited, "dents").weight == weight
    assert changed(edited) == ["dents"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "Nothing was typed"),
        ("0", "more than 0"),
        ("-1", "more than 0"),
        ("3 g", "not a unit|measures"),
        ("much", "not understood"),
        ("2-3", "plain number"),
        ("~2", "plain number"),
    ],
)
def test_unfit_weight_is_refused(text: str, told: str) -> None:
    with pytest.raises(PlanRefused, match=told) as refusal:
        set_weight(SHIPPED, "dents", text)
    assert refusal.value.field == "weight"


def test_unscored_subject_takes_no_weight() -> None:
    with pytest.raises(PlanRefused, match="0 where it is not"):
        set_weight(SHIPPED, "whole_mass", "2")


@pytest.mark.parametrize(
    ("subject", "text", "meaningful", "share"),
    [
        ("tube_wall", "0.08", 0.08, False),
        ("tube_wall", "2 thou", 0.0508, False),
        ("tube_wall", "0.005 cm", 0.05, False),
        ("tube_wall", "5 %", 0.05, True),
        ("whole_mass", "20 g", 20.0, False),
        ("whole_mass", "3 %", 0.03, True),
        ("tube_closed_louvres", "2", 2.0, False),
        ("tube_to_outlet", "0.2", 0.2, False),
        ("tube_to_outlet", "20 %", 0.2, False),
        ("gasket_hardness", "5 %", 0.05, True),
        ("tube_wall", "0", 0.0, False),
    ],
)
def test_meaningful_difference_is_read_with_its_unit(
    subject: str, text: str, meaningful: float, share: bool
) -> None:
    rule = rule_about(set_meaningful(SHIPPED, subject, text), subject)
    assert rule.meaningful == pytest.approx(meaningful, rel=1e-12)
    assert rule.meaningful_is_share is share


@pytest.mark.parametrize(
    ("subject", "text", "told"),
    [
        ("tube_wall", "3 g", "measures a mass"),
        ("tube_wall", "-0.1", "0 or more"),
        ("tube_wall", " ", "Nothing was typed"),
        ("tube_wall", "0.1-0.2", "plain number"),
        ("tube_wall", "a bit", "not understood|not a unit"),
        ("halo", "1", "say nothing of Halo"),
    ],
)
def test_unfit_meaningful_difference_is_refused(subject: str, text: str, told: str) -> None:
    with pytest.raises(PlanRefused, match=told):
        set_meaningful(SHIPPED, subject, text)


def test_corners_are_sorted_and_read_with_units() -> None:
    edited = set_anchors(SHIPPED, "adbv_leak", [("60 mL/h", "0"), ("0", "10"), ("0.5 mL/min", "5")])
    anchors = rule_about(edited, "adbv_leak").anchors
    assert [(round(one.at, 9), one.value) for one in anchors] == [(0, 10), (30, 5), (60, 0)]


@pytest.mark.parametrize(
    ("pairs", "told"),
    [
        ([("0", "10")], "two or more"),
        ([("0", "10"), ("5", "11")], "from 0 to 10"),
        ([("0", "10"), ("0", "3")], "ascend"),
        ([("0", "10"), ("", "3")], "Nothing was typed"),
        ([("0", "10"), ("5 kg", "3")], "measures a mass"),
        ([("0", "10"), ("5-8", "3")], "plain number"),
    ],
)
def test_unfit_corners_are_refused(pairs: list[tuple[str, str]], told: str) -> None:
    with pytest.raises(PlanRefused, match=told) as refusal:
        set_anchors(SHIPPED, "adbv_leak", pairs)
    assert refusal.value.field == "anchors"


@pytest.mark.parametrize("rule", PIECEWISE, ids=lambda rule: rule.subject)
def test_shown_corners_may_be_typed_again(rule) -> None:
    edited = set_anchors(SHIPPED, rule.subject, anchor_texts(rule))
    assert digest(edited) == digest(SHIPPED)


@pytest.mark.parametrize("rule", WITH_LIMIT, ids=lambda rule: rule.subject)
def test_shown_limit_may_be_typed_again(rule) -> None:
    edited = set_meaningful(SHIPPED, rule.subject, meaningful_text(rule))
    assert digest(edited) == digest(SHIPPED)


def test_worths_of_words_are_set() -> None:
    edited = set_worths(SHIPPED, "dents", {"none": "10", "light": "7", "deep": ""})
    assert rule_about(edited, "dents").ranks == (RankValue("none", 10.0), RankValue("light", 7.0))
    with pytest.raises(PlanRefused, match="'huge' is not one of"):
        set_worths(SHIPPED, "dents", {"none": "10", "huge": "7"})
    with pytest.raises(PlanRefused, match="from 0 to 10"):
        set_worths(SHIPPED, "dents", {"none": "12", "deep": "7"})


@pytest.mark.parametrize("rule", SCORED, ids=lambda rule: rule.subject)
def test_left_out_subject_can_count_again(rule) -> None:
    without = leave_out(SHIPPED, rule.subject)
    gone = rule_about(without, rule.subject)
    assert (gone.kind, gone.weight) == (ValueKind.NONE, 0.0)
    assert gone.meaningful == rule.meaningful
    assert sound(without) == without
    assert digest(count(without, rule.subject, SHIPPED)) == digest(SHIPPED)


def test_what_never_counts_cannot_be_counted() -> None:
    with pytest.raises(PlanRefused, match="not scored in “Bench rules” either"):
        count(SHIPPED, "whole_mass", SHIPPED)


def test_counting_keeps_an_edited_limit() -> None:
    without = leave_out(set_meaningful(SHIPPED, "adbv_leak", "8 mL/h"), "adbv_leak")
    assert rule_about(count(without, "adbv_leak", SHIPPED), "adbv_leak").meaningful == 8.0


@pytest.mark.parametrize(("text", "share"), [("60 %", 0.6), ("60", 0.6), ("100 %", 1.0)])
def test_smallest_coverage_is_a_share(text: str, share: float) -> None:
    assert set_smallest_coverage(SHIPPED, text).smallest_coverage == pytest.approx(share)


@pytest.mark.parametrize("text", ["0", "120 %", "-5 %", "x", "20-30 %", ""])
def test_unfit_coverage_is_refused(text: str) -> None:
    with pytest.raises(PlanRefused) as refusal:
        set_smallest_coverage(SHIPPED, text)
    assert refusal.value.field == "smallest_coverage"


def test_points_between_scores_are_set() -> None:
    assert set_meaningful_score(SHIPPED, "1.5").meaningful_score == 1.5
    for text in ("0", "10", "-1"):
        with pytest.raises(PlanRefused, match="between 0 and 10"):
            set_meaningful_score(SHIPPED, text)


STEPS: list[Callable[[Rules], Rules]] = [
    lambda rules: set_weight(rules, "dents", "3"),
    lambda rules: set_meaningful(rules, "tube_wall", "0.1 mm"),
    lambda rules: leave_out(rules, "sealed"),
    lambda rules: count(rules, "sealed", SHIPPED),
    lambda rules: set_meaningful_score(rules, "1"),
    lambda rules: set_anchors(rules, "adbv_leak", [("0", "10"), ("30", "0")]),
]


@given(st.lists(st.sampled_from(STEPS), max_size=6))
def test_every_step_can_be_undone(steps: list[Callable[[Rules], Rules]]) -> None:
    past = [SHIPPED]
    marks = [digest(SHIPPED)]
    for step in steps:
        past.append(step(past[-1]))
        marks.append(digest(past[-1]))
        assert sound(past[-1]) == past[-1]
    assert [digest(rules) for rules in past] == marks
    assert past[0].entries[0].anchors == SHIPPED.entries[0].anchors
    assert all(isinstance(a, Anchor) for rule in past[-1].entries for a in rule.anchors)
