"""The automatic choice of a line's shape."""

from __future__ import annotations

import pytest

from benchlog.errors import ScaleFault
from benchlog.instruments.line_reader import LINES_BEFORE_CHANGE, LineReader
from benchlog.instruments.telegram import NotAWeight
from benchlog.tasks.ports import Steadiness, Weight


def keys_after(reader: LineReader, *lines: bytes) -> list[str]:
    keys = []
    for line in lines:
        reader.read(line)
        keys.append(reader.shape.key if reader.shape else "")
    return keys


def test_each_example_finds_its_own_shape(templates):
    for shape in templates.shapes:
        for example in shape.examples:
            found = LineReader(templates)
            read = found.read(example.line.encode())
            if not shape.automatic:
                continue
            assert isinstance(read, Weight), example
            if shape.key != "question-mark-after" or "?" in example.line:
                assert keys_after(found, example.line.encode()) == [shape.key], example


def test_first_fitting_shape_is_kept(templates):
    reader = LineReader(templates)
    assert keys_after(reader, b"noise", b"ST,GS,+00287.4  g", b"noise") == [
        "",
        "words-before",
        "words-before",
    ]


def test_headless_line_is_no_weight(templates):
    """The tail of a line must not pass for a lighter weight (common practice, no source)."""
    reader = LineReader(templates)
    reader.read(b"ST,GS,+00287.4  g")
    assert isinstance(reader.read(b"7.4  g"), NotAWeight)
    assert isinstance(reader.read(b"ST,GS,+00287.4  g"), Weight)


def test_richer_shape_is_taken_at_once(templates):
    reader = LineReader(templates)
    reader.read(b"  287.4 g")
    read = reader.read(b"  287.5 g ?")
    assert isinstance(read, Weight)
    assert read.steadiness is Steadiness.MOVING
    rested = reader.read(b"  287.5 g")
    assert isinstance(rested, Weight)
    assert rested.steadiness is Steadiness.STABLE


def test_poorer_shape_waits_for_several_lines(templates):
    reader = LineReader(templates)
    reader.read(b"ST,GS,+00287.4  g")
    keys = keys_after(reader, *[b"  287.4 g"] * LINES_BEFORE_CHANGE)
    assert keys == ["words-before"] * (LINES_BEFORE_CHANGE - 1) + ["plain"]


def test_line_of_kept_shape_forgets_the_rival(templates):
    reader = LineReader(templates)
    kept, rival = b"ST,GS,+00287.4  g", b"  287.4 g"
    lines = [kept, *[rival, rival, kept] * 3]
    assert set(keys_after(reader, *lines)) == {"words-before"}


def test_differing_rivals_do_not_add_up(templates):
    reader = LineReader(templates)
    lines = [b"ST,GS,+00287.4  g", *[b"  287.4 g", b"S S    287.40 g"] * 4]
    assert set(keys_after(reader, *lines)) == {"words-before"}


def test_chosen_shape_is_never_left(templates):
    reader = LineReader(templates, "plain")
    lines = [b"ST,GS,+00287.4  g"] * 10
    assert keys_after(reader, *lines) == ["plain"] * 10


def test_unknown_shape_is_refused(templates):
    with pytest.raises(ScaleFault, match=r"called 'nonesuch'.*plain"):
        LineReader(templates, "nonesuch")


def test_refused_command_keeps_looking(templates):
    reader = LineReader(templates)
    read = reader.read(b"S I")
    assert isinstance(read, NotAWeight)
    assert "no weight to give" in read.why
    assert reader.shape is None
