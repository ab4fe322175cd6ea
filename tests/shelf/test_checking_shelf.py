"""The check of a shelf finds what was put wrong, says where, and mends nothing."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from benchlog.shelf import check_shelf, open_shelf
from tests.shelf import picture_scenes, scenes
from tests.shelf.looks import listing


@pytest.fixture
def used(folder: Path) -> Path:
    """A closed, sound shelf with records of every kind."""
    with open_shelf(folder) as shelf:
        scenes.set_up(shelf)
        shelf.add_photo(scenes.photo(specimen_id=""), scenes.PICTURE)
        shelf.add_photo(scenes.photo(), scenes.PICTURE)
        shelf.add_reading(scenes.reading("first"))
        shelf.add_moment(scenes.moment("jump"))
        shelf.add_remark(scenes.remark("dent"))
        shelf.save_place(scenes.place())
        scenes.judge(shelf, after="first")
        picture_scenes.picture_all(shelf)
    return folder


def tamper(folder: Path, *deeds: str) -> None:
    with closing(sqlite3.connect(folder / "shelf.sqlite", isolation_level=None)) as raw:
        for deed in deeds:
            raw.execute(deed)


def test_sound_shelf_has_no_problems(used: Path) -> None:
    before = listing(used)
    assert check_shelf(used) == []
    assert listing(used) == before


@pytest.mark.parametrize(
    ("deed", "told"),
    [
        ("DROP TRIGGER reading_refuses_delete", "The guard 'reading_refuses_delete'"),
        ("DROP TRIGGER remark_refuses_replace", "The guard 'remark_refuses_replace'"),
        ("UPDATE moment SET at = 'noon'", "Line-up 'Spring pair': "),
        ("UPDATE specimen SET shape = 'blob'", "blob"),
        ("UPDATE specimen SET price = 'ten' WHERE id = 'alfa'", "Line-up 'Spring pair': "),
        ("UPDATE place SET tools = '[['", "Line-up 'Spring pair': "),
        (
            "UPDATE photo SET specimen_id = 'nobody' WHERE specimen_id IS NULL",
            "points to a 'specimen' that is not there",
        ),
    ],
)
def test_altered_file_is_noticed(used: Path, deed: str, told: str) -> None:
    tamper(used, deed)
    problems = check_shelf(used)
    assert len(problems) == 1
    assert told in problems[0]


@pytest.mark.parametrize(
    ("table", "deed", "told"),
    [
        ("rules_lock", "SET digest = 'x' WHERE id = 'locked'", "lock locked do not fit the digest"),
        ("rules_lock", "SET rules = '{}' WHERE id = 'locked'", "'key' is missing"),
        ("overruling", "SET winners = '[\"zulu\"]' WHERE seq = 1", "names a specimen that is not"),
        ("overruling", "SET kind = 'best' WHERE seq = 1", "best"),
        ("blind_run", 'SET codes = \'[["zulu", "KT"]]\'', "a code for a specimen that is not"),
        ("blind_run", "SET orders = '[]'", "an order that does not fit its codes"),
        ("poll", "SET votes = '[[\"zulu\", 3]]'", "Poll channel names a specimen"),
        ("declaration", "SET digest = 'x' WHERE seq = 1", "of declaration declared does not fit"),
        ("declaration", "SET purpose = '{}' WHERE seq = 1", "This purpose cannot be read"),
        ("own_rules", "SET version = '7'", "are not those that were kept"),
        ("own_rules", "SET rules = '[]'", "Own rules 'own', version 1: These rules cannot be read"),
    ],
)
def test_altered_judging_is_noticed(used: Path, table: str, deed: str, told: str) -> None:
    guard = f"{table}_refuses_update"
    tamper(used, f"DROP TRIGGER {guard}", f"UPDATE {table} {deed}")
    problems = "\n".join(check_shelf(used))
    assert told in problems
    assert guard in problems


def test_judging_of_another_lineup_is_noticed(used: Path) -> None:
    tamper(
        used,
        "PRAGMA foreign_keys=OFF",
        *(
            f"DROP TRIGGER {table}_refuses_update"
            for table in ("rules_lock", "blind_run", "reveal", "declaration")
        ),
        "UPDATE rules_lock SET after = 'lost' WHERE id = 'changed'",
        "UPDATE blind_run SET after = 'lost'",
        "UPDATE reveal SET run_id = 'lost'",
        "UPDATE declaration SET after = 'lost' WHERE seq = 2",
    )
    problems = "\n".join(check_shelf(used))
    assert "Lock changed follows reading lost, which is not in its line-up." in problems
    assert "Blind run run follows reading lost, which is not in its line-up." in problems
    assert "Declaration given up follows reading lost, which is not in its" in problems
    assert "Reveal opened opens run lost, which is not in its line-up." in problems


@pytest.mark.parametrize(
    ("table", "deed", "told"),
    [
        ("micrograph", "SET field = 3 WHERE id = 'bright'", "bright replaces dark, which is not"),
        ("micrograph", "SET photo_id = 'x' WHERE id = 'dark'", "dark shows a photo that is not"),
        ("micrograph", "SET side = 'top' WHERE id = 'dark'", "'top' is not a valid Side"),
        ("picture_answer", "SET readings = '[\"x\"]' WHERE id = 'good'", "good made reading x,"),
        ("picture_answer", "SET gates = '[[1]]' WHERE id = 'good'", "damaged"),
        ("microscope_set_up", "SET scale_from = 'guess'", "Microscope set-ups: "),
        ("microscope_set_up", "SET scale_picture = ''", "belongs to no record"),
    ],
)
def test_altered_picture_record_is_noticed(used: Path, table: str, deed: str, told: str) -> None:
    tamper(used, f"DROP TRIGGER {table}_refuses_update", f"UPDATE {table} {deed}")
    assert told in "\n".join(check_shelf(used))


def test_correction_of_nothing_is_noticed(used: Path) -> None:
    tamper(
        used,
        "PRAGMA foreign_keys=OFF",
        "DROP TRIGGER reading_refuses_update",
        "UPDATE reading SET supersedes = 'lost' WHERE id = 'first'",
    )
    problems = "\n".join(check_shelf(used))
    assert "Reading first corrects lost, which is not in its line-up." in problems
    assert "Entry 1 of 'reading' points to a 'reading' that is not there." in problems


def test_stray_files_are_named(used: Path) -> None:
    stray = used / "photos" / "zz" / "holiday.jpg"
    stray.parent.mkdir()
    stray.write_bytes(b"sun")
    half = used / "photos" / "zz" / "can.jpg-abc.part"
    half.write_bytes(b"ca")
    problems = check_shelf(used)
    assert sorted(problems) == sorted(
        [
            f"{stray} belongs to no record.",
            f"{half} was still being written when the program stopped; it may be deleted.",
        ]
    )


def test_missing_shelf_is_a_problem(tmp_path: Path) -> None:
    problems = check_shelf(tmp_path / "nowhere")
    assert len(problems) == 1
    assert "There is no shelf" in problems[0]
    assert list(tmp_path.iterdir()) == []
