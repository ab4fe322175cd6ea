"""The drawing steels: read, and refused where a file is wrong."""

from __future__ import annotations

import shutil

import pytest

from benchlog.errors import ResourceFault
from benchlog.trade.resource_file import resources_folder
from benchlog.trade.steel import load_steels, yield_span


def changed(tmp_path, old, new):
    shutil.copytree(resources_folder() / "trade", tmp_path / "trade")
    path = tmp_path / "trade" / "steels.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return tmp_path, text


def test_every_steel_names_its_standard_and_source():
    for steel in load_steels():
        assert steel.standard == "EN 10130"
        assert steel.source.startswith("published B")


@pytest.mark.parametrize(
    ("old", "new", "field"),
    [
        ("yield_mpa = [140, 280]", "yield_mpa = [280, 140]", "yield_mpa"),
        ("yield_mpa = [140, 280]", "yield_mpa = [0, 140]", "yield_mpa"),
        ("yield_mpa = [140, 280]", 'yield_mpa = "140"', "yield_mpa"),
        ('standard = "EN 10130"', 'standard = " "', "standard"),
        ('label = "DC01"', 'lable = "DC01"', "lable"),
    ],
)
def test_wrong_steel_is_placed(tmp_path, old, new, field):
    root, text = changed(tmp_path, old, new)
    with pytest.raises(ResourceFault) as caught:
        load_steels(root)
    fault = caught.value
    assert (fault.file, fault.entry, fault.field) == ("trade/steels.toml", "DC01", field)
    assert fault.line == text[: text.index(old)].count("\n") + 1


def test_file_without_steels_is_refused(tmp_path):
    (tmp_path / "trade").mkdir()
    (tmp_path / "trade" / "steels.toml").write_text("# nothing\n", encoding="utf-8")
    with pytest.raises(ResourceFault, match="steel"):
        load_steels(tmp_path)


def test_span_follows_the_file(tmp_path):
    root, _ = changed(tmp_path, "[140, 210]", "[120, 300]")
    assert yield_span(root) == (120, 300)
