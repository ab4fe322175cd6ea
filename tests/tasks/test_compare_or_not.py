"""Comparisons that are not made: switched in a draft, and shown so wherever rules are."""

from __future__ import annotations

import pytest

from benchlog.errors import PlanRefused
from benchlog.judge.rules import NOT_COMPARED, Rules, ValueKind
from benchlog.judge.rules_file import digest
from benchlog.judge.rules_json import sound
from benchlog.tasks.edit_rules import compare, count, leave_out, rule_about
from benchlog.tasks.lock_view import comparing, counting, latest_step
from benchlog.tasks.rules_draft import draft_of
from benchlog.tasks.rules_view import RuleRow, rule_rows
from tests.judge.bench_of import SPIN_ON
from tests.tasks.fair_scenes import SHIPPED

SHUT = compare(SHIPPED, "can_wall", wanted=False)


def row_of(rules: Rules, subject: str = "can_wall") -> RuleRow:
    return next(row for row in rule_rows(rules, SPIN_ON) if row.subject == subject)


def test_weight_waits_while_not_compared() -> None:
    assert not rule_about(SHUT, "can_wall").compared
    assert sound(SHUT) == SHUT
    assert digest(SHUT) != digest(SHIPPED)
    assert compare(SHUT, "can_wall", wanted=True) == SHIPPED


def test_unknown_subject_is_not_switched() -> None:
    with pytest.raises(PlanRefused, match="say nothing"):
        compare(SHIPPED, "nothing_such", wanted=False)


def test_row_tells_what_is_not_compared() -> None:
    row = row_of(SHUT)
    assert (row.compared, row.counts, row.share, row.weight) == (False, False, 0.0, "")
    assert NOT_COMPARED in row.how
    assert row_of(SHIPPED).compared


def test_shares_of_the_others_grow() -> None:
    before, after = rule_rows(SHIPPED, SPIN_ON), rule_rows(SHUT, SPIN_ON)
    for rows in (before, after):
        assert sum(r.share for r in rows if r.component == "can") == pytest.approx(1.0)
    was, now = ({row.subject: row.share for row in rows} for rows in (before, after))
    others = [r.subject for r in before if r.component == "can" and r.share]
    others.remove("can_wall")
    assert others
    assert all(now[key] > was[key] for key in others)


def test_switch_is_one_step_of_a_draft() -> None:
    draft = comparing(draft_of(SHIPPED), "can_wall", compared=False)
    assert latest_step(draft).endswith("no longer compared")
    assert comparing(draft, "can_wall", compared=False) is draft
    assert draft.undo().now == SHIPPED


def test_what_is_to_count_is_compared_again() -> None:
    shut = comparing(draft_of(SHIPPED), "can_wall", compared=False)
    assert counting(shut, "can_wall", counts=True).now == SHIPPED
    out = counting(shut, "can_wall", counts=False)
    assert rule_about(out.now, "can_wall").kind is ValueKind.NONE
    back = counting(out, "can_wall", counts=True)
    assert rule_about(back.now, "can_wall").compared
    assert count(leave_out(SHUT, "can_wall"), "can_wall", SHUT) == SHIPPED
