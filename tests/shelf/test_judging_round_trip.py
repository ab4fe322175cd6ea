"""What is kept of judging comes back as it was, from the file and not from memory."""

from __future__ import annotations

from dataclasses import replace
from math import inf
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import OurFault, PlanRefused
from benchlog.judge.rules_file import digest, load_rules
from benchlog.shelf import SqlShelf, open_shelf
from tests import rules_strategies, strategies
from tests.shelf import scenes
from tests.shelf.scenes import Folders


@given(st.data())
def test_locks_come_back_with_their_digest(new_folder: Folders, data: st.DataObject) -> None:
    lineup = data.draw(strategies.lineups)
    locks = data.draw(st.lists(rules_strategies.locks(lineup.id), unique_by=lambda one: one.id))
    folder = new_folder()
    with open_shelf(folder) as shelf:
        shelf.save_lineup(lineup)
        for lock in locks:
            shelf.add_rules_lock(lock)
    with open_shelf(folder, read_only=True) as shelf:
        found = shelf.rules_locks(lineup.id)
        assert found == locks
        assert [digest(lock.rules) for lock in found] == [lock.digest for lock in locks]


@given(st.data())
def test_hand_and_eye_come_back(new_folder: Folders, data: st.DataObject) -> None:
    lineup = data.draw(strategies.lineups)
    specimens = tuple(one.id for one in lineup.specimens)
    by_id = {"max_size": 3, "unique_by": lambda one: one.id}
    overrulings = data.draw(st.lists(rules_strategies.overrulings(lineup.id, specimens), **by_id))
    runs = data.draw(st.lists(rules_strategies.blind_runs(lineup.id, specimens), **by_id))
    reveals = [data.draw(rules_strategies.reveals(lineup.id, run.id)) for run in runs]
    polls = data.draw(st.lists(rules_strategies.polls(lineup.id, specimens), **by_id))
    declared = data.draw(st.lists(rules_strategies.declarations(lineup.id), **by_id))
    folder = new_folder()
    with open_shelf(folder) as shelf:
        shelf.save_lineup(lineup)
        for one in overrulings:
            shelf.add_overruling(one)
        for run in runs:
            shelf.add_blind_run(run)
        for reveal in reveals:
            shelf.add_reveal(reveal)
        for poll in polls:
            shelf.add_poll(poll)
        for declaration in declared:
            shelf.add_declaration(declaration)
    with open_shelf(folder) as shelf:
        assert shelf.overrulings(lineup.id) == overrulings
        assert shelf.blind_runs(lineup.id) == runs
        assert shelf.reveals(lineup.id) == reveals
        assert shelf.polls(lineup.id) == polls
        assert shelf.declarations(lineup.id) == declared


def test_shipped_rules_come_back(folder: Path) -> None:
    rules = load_rules()
    with open_shelf(folder) as shelf:
        shelf.add_own_rules(rules, scenes.NOON)
        shelf.add_own_rules(replace(rules, version="next"), scenes.NOON)
    with open_shelf(folder) as shelf:
        first, second = shelf.own_rules()
    assert (first, digest(first)) == (rules, digest(rules))
    assert second.version == "next"


def test_kept_version_is_never_kept_twice(shelf: SqlShelf) -> None:
    shelf.add_own_rules(scenes.RULES, scenes.NOON)
    with pytest.raises(OurFault, match="already used"):
        shelf.add_own_rules(replace(scenes.RULES, label="Other words"), scenes.NOON)
    assert shelf.own_rules() == [scenes.RULES]


def test_codes_are_opened_once(shelf: SqlShelf) -> None:
    shelf.add_blind_run(scenes.blind_run("run"))
    shelf.add_reveal(scenes.reveal("opened", "run"))
    with pytest.raises(OurFault, match="already used"):
        shelf.add_reveal(scenes.reveal("opened again", "run"))
    assert shelf.reveals("spring") == [scenes.reveal("opened", "run")]


def test_rules_without_end_are_refused(shelf: SqlShelf) -> None:
    with pytest.raises(PlanRefused, match="no end"):
        shelf.add_own_rules(replace(scenes.RULES, meaningful_score=inf), scenes.NOON)
    assert shelf.own_rules() == []


def test_lock_after_an_unknown_reading_is_refused(shelf: SqlShelf) -> None:
    with pytest.raises(OurFault):
        shelf.add_rules_lock(scenes.rules_lock("locked", after="no such reading"))
    assert shelf.rules_locks("spring") == []


def test_plan_log_holds_one_lineup_alone(shelf: SqlShelf) -> None:
    other = replace(scenes.LINEUP, id="spring2", name="Other")
    shelf.save_lineup(other)
    shelf.save_lineup(replace(other, name="Another"))
    shelf.save_lineup(replace(scenes.LINEUP, question="Why?", specimens=(scenes.ALFA,)))
    shelf.save_lineup(replace(scenes.LINEUP, question="Why?"))
    shelf.save_instrument(replace(scenes.SCALE, note="moved"))
    log = shelf.plan_log("spring")
    assert {(one.entity, one.entity_id) for one in log} == {
        ("lineup", "spring"),
        ("specimen", "spring/bravo"),
    }
    named = [(one.old, one.new) for one in log if one.field == "nickname"]
    assert named == [("Bravo", None), (None, "Bravo")]
    assert len(log) < len(shelf.changes())
