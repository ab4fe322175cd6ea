"""The file of line shapes: what it must hold, and faults named by place."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from benchlog.errors import ResourceFault
from benchlog.instruments.template_file import TEMPLATES, load_templates
from benchlog.trade.resource_file import resources_folder

SOUND = r"""
[units]
g = "gram"

[template.odd]
description = "A weight and its unit."
source = "common practice, no source"
pattern = '{sign}{number} {unit}(?P<motion>!?)'
write = "{sign}{number} {unit}{motion}"
automatic = true
motion = { "!" = "moving", "" = "stable" }
examples = [ { line = "12.5 g!", value = "12.5", unit = "gram", motion = "moving" } ]
"""


def written(folder: Path, text: str) -> Path:
    path = folder / TEMPLATES
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return folder


def test_shipped_file_is_sound(templates):
    keys = [shape.key for shape in templates.shapes]
    assert len(set(keys)) == len(keys) >= 8
    assert all(shape.source and shape.description for shape in templates.shapes)


def test_own_file_can_add_a_shape(tmp_path):
    loaded = load_templates(written(tmp_path, SOUND))
    assert [shape.key for shape in loaded.shapes] == ["odd"]
    assert loaded.shape("odd").says_motion


@pytest.mark.parametrize(
    ("old", "new", "field", "what"),
    [
        ("{number} {unit}(", "{number} {unit}((", "pattern", "not a sound pattern"),
        ("?P<motion>", "?P<mood>", "pattern", "'mood' is not one of"),
        ("{sign}{number} {unit}(", "{sign}{unit}(", "pattern", "no group 'number'"),
        ('"moving", ""', '"wobbling", ""', "motion", "'wobbling' is not one of"),
        ("automatic = true", 'automatic = "yes"', "automatic", "wants true or false"),
        ("automatic = true", "automatc = true", "automatc", "'automatic' was probably meant"),
        ('source = "common practice, no source"', "", "source", "missing"),
        ('g = "gram"', 'g = "gramme"', "g", "'gramme' is not one of"),
        ('value = "12.5"', 'value = "12.50"', "examples", "comes to 12.5 gram"),
        ('value = "12.5"', 'value = "twelve"', "examples", "no number: 'twelve'"),
        ('"12.5 g!"', '"12.5 g?"', "examples", "is not read"),
        ('motion = "moving" }', 'motion = "asleep" }', "examples", "'asleep'"),
    ],
)
def test_fault_names_entry_and_field(tmp_path, old, new, field, what):
    assert old in SOUND
    with pytest.raises(ResourceFault, match=re.escape(what)) as caught:
        load_templates(written(tmp_path, SOUND.replace(old, new)))
    assert caught.value.file == str(TEMPLATES)
    assert caught.value.field == field
    assert caught.value.entry == ("units" if field == "g" else "odd")
    assert caught.value.line is not None


def test_missing_file_is_named(tmp_path):
    with pytest.raises(ResourceFault, match="cannot be read"):
        load_templates(tmp_path)


def test_shapes_without_example_are_refused(tmp_path):
    text = re.sub(r"examples = .*", "examples = []", SOUND)
    with pytest.raises(ResourceFault, match="one example at least"):
        load_templates(written(tmp_path, text))


def test_header_explains_every_field():
    """Each field that stands in the file is explained at its head."""
    text = (resources_folder() / TEMPLATES).read_text(encoding="utf-8")
    head = "".join(line for line in text.splitlines(keepends=True) if line.startswith("#"))
    used = set(re.findall(r"^(\w+) =", text[text.index("[template.words-before]") :], re.MULTILINE))
    assert used
    assert [name for name in sorted(used) if f" {name} " not in head] == []
