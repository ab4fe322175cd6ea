"""Reading one resource file: entries, records, and faults that name their place."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import ResourceFault
from benchlog.trade.resource_file import ResourceFile, read_resource, resources_folder


class Colour(StrEnum):
    RED = "red"
    BLUE = "blue"


@dataclass(frozen=True)
class Part:
    name: str
    size: float


@dataclass(frozen=True)
class Thing:
    key: str
    label: str
    colour: Colour = Colour.RED
    weight: float = 1.0
    count: int = 1
    parts: tuple[Part, ...] = ()
    spare: Part | None = None
    heavy: bool = False


def written(folder: Path, text: str) -> ResourceFile:
    (folder / "things.toml").write_text(text, encoding="utf-8")
    return read_resource("things.toml", folder)


def things(file: ResourceFile) -> list[Thing]:
    return [file.convert(entry, Thing) for entry in file.entries("thing")]


def fault_of(folder: Path, text: str) -> ResourceFault:
    """The fault that reading the text as things ends in."""
    with pytest.raises(ResourceFault) as caught:
        things(written(folder, text))
    return caught.value


def place(fault: ResourceFault) -> tuple[str, int | None, str, str]:
    return fault.file, fault.line, fault.entry, fault.field


def test_entries_keep_the_files_order(tmp_path):
    file = written(tmp_path, '[thing.z]\nlabel = "Z"\n[thing.a]\nlabel = "A"\n')
    assert things(file) == [Thing("z", "Z"), Thing("a", "A")]


def test_no_tables_mean_no_entries(tmp_path):
    assert written(tmp_path, "").entries("thing") == ()


def test_nested_tables_become_nested_records(tmp_path):
    file = written(
        tmp_path,
        '[thing.a]\nlabel = "A"\nparts = [{name = "p", size = 2}]\n'
        'spare = {name = "s", size = 1}\n',
    )
    thing = file.convert(file.entries("thing")[0], Thing)
    assert thing.parts == (Part("p", 2.0),)
    assert thing.spare == Part("s", 1.0)


def test_unknown_field_is_refused_by_line(tmp_path):
    fault = fault_of(tmp_path, '# note\n[thing.a]\nlabel = "A"\nwieght = 2\n')
    assert place(fault) == ("things.toml", 4, "a", "wieght")
    assert "'weight' was probably meant" in str(fault)


def test_unknown_field_inside_a_record_is_refused(tmp_path):
    fault = fault_of(
        tmp_path, '[thing.a]\nlabel = "A"\nparts = [{name = "p", size = 2, sise = 3}]\n'
    )
    assert place(fault) == ("things.toml", 3, "a", "parts")
    assert "'sise'" in str(fault)


def test_missing_field_names_heading_line(tmp_path):
    fault = fault_of(tmp_path, '\n\n[thing.a]\ncolour = "red"\n')
    assert place(fault) == ("things.toml", 3, "a", "label")
    assert "'label' is missing" in str(fault)


def test_missing_field_inside_names_outer_field(tmp_path):
    fault = fault_of(tmp_path, '[thing.a]\nlabel = "A"\nspare = {name = "p"}\n')
    assert place(fault) == ("things.toml", 3, "a", "spare")
    assert "'size' is missing" in str(fault)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('weight = "heavy"', "wants a number, not text"),
        ("count = 1.5", "wants a whole number, not a number"),
        ('heavy = "yes"', "wants true or false, not text"),
        ("label = 3", "wants text, not a whole number"),
        ('parts = "p"', "wants a list, not text"),
        ("spare = 3", "wants a table, not a whole number"),
        ('colour = "green"', "'green' is not one of: red, blue"),
    ],
)
def test_wrong_value_is_told_plainly(tmp_path, line, words):
    label = "" if line.startswith("label") else 'label = "A"\n'
    fault = fault_of(tmp_path, f"[thing.a]\n{label}{line}\n")
    assert words in str(fault)
    assert fault.field == line.split(" ")[0]
    assert fault.line == (2 if not label else 3)


def test_key_in_a_field_is_refused(tmp_path):
    fault = fault_of(tmp_path, '[thing.a]\nkey = "b"\nlabel = "A"\n')
    assert place(fault) == ("things.toml", 2, "a", "key")


def test_line_is_of_the_right_entry(tmp_path):
    text = '[thing.a]\nlabel = "A"\n[thing.ab]\nlabel = "AB"\nweight = "x"\n'
    assert place(fault_of(tmp_path, text)) == ("things.toml", 5, "ab", "weight")


def test_line_of_a_subtable_is_found(tmp_path):
    text = '[thing.a]\nlabel = "A"\n[thing.a.spare]\nname = "s"\nsize = "big"\n'
    assert place(fault_of(tmp_path, text)) == ("things.toml", 3, "a", "spare")


def test_quoted_keys_are_found(tmp_path):
    text = '[thing."1-12 UNF"]\nlabel = "A"\nweight = "x"\n'
    assert place(fault_of(tmp_path, text)) == ("things.toml", 3, "1-12 UNF", "weight")


def test_value_where_a_table_belongs_is_refused(tmp_path):
    fault = fault_of(tmp_path, '[thing]\na = "A"\n')
    assert place(fault) == ("things.toml", 2, "thing", "a")


def test_list_where_tables_belong_is_refused(tmp_path):
    fault = fault_of(tmp_path, '[[thing]]\nlabel = "A"\n')
    assert fault.line == 1
    assert "[thing.name]" in str(fault)


def test_twice_declared_key_names_entry_and_line(tmp_path):
    fault = fault_of(tmp_path, '[thing.a]\nlabel = "A"\n[thing.a]\nlabel = "B"\n')
    assert place(fault) == ("things.toml", 3, "a", "")


def test_twice_given_field_names_field_and_line(tmp_path):
    fault = fault_of(tmp_path, '[thing.a]\nlabel = "A"\nlabel = "B"\n')
    assert (fault.entry, fault.field) == ("a", "label")
    assert fault.line == 3


def test_broken_toml_names_line_and_field(tmp_path):
    fault = fault_of(tmp_path, '[thing.a]\nlabel = "A"\nweight = = 2\n')
    assert place(fault) == ("things.toml", 3, "a", "weight")
    assert "not sound TOML" in str(fault)


def test_file_cut_short_names_last_line(tmp_path):
    assert fault_of(tmp_path, '[thing.a]\nlabel = """A\n').line == 2


