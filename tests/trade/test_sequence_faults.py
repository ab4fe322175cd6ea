"""A sequence file that is wrong is refused, naming file, line, entry and field."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from benchlog.errors import ResourceFault
from benchlog.trade.resource_file import resources_folder
from benchlog.trade.sequence_file import load_sequence

CAN = "sequence/attributes/can.toml"
SPIN_ON = "sequence/spin_on.toml"


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of the shipped files, to plant faults in."""
    for room in ("sequence", "trade"):
        shutil.copytree(resources_folder() / room, tmp_path / room)
    return tmp_path


def plant(copy: Path, relative: str, old: str, new: str) -> int:
    """Put `new` in the place of `old`, which must stand there; return the line of the place."""
    path = copy / relative
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return text[: text.index(old)].count("\n") + 1


def line_of(copy: Path, relative: str, text: str, after: str = "") -> int:
    """The line on which `text` stands, the first one after the line `after`."""
    lines = (copy / relative).read_text(encoding="utf-8").splitlines()
    start = lines.index(after) if after else 0
    return lines.index(text, start) + 1


def fault_in(copy: Path, key: str = "spin_on") -> ResourceFault:
    with pytest.raises(ResourceFault) as caught:
        load_sequence(key, copy)
    return caught.value


WALL = "[attribute.can_wall]"


@pytest.mark.parametrize(
    ("old", "new", "field", "words"),
    [
        ("soft = [0.25, 0.7]", "sofft = [0.25, 0.7]", "sofft", "'soft' was probably meant"),
        ("soft = [0.25, 0.7]", "soft = [0.1, 0.7]", "soft", "inside the hard one"),
        ("soft = [0.25, 0.7]", "soft = [0.7, 0.25]", "soft", "lower end first"),
        ("soft = [0.25, 0.7]", "soft = [0.25]", "soft", "two numbers"),
        ("soft = [0.25, 0.7]", 'soft = [0.25, "x"]', "soft", "wants a number, not text"),
        ("hard = [0.15, 2]", "hard = [2, 0.15]", "hard", "lower end first"),
        ('station = "can"', 'station = "cam"', "station", "there is no station 'cam'"),
        ('component = "can"', 'component = "tin"', "component", "'tin' is not one of:"),
        ('kind = "quantity"', 'kind = "number"', "kind", "'number' is not one of:"),
        ('kind = "quantity"', 'kind = "text"', "dimension", "does not go with kind 'text'"),
        ('kind = "quantity"', 'kind = "count"', "dimension", "dimension 'count'"),
        ('kind = "quantity"', 'kind = "choice"', "dimension", "does not go with kind 'choice'"),
        ('unit = "millimeter"', 'unit = "furlnog"', "unit", "not a unit of length"),
        ('unit = "millimeter"', 'unit = "gram"', "unit", "not a unit of length"),
        ('unit = "millimeter"', 'unit = ""', "unit", "a number wants a unit"),
        ('inch_unit = "inch"', 'inch_unit = "psi"', "inch_unit", "not a unit of length"),
        ('dimension = "length"', 'dimension = "longness"', "dimension", "is not one of: length"),
        ('instrument = "micrometer"', 'instrument = "ruler"', "instrument", "is not one of:"),
        ("repeats = 4", "repeats = 0", "repeats", "at least 1"),
        ("repeats = 4", 'repeats = "four"', "repeats", "a whole number"),
        ('source = "common practice"', 'source = "everybody says"', "source", "published A"),
        ('support = "engineering"', 'support = "sure"', "support", "'sure' is not one of:"),
        ("usual = true", 'usual = "yes"', "usual", "true or false"),
        ("usual = true", 'specimen_field = "age"', "specimen_field", "no such field"),
        ("usual = true", 'comparable_when = ["mood"]', "comparable_when", "'mood'"),
        ("usual = true", 'choices = { a = "A", b = "B" }', "choices", "do not go with kind"),
        ("usual = true", 'choices_from = "moon"', "choices_from", "'threads'"),
    ],
)
def test_fault_in_an_attribute_is_placed(copy, old, new, field, words):
    path = copy / CAN
    head, wall, rest = path.read_text(encoding="utf-8").partition(WALL)
    assert old in rest.partition("\n[")[0]
    path.write_text(head + wall + rest.replace(old, new, 1), encoding="utf-8")
    fault = fault_in(copy)
    assert fault.file == CAN
    assert fault.entry == "can_wall"
    assert fault.field == field
    assert words in str(fault)
    at_fault = (path.read_text(encoding="utf-8").splitlines())[(fault.line or 0) - 1]
    assert at_fault.startswith(f"{field} =")


