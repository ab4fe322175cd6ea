"""An own set that was changed and not kept bears no bare version, wherever it is told."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import PlanRefused
from benchlog.judge.rules import Rules
from benchlog.judge.rules_file import EDITED, digest, set_name, set_version
from benchlog.sheet.lock_line import lock_line
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.edit_rules import set_weight
from benchlog.tasks.frozen_record import frozen
from benchlog.tasks.lock import change_rules, lock_rules, lock_story, rightly_named
from benchlog.tasks.own_sets import save_own_set
from benchlog.tasks.tell import tell
from tests.sheet.reading_back import words, write
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import SHIPPED, SPIN_ON, make_cut, read_dents

HEAVIER = set_weight(SHIPPED, "dents", "9")


@pytest.fixture
def own(fair: SqlShelf, clock: HandClock) -> Rules:
    """Version 2 of a set of the reviewer's own."""
    first = save_own_set(fair, clock, HEAVIER, "Long trips")
    return save_own_set(fair, clock, set_weight(first, "dents", "3"), "Long trips")


def test_set_as_kept_keeps_its_version(fair: SqlShelf, clock: HandClock, own: Rules) -> None:
    lock = lock_rules(fair, clock, "l-1", own)
    assert (lock.rules, lock.digest) == (own, digest(own))


def test_edited_set_is_told_everywhere(
    fair: SqlShelf, clock: HandClock, own: Rules, tmp_path: Path
) -> None:
    lock_rules(fair, clock, "l-1", set_weight(own, "dents", "4"))
    read_dents(fair, clock)
    record = draw_up(fair, "l-1", SPIN_ON)
    said = "“Long trips”, version 2, edited"
    assert set_name(record.rules) == said
    assert said in lock_story(record)[0]
    assert digest(record.rules)[:12] in lock_line(record)
    assert tell(record)["lineup"]["rules"] == {"key": "long_trips", "version": "2, edited"}
    assert tell(record)["locks"][0]["rules"]["version"] == "2, edited"
    assert frozen(record)["rules"]["fields"]["version"] == "2, edited"
    text = words(write(record, tmp_path))
    assert f"The rules, {said}, digest" in text
    assert "version 2, digest" not in text


def test_shipped_set_edited_is_told_in_json(fair: SqlShelf, clock: HandClock) -> None:
    lock_rules(fair, clock, "l-1", HEAVIER)
    record = draw_up(fair, "l-1", SPIN_ON)
    version = f"{SHIPPED.version}, edited"
    assert record.rules == HEAVIER
    assert tell(record)["lineup"]["rules"]["version"] == version
    assert frozen(record)["rules"]["fields"]["version"] == version


def test_late_change_is_told_as_edited(fair: SqlShelf, clock: HandClock, own: Rules) -> None:
    lock_rules(fair, clock, "l-1", own)
    make_cut(fair, clock)
    heavier = set_weight(own, "dents", "7")
    change_rules(fair, clock, "l-1", heavier, "dents were deeper than thought")
    change = lock_story(draw_up(fair, "l-1", SPIN_ON))[1]
    assert "version “2” → “2, edited”" in change
    with pytest.raises(PlanRefused, match="Nothing in the rules has changed"):
        change_rules(fair, clock, "l-1", heavier, "again")
    back = change_rules(
        fair, clock, "l-1", set_weight(fair.rules_locks("l-1")[-1].rules, "dents", "3"), "back"
    )
    assert back.rules == own


def test_set_of_another_shelf_is_left_alone(fair: SqlShelf) -> None:
    strange = replace(HEAVIER, key="elsewhere", version="5")
    assert rightly_named(fair, strange) == strange


@given(st.lists(st.sampled_from(["2", "3", "4", "9"]), min_size=1, max_size=4))
def test_mark_follows_what_the_set_says(weights: list[str]) -> None:
    class Kept:
        def own_rules(self) -> list[Rules]:
            return [kept]

    kept = replace(SHIPPED, key="own", version="1")
    rules = kept
    for weight in weights:
        rules = rightly_named(Kept(), set_weight(rules, "dents", weight))  # type: ignore[arg-type]
        same = set_weight(kept, "dents", weight) == kept
        assert set_version(rules) == ("1" if same else f"1{EDITED}")
        assert (digest(rules) == digest(kept)) is same
