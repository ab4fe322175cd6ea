"""Checks, group corrections and stated conditions on a real shelf."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from dataclasses import asdict, replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import EntryRefused, OurFault, ShelfReadOnly
from benchlog.shelf import SqlShelf, check_shelf, open_shelf
from tests import strategies
from tests.shelf import scenes
from tests.shelf.scenes import Folders


def shifted(name: str, supersedes: str, group: str = "shift"):
    return replace(scenes.reading(name, supersedes, "scale drifted"), group=group)


@given(st.data())
def test_checks_and_corrections_come_back(new_folder: Folders, data: st.DataObject) -> None:
    known = strategies.checks("spring", (scenes.SCALE.id,), ("first", "second"))
    checks = data.draw(st.lists(known, min_size=1, max_size=4, unique_by=lambda one: one.id))
    corrections = data.draw(
        st.lists(strategies.group_corrections(checks[0]), max_size=3, unique_by=lambda one: one.id)
    )
    if len(corrections) > 1:
        corrections[1] = replace(corrections[1], takes_back=corrections[0].id)
    groups = tuple(one.id for one in corrections)
    made = data.draw(strategies.readings("spring", ("alfa",), (scenes.SCALE.id,), None, groups))
    folder = new_folder()
    with open_shelf(folder) as shelf:
        scenes.set_up(shelf)
        shelf.add_reading(scenes.reading("first"))
        shelf.add_reading(scenes.reading("second"))
        for check in checks:
            shelf.add_check(check)
        for correction in corrections:
            shelf.add_group_correction(correction, [])
        shelf.add_reading(made)
    with open_shelf(folder) as shelf:
        assert shelf.checks("spring") == checks
        assert [str(c.said.value) for c in shelf.checks("spring")] == [
            str(c.said.value) for c in checks
        ]
        assert shelf.group_corrections("spring") == corrections
        assert shelf.readings("spring")[-1] == made
        assert shelf.checks("autumn") == []
        assert shelf.group_corrections("autumn") == []
    assert check_shelf(folder) == []


def test_group_is_stored_whole(shelf: SqlShelf) -> None:
    shelf.add_reading(scenes.reading("first"))
    shelf.add_reading(scenes.reading("second"))
    shelf.add_check(scenes.check("off", after="second"))
    correction = scenes.group_correction("shift", "off")
    made = [shifted("third", "first"), shifted("fourth", "second")]
    shelf.add_group_correction(correction, made)
    assert shelf.group_corrections("spring") == [correction]
    assert shelf.readings("spring")[2:] == made


def test_refused_reading_refuses_the_group(shelf: SqlShelf) -> None:
    shelf.add_reading(scenes.reading("first"))
    shelf.add_reading(scenes.reading("second"))
    shelf.add_reading(scenes.reading("third", supersedes="second", reason="misread"))
    shelf.add_check(scenes.check("off", after="third"))
    before = shelf.readings("spring")
    with pytest.raises(EntryRefused, match="already been corrected"):
        shelf.add_group_correction(
            scenes.group_correction("shift", "off"),
            [shifted("fourth", "first"), shifted("fifth", "second")],
        )
    assert shelf.readings("spring") == before
    assert shelf.group_corrections("spring") == []


def test_correction_is_taken_back_once(shelf: SqlShelf) -> None:
    shelf.add_reading(scenes.reading("first"))
    shelf.add_check(scenes.check("off"))
    shelf.add_group_correction(scenes.group_correction("shift", "off"), [])
    shelf.add_group_correction(scenes.group_correction("back", "off", takes_back="shift"), [])
    with pytest.raises(OurFault):
        shelf.add_group_correction(scenes.group_correction("again", "off", "shift"), [])
    assert [one.id for one in shelf.group_corrections("spring")] == ["shift", "back"]


@pytest.mark.parametrize(
    "wrong",
    [
        {"lineup_id": "autumn"},
        {"instrument_id": "no such scale"},
        {"after": "no such reading"},
        {"known": float("nan")},
        {"at": scenes.NOON.replace(tzinfo=None)},
    ],
    ids=lambda wrong: next(iter(wrong)),
)
def test_unfit_checks_are_refused(shelf: SqlShelf, wrong: dict[str, object]) -> None:
    shelf.add_reading(scenes.reading("first"))
    with pytest.raises(OurFault):
        shelf.add_check(replace(scenes.check("unfit"), **wrong))
    assert shelf.checks("spring") == []


@pytest.mark.parametrize("wrong", [{"check_id": "none"}, {"takes_back": "none"}], ids=str)
def test_unfit_corrections_are_refused(shelf: SqlShelf, wrong: dict[str, object]) -> None:
    shelf.add_reading(scenes.reading("first"))
    shelf.add_check(scenes.check("off"))
    with pytest.raises(OurFault):
        shelf.add_group_correction(
            replace(scenes.group_correction("shift", "off"), **wrong), [shifted("second", "first")]
        )
    assert [one.id for one in shelf.readings("spring")] == ["first"]


def test_reading_of_no_correction_is_refused(shelf: SqlShelf) -> None:
    with pytest.raises(OurFault):
        shelf.add_reading(replace(scenes.reading("first"), group="none"))


def test_view_takes_no_checks(folder: Path) -> None:
    with open_shelf(folder) as shelf:
        scenes.set_up(shelf)
    with open_shelf(folder, read_only=True) as view:
        with pytest.raises(ShelfReadOnly):
            view.add_check(scenes.check("off", after=""))
        with pytest.raises(ShelfReadOnly):
            view.add_group_correction(scenes.group_correction("shift", "off"), [])


def test_changed_conditions_are_logged_by_name(shelf: SqlShelf) -> None:
    shelf.save_lineup(replace(scenes.LINEUP, conditions=scenes.CONDITIONS))
    warmer = replace(scenes.CONDITIONS, oil_temperature_c=95.0)
    shelf.save_lineup(replace(scenes.LINEUP, conditions=warmer))
    shelf.save_lineup(scenes.LINEUP)
    first, second, third = shelf.changes()
    assert {one.field for one in (first, second, third)} == {"conditions"}
    assert (first.old, third.new) == (None, None)
    assert json.loads(first.new or "") == asdict(scenes.CONDITIONS)
    assert '"oil_temperature_c": 80.0' in (second.old or "")
    assert '"oil_temperature_c": 95.0' in (second.new or "")


def test_broken_conditions_are_told(folder: Path) -> None:
    with open_shelf(folder) as shelf:
        shelf.save_lineup(scenes.LINEUP)
    with closing(sqlite3.connect(folder / "shelf.sqlite", isolation_level=None)) as raw:
        raw.execute("""UPDATE lineup SET conditions = '{"flow": 3}'""")
    (problem,) = check_shelf(folder)
    assert "Spring pair" in problem


def test_entries_of_another_lineup_are_told(shelf: SqlShelf, folder: Path) -> None:
    shelf.save_lineup(replace(scenes.LINEUP, id="autumn", name="Autumn pair"))
    shelf.add_reading(scenes.reading("first"))
    shelf.add_check(scenes.check("own"))
    shelf.add_group_correction(scenes.group_correction("shift", "own"), [])
    assert check_shelf(folder) == []
    shelf.add_check(replace(scenes.check("strange"), lineup_id="autumn"))
    stray = replace(scenes.group_correction("stray", "own"), lineup_id="autumn")
    shelf.add_group_correction(stray, [])
    shelf.add_reading(replace(scenes.reading("lost"), lineup_id="autumn", group="shift"))
    problems = check_shelf(folder)
    assert len(problems) == 3
    for problem, word in zip(
        problems, ["Check strange", "correction stray", "Reading lost"], strict=True
    ):
        assert word in problem
        assert "not in its line-up" in problem


def test_missing_guard_of_checks_is_told(folder: Path) -> None:
    with closing(sqlite3.connect(folder / "shelf.sqlite", isolation_level=None)) as raw:
        raw.execute("DROP TRIGGER instrument_check_refuses_update")
        raw.execute("DROP TRIGGER group_correction_refuses_replace")
    problems = check_shelf(folder)
    assert len(problems) == 2
    assert "group_correction_refuses_replace" in problems[0]
