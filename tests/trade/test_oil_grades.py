"""Grades of engine oil and what they say of viscosity."""

from __future__ import annotations

import shutil

import pytest

from benchlog.errors import ResourceFault
from benchlog.trade.oil_grade import load_oil_grades
from benchlog.trade.resource_file import resources_folder

# SAE J300, editions 2015 to 2021 (found in published copies): mm²/s at 100 °C, from, to below.
J300 = {
    "8": (4.0, 6.1),
    "12": (5.0, 7.1),
    "16": (6.1, 8.2),
    "20": (6.9, 9.3),
    "30": (9.3, 12.5),
    "40": (12.5, 16.3),
    "50": (16.3, 21.9),
    "60": (21.9, 26.1),
}


def test_limits_are_those_of_the_standard():
    assert {g.key: (g.v100_low, g.v100_below) for g in load_oil_grades().grades} == J300


def test_edition_is_named():
    edition = load_oil_grades().edition
    assert "J300" in edition.label
    assert "2015 to 2021" in edition.label
    assert edition.source


@pytest.mark.parametrize(
    ("said", "grade"),
    [
        ("30", "30"),
        ("SAE 30", "30"),
        ("5W-30", "30"),
        ("0w20", "20"),
        ("15W 40", "40"),
        ("sae 10W-60", "60"),
        (" 16 ", "16"),
    ],
)
def test_grade_is_known_by_how_it_is_said(said, grade):
    assert load_oil_grades().grade(said).key == grade


@pytest.mark.parametrize("said", ["", "10W", "5W-", "31", "W30", "30-5W", "thirty", "-30"])
def test_what_names_no_upper_limit_is_no_grade(said):
    assert load_oil_grades().grade(said) is None


@pytest.mark.parametrize(
    ("old", "new", "entry", "field"),
    [
        ("v100_below = 12.5", "v100_below = 9.3", "30", "v100_low"),
        ("v100_low = 16.3", "v100_low = 6.3", "50", "v100_low"),
        ("v100_low = 4.0", 'v100_low = "four"', "8", "v100_low"),
        ("[edition]", "[editions]", "editions", ""),
    ],
)
def test_wrong_grade_is_placed(tmp_path, old, new, entry, field):
    shutil.copytree(resources_folder() / "trade", tmp_path / "trade")
    path = tmp_path / "trade" / "oil_grades.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(ResourceFault) as caught:
        load_oil_grades(tmp_path)
    assert (caught.value.entry, caught.value.field) == (entry, field)
