"""A draft of rules goes back and forth over its steps."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from benchlog.judge.rules_file import digest
from benchlog.tasks.edit_rules import leave_out, set_weight
from benchlog.tasks.rules_draft import draft_of
from tests.tasks.fair_scenes import SHIPPED

WEIGHTS = st.lists(st.sampled_from(["1", "2", "3", "4"]), max_size=8)


@given(WEIGHTS, st.integers(0, 10))
def test_undo_and_redo_are_each_others_way_back(weights: list[str], back: int) -> None:
    draft = draft_of(SHIPPED)
    for weight in weights:
        draft = draft.step(set_weight(draft.now, "dents", weight))
    went = draft
    for _ in range(back):
        went = went.undo()
    for _ in range(back):
        went = went.redo()
    assert went == draft
    for _ in draft.past:
        draft = draft.undo()
    assert digest(draft.now) == digest(SHIPPED)
    assert draft.changes == ()


def test_new_step_forgets_what_was_undone() -> None:
    draft = draft_of(SHIPPED).step(set_weight(SHIPPED, "dents", "5")).undo()
    assert draft.future
    other = draft.step(leave_out(draft.now, "dents"))
    assert other.future == ()
    assert other.redo() is other
    assert [change.subject for change in other.changes] == ["dents"]


def test_step_that_says_the_same_is_none() -> None:
    draft = draft_of(SHIPPED)
    assert draft.step(set_weight(SHIPPED, "dents", "2")) is draft
    assert draft.undo() is draft