@pytest.mark.parametrize(
    ("field", "line"),
    [
        ("help", 'help = "Thickness of the can wall at mid height'),
        ("source", 'source = "common practice"'),
        ("support", 'support = "engineering"'),
        ("method", 'method = "ball-foot micrometer, four'),
        ("judged", 'judged = "more"'),
    ],
)
def test_missing_field_is_placed(copy, field, line):
    path = copy / CAN
    head, wall, rest = path.read_text(encoding="utf-8").partition(WALL)
    kept = rest.splitlines()
    kept.remove(next(row for row in kept if row.startswith(line)))
    path.write_text(head + wall + "\n".join(kept), encoding="utf-8")
    fault = fault_in(copy)
    heading = line_of(copy, CAN, WALL)
    assert (fault.file, fault.entry, fault.field, fault.line) == (CAN, "can_wall", field, heading)
    assert "is missing" in str(fault)


def test_empty_help_is_refused(copy):
    plant(copy, CAN, 'help = "Whether a magnet sticks to the can."', 'help = " "')
    fault = fault_in(copy)
    assert (fault.entry, fault.field) == ("can_magnetic", "help")


def test_same_key_in_one_file_is_refused(copy):
    line = plant(copy, CAN, "[attribute.can_dome_wall]", WALL)
    fault = fault_in(copy)
    assert (fault.file, fault.entry, fault.line) == (CAN, "can_wall", line)


def test_same_key_in_two_files_is_refused(copy):
    line = plant(copy, CAN, WALL, "[attribute.dents]")
    fault = fault_in(copy)
    assert (fault.file, fault.entry, fault.line) == (CAN, "dents", line)
    assert "another file" in str(fault)


def test_odd_key_is_refused(copy):
    line = plant(copy, CAN, WALL, "[attribute.Can-Wall]")
    fault = fault_in(copy)
    assert (fault.entry, fault.line) == ("Can-Wall", line)


def test_single_answer_is_no_choice(copy):
    plant(copy, CAN, 'single = "Single roll"\nwelded = "Welded"\nother = "Another way"\n', "")
    fault = fault_in(copy)
    assert (fault.entry, fault.field) == ("can_seam", "choices")
    assert fault.line == line_of(copy, CAN, "[attribute.can_seam.choices]")


def test_answer_given_twice_is_refused(copy):
    gasket = "sequence/attributes/gasket.toml"
    plant(
        copy,
        gasket,
        'choices_from = "elastomers"\n',
        'choices_from = "elastomers"\nchoices = { nbr = "Nitrile" }\n',
    )
    fault = fault_in(copy)
    assert (fault.file, fault.entry, fault.field) == (gasket, "gasket_material", "choices")
    assert "'nbr' stands twice" in str(fault)


def test_choices_as_a_list_are_refused(copy):
    plant(copy, CAN, "usual = true", 'usual = true\nchoices = ["a", "b"]')
    assert fault_in(copy).field == "choices"


def test_broken_toml_is_placed(copy):
    line = plant(copy, CAN, "hard = [0.15, 2]", "hard = [0.15; 2]")
    fault = fault_in(copy)
    assert (fault.file, fault.line, fault.entry, fault.field) == (CAN, line, "can_wall", "hard")


def test_unknown_table_is_refused(copy):
    line = plant(copy, CAN, WALL, "[atribute.can_wall]")
    fault = fault_in(copy)
    assert (fault.file, fault.line) == (CAN, line)
    assert "'attribute' was probably meant" in str(fault)


def test_missing_attribute_file_is_told(copy):
    (copy / CAN).unlink()
    assert fault_in(copy).file == CAN


def test_unknown_field_of_a_station_is_refused(copy):
    line = plant(copy, SPIN_ON, "one_way = true", "oneway = true")
    fault = fault_in(copy)
    assert (fault.file, fault.line, fault.entry, fault.field) == (SPIN_ON, line, "cut", "oneway")


def test_sequence_without_version_is_refused(copy):
    plant(copy, SPIN_ON, 'version = "1"\n', "")
    fault = fault_in(copy)
    assert (fault.entry, fault.field) == ("sequence", "version")


def test_sequence_without_stations_is_refused(copy):
    path = copy / SPIN_ON
    text = path.read_text(encoding="utf-8")
    path.write_text(text[: text.index("[station.")], encoding="utf-8")
    assert "has no stations" in str(fault_in(copy))


def test_leaving_out_what_is_not_there_is_refused(copy):
    cartridge = "sequence/cartridge.toml"
    line = plant(copy, cartridge, '"element_seal"', '"no_such_thing"')
    fault = fault_in(copy, "cartridge")
    assert (fault.file, fault.line, fault.field) == (cartridge, line, "leave_out")


def test_unknown_sequence_is_told(copy):
    assert fault_in(copy, "bath_plug").file == "sequence/bath_plug.toml"


def test_sound_copy_is_the_shipped_sequence(copy):
    assert load_sequence("spin_on", copy) == load_sequence("spin_on")


def test_ones_own_attribute_is_taken(copy):
    plant(copy, CAN, 'label = "Can wall thickness"', 'label = "Wall, my way"')
    assert load_sequence("spin_on", copy).attribute("can_wall").label == "Wall, my way"
