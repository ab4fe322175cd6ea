from __future__ import annotations

import pytest

from benchlog.errors import PlanRefused
from benchlog.judge.rules import Rules
from benchlog.shelf import SqlShelf
from benchlog.tasks.edit_rules import rule_about
from benchlog.tasks.lock import rules_in_force
from benchlog.tasks.lock_view import (
    COVERAGE,
    NOT_LOCKED,
    POINTS,
    LockState,
    counting,
    edited,
    latest_step,
    lock_state,
    owed_at_bench,
    put_in_force,
    short_state,
    with_limit,
)
from benchlog.tasks.rules_draft import RulesDraft, draft_of
from benchlog.tasks.rules_view import rule_rows, worth_pairs
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SHIPPED, SPIN_ON, make_cut


@pytest.fixture
def draft() -> RulesDraft:
    return draft_of(SHIPPED)


def state(fair: SqlShelf, draft: RulesDraft) -> LockState:
    return lock_state(fair, fair.lineup("l-1"), draft, SPIN_ON)


def lock(fair: SqlShelf, clock: HandClock, draft: RulesDraft, reason: str = "") -> Rules:
    return put_in_force(fair, clock, fair.lineup("l-1"), draft, reason, SPIN_ON).rules


def heavier(draft: RulesDraft) -> RulesDraft:
    return edited(draft, "can_wall", "weight", "5")


def test_every_row_may_be_typed_again_unchanged(draft: RulesDraft) -> None:
    rows = rule_rows(SHIPPED, SPIN_ON)
    assert len(rows) > 60
    for row in rows:
        for field in ("weight", "meaningful", "worth"):
            text = getattr(row, field)
            if text:
                assert edited(draft, row.subject, field, text) is draft, (row.label, field)


def test_rows_say_what_counts_and_its_share() -> None:
    rows = rule_rows(SHIPPED, SPIN_ON)
    for component in {row.component for row in rows}:
        shares = [row.share for row in rows if row.component is component and row.counts]
        assert not shares or sum(shares) == pytest.approx(1.0)
    silent = [row for row in rows if not row.counts]
    assert silent
    assert {(row.weight, row.worth, row.share) for row in silent} == {("", "", 0.0)}


def test_row_says_when_values_are_compared() -> None:
    by_subject = {row.subject: row for row in rule_rows(SHIPPED, SPIN_ON)}
    assert by_subject["media_thickness"].compared_when == (
        "the gauge's foot pressure, the state of the media"
    )
    assert by_subject["can_wall"].compared_when == ""


def test_each_field_changes_its_part(draft: RulesDraft) -> None:
    assert rule_about(heavier(draft).now, "can_wall").weight == 5
    limit = edited(draft, "can_wall", "meaningful", "2 thou")
    assert rule_about(limit.now, "can_wall").meaningful == pytest.approx(0.0508)
    corners = edited(draft, "can_wall", "worth", "0.2 mm = 0\n0.5 mm = 10")
    assert [(a.at, a.value) for a in rule_about(corners.now, "can_wall").anchors] == [
        (0.2, 0.0),
        (0.5, 10.0),
    ]
    words = next(row.worth for row in rule_rows(SHIPPED, SPIN_ON) if row.subject == "dents")
    ranks = edited(draft, "dents", "worth", words.replace("= 6", "= 7"))
    assert 7.0 in [rank.value for rank in rule_about(ranks.now, "dents").ranks]


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("weight", "much", "number"),
        ("meaningful", "3 psi", "psi"),
        ("worth", "0.2 mm", "has no worth"),
        ("worth", "0.2 mm = 3\n0.3 mm = 11", "0 to 10"),
    ],
)
def test_what_cannot_stand_is_refused(draft: RulesDraft, field: str, text: str, said: str) -> None:
    with pytest.raises(PlanRefused, match=said):
        edited(draft, "can_wall", field, text)


def test_unknown_answer_is_refused(draft: RulesDraft) -> None:
    with pytest.raises(PlanRefused, match="is no answer of Dents"):
        edited(draft, "dents", "worth", "Flat as a board = 3")