def test_missing_file_is_told(tmp_path):
    with pytest.raises(ResourceFault, match=r"none\.toml: cannot be read"):
        read_resource("none.toml", tmp_path)


def test_file_of_other_bytes_is_told(tmp_path):
    (tmp_path / "x.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(ResourceFault, match="UTF-8"):
        read_resource("x.toml", tmp_path)


def test_path_of_ones_own_is_read(tmp_path):
    (tmp_path / "own.toml").write_text('[thing.a]\nlabel = "A"\n', encoding="utf-8")
    assert read_resource(tmp_path / "own.toml").entries("thing")[0].key == "a"


def test_unknown_table_is_refused(tmp_path):
    file = written(tmp_path, '[thnig.a]\nlabel = "A"\n')
    with pytest.raises(ResourceFault, match="'thing' was probably meant"):
        file.only("thing")


def test_missing_single_table_is_told(tmp_path):
    with pytest.raises(ResourceFault, match=r"\[sequence\] is missing"):
        written(tmp_path, "").single("sequence")


def test_shipped_folder_holds_the_sequences():
    assert (resources_folder() / "sequence" / "spin_on.toml").is_file()


@given(st.lists(st.from_regex(r"[a-z]{1,6}", fullmatch=True), min_size=1, unique=True), st.data())
def test_fault_line_is_where_it_stands(keys, data):
    """Whatever the entries are called, a planted fault is named with its own line."""
    wrong = data.draw(st.sampled_from(keys))
    lines: list[str] = []
    for key in keys:
        lines += [f"[thing.{key}]", 'label = "A"', f"weight = {'[]' if key == wrong else 2}"]
    text = "\n".join(lines)
    tables = {"thing": {k: {"label": "A", "weight": [] if k == wrong else 2} for k in keys}}
    file = ResourceFile("f", text, tables)
    with pytest.raises(ResourceFault) as caught:
        things(file)
    assert caught.value.line == 3 * keys.index(wrong) + 3
    assert caught.value.entry == wrong
