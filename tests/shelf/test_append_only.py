"""Readings, remarks and the log of changes only grow, whoever writes to the file."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.errors import EntryRefused, OurFault
from benchlog.shelf import SqlShelf, open_shelf
from tests.shelf import picture_scenes, scenes

PICTURES = ("microscope_set_up", "micrograph", "picture_answer")
JUDGING = ("rules_lock", "own_rules", "overruling", "blind_run", "reveal", "poll", "declaration")


@pytest.fixture
def filled(shelf: SqlShelf, folder: Path) -> Path:
    shelf.add_reading(scenes.reading("first"))
    shelf.add_reading(scenes.reading("second", supersedes="first", reason="misread"))
    shelf.add_check(scenes.check("off", after="second"))
    shifted = replace(scenes.reading("third", supersedes="second"), group="shift")
    shelf.add_group_correction(scenes.group_correction("shift", "off"), [shifted])
    shelf.add_remark(scenes.remark("dent"))
    scenes.judge(shelf, after="third")
    scenes.publish(shelf, 1)
    picture_scenes.picture_all(shelf)
    shelf.save_lineup(replace(scenes.LINEUP, name="Spring trio"))
    shelf.close()
    return folder


@pytest.mark.parametrize(
    "deed",
    [
        "UPDATE reading SET text = '1 g' WHERE id = 'first'",
        "UPDATE reading SET seq = seq + 10",
        "DELETE FROM reading",
        "DELETE FROM reading WHERE id = 'second'",
        "INSERT OR REPLACE INTO reading SELECT * FROM reading WHERE id = 'first'",
        "REPLACE INTO reading SELECT 99, * FROM (SELECT {columns} FROM reading WHERE seq = 1)",
        "UPDATE instrument_check SET known = 100.3",
        "DELETE FROM instrument_check",
        "INSERT OR REPLACE INTO instrument_check SELECT * FROM instrument_check",
        "UPDATE group_correction SET shift = 0",
        "DELETE FROM group_correction",
        "INSERT OR REPLACE INTO group_correction SELECT * FROM group_correction",
        "UPDATE remark SET text = ''",
        "DELETE FROM remark",
        "INSERT OR REPLACE INTO remark SELECT * FROM remark",
        *(
            deed.format(table=table)
            for table in (*JUDGING, *PICTURES, "publication")
            for deed in (
                "UPDATE {table} SET at = ''",
                "DELETE FROM {table}",
                "INSERT OR REPLACE INTO {table} SELECT * FROM {table}",
            )
        ),
        "INSERT OR REPLACE INTO own_rules SELECT 9, key, version, '', '', at FROM own_rules",
        "INSERT OR REPLACE INTO reveal SELECT 9, 'again', lineup_id, at, run_id FROM reveal",
        "INSERT OR REPLACE INTO publication SELECT 9, 'again', lineup_id, revision, at, '', '', '',"
        " '' FROM publication",
        "UPDATE change SET old = ''",
        "DELETE FROM change",
    ],
)
def test_raw_sql_cannot_alter_entries(filled: Path, deed: str) -> None:
    with closing(sqlite3.connect(filled / "shelf.sqlite", isolation_level=None)) as raw:
        names = [
            f'"{row[1]}"' for row in raw.execute("PRAGMA table_info(reading)") if row[1] != "seq"
        ]
        before = list(raw.iterdump())
        assert len(names) > 20
        with pytest.raises(sqlite3.IntegrityError, match=r"never|already used"):
            raw.execute(deed.format(columns=", ".join(names)))
        assert list(raw.iterdump()) == before


def test_raw_sql_may_still_append(filled: Path) -> None:
    with closing(sqlite3.connect(filled / "shelf.sqlite", isolation_level=None)) as raw:
        raw.execute("INSERT INTO change VALUES (NULL, 'lineup', 'spring', 'name', 'a', 'b', 'x')")
        assert raw.execute("SELECT count(*) FROM change").fetchone() == (2,)


def test_reading_is_corrected_once(shelf: SqlShelf) -> None:
    shelf.add_reading(scenes.reading("first"))
    shelf.add_reading(scenes.reading("second", supersedes="first", reason="misread"))
    with pytest.raises(EntryRefused, match="already been corrected") as refusal:
        shelf.add_reading(scenes.reading("third", supersedes="first", reason="misread again"))
    assert "Correct the reading that took its place" in refusal.value.do
    shelf.add_reading(scenes.reading("third", supersedes="second", reason="misread again"))
    assert [one.id for one in shelf.readings("spring")] == ["first", "second", "third"]


def test_used_id_is_refused(shelf: SqlShelf) -> None:
    shelf.add_reading(scenes.reading("first"))
    with pytest.raises(OurFault, match="already used"):
        shelf.add_reading(replace(scenes.reading("first"), text="another"))
    assert [one.text for one in shelf.readings("spring")] == ["287.40 g"]


def test_refusal_leaves_shelf_usable(shelf: SqlShelf, folder: Path) -> None:
    shelf.add_remark(scenes.remark("dent"))
    with pytest.raises(OurFault):
        shelf.add_remark(scenes.remark("dent"))
    shelf.add_remark(scenes.remark("rust"))
    shelf.close()
    with open_shelf(folder, read_only=True) as reopened:
        assert [one.id for one in reopened.remarks("spring")] == ["dent", "rust"]