def test_typed_lines_become_pairs() -> None:
    assert worth_pairs("a = b = 3\n\n  c =  ") == (("a = b", "3"), ("c", ""))


def test_subject_counts_again_as_before(draft: RulesDraft) -> None:
    out = counting(heavier(draft), "can_wall", counts=False)
    assert not next(r for r in rule_rows(out.now, SPIN_ON) if r.subject == "can_wall").counts
    back = counting(out, "can_wall", counts=True)
    assert rule_about(back.now, "can_wall").weight == 5


def test_what_was_never_scored_cannot_count(draft: RulesDraft) -> None:
    with pytest.raises(PlanRefused, match="not scored"):
        counting(draft, "whole_mass", counts=True)


def test_limits_of_the_set_are_typed(draft: RulesDraft) -> None:
    assert with_limit(draft, COVERAGE, "60 %").now.smallest_coverage == pytest.approx(0.6)
    assert with_limit(draft, POINTS, "0.8").now.meaningful_score == 0.8


def test_latest_step_is_told(draft: RulesDraft) -> None:
    assert latest_step(draft) == ""
    assert latest_step(heavier(draft)).endswith("→ 5")


def test_first_lock_needs_no_reason(fair: SqlShelf, clock: HandClock, draft: RulesDraft) -> None:
    assert state(fair, heavier(draft)) == LockState(
        words="“Bench rules”, version 3: not locked.",
        locked=False,
        after_cut=False,
        changed=True,
        needs_reason=False,
        may=True,
        act="Lock the rules",
    )
    assert lock(fair, clock, heavier(draft)) == heavier(draft).now
    assert rules_in_force(fair, fair.lineup("l-1")) == heavier(draft).now


def test_locked_rules_change_with_a_reason(
    fair: SqlShelf, clock: HandClock, draft: RulesDraft
) -> None:
    lock(fair, clock, draft)
    same = state(fair, draft)
    assert (same.locked, same.may) == (True, False)
    other = state(fair, heavier(draft))
    assert (other.needs_reason, other.act) == (True, "Change the rules")
    with pytest.raises(PlanRefused, match="reason"):
        lock(fair, clock, heavier(draft))
    lock(fair, clock, heavier(draft), "the can is all that differs")
    assert "changed" in state(fair, heavier(draft)).words


def test_late_change_needs_a_reason_even_unlocked(
    fair: SqlShelf, clock: HandClock, draft: RulesDraft
) -> None:
    make_cut(fair, clock)
    assert "only as they are" in state(fair, draft).words
    assert state(fair, heavier(draft)).needs_reason


def test_state_in_few_words_follows_the_locks(
    fair: SqlShelf, clock: HandClock, draft: RulesDraft
) -> None:
    said = [short_state(fair.rules_locks("l-1"))]
    lock(fair, clock, draft)
    said.append(short_state(fair.rules_locks("l-1")))
    lock(fair, clock, heavier(draft), "seen too late")
    said.append(short_state(fair.rules_locks("l-1")))
    make_cut(fair, clock)
    lock(fair, clock, draft, "it was right before")
    said.append(short_state(fair.rules_locks("l-1")))
    assert said == [
        NOT_LOCKED,
        "rules locked",
        "rules changed before the cut",
        "rules changed after the cut",
    ]


def test_rules_put_down_late_are_called_so(
    fair: SqlShelf, clock: HandClock, draft: RulesDraft
) -> None:
    make_cut(fair, clock)
    lock(fair, clock, draft)
    assert short_state(fair.rules_locks("l-1")) == "rules put down after the cut"


def test_nothing_is_owed_behind_the_cut(
    fair: SqlShelf, clock: HandClock, draft: RulesDraft
) -> None:
    assert "The rules are not locked." in owed_at_bench(fair, "l-1")
    lock(fair, clock, draft)
    assert "The rules are not locked." not in owed_at_bench(fair, "l-1")
    make_cut(fair, clock)
    assert owed_at_bench(fair, "l-1") == ()
