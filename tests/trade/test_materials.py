"""Rubbers and media kinds, and the words they may be called by."""

from __future__ import annotations

import shutil

import pytest

from benchlog.errors import ResourceFault
from benchlog.trade.material import load_materials
from benchlog.trade.resource_file import resources_folder


@pytest.mark.parametrize(
    ("key", "service_c"),
    [
        # Upper service temperatures seen in rubber makers' tables (published B); where two
        # disagree, the range holds both.
        ("nbr", 125),
        ("nbr", 100),
        ("hnbr", 160),
        ("acm", 170),
        ("vmq", 230),
        ("fkm", 250),
    ],
)
def test_service_limits_hold_the_published_ones(key, service_c):
    rubber = next(e for e in load_materials().elastomers if e.key == key)
    low, high = rubber.service_c
    assert low <= service_c <= high


def test_heat_order_of_rubbers_is_the_known_one():
    # Nitrile below hydrogenated nitrile below silicone (engineering argument).
    best = {e.key: max(e.service_c) for e in load_materials().elastomers}
    assert best["nbr"] < best["hnbr"] < best["vmq"]


def test_every_rubber_names_its_source():
    assert all(e.source.startswith("published ") for e in load_materials().elastomers)


def test_rubber_names_want_a_proof():
    """A family is only named on a test or a data sheet; look alone has answers of its own."""
    for rubber in load_materials().elastomers:
        assert "tested or by data sheet" in rubber.label
    assert {c.key for c in load_materials().untested} == {
        "dark_rubber",
        "coloured_rubber",
        "other",
    }


def test_media_kinds_are_those_of_the_trade():
    assert [c.key for c in load_materials().media_kinds] == [
        "cellulose",
        "blend",
        "synthetic",
        "glass",
        "wire_backed",
        "layered",
    ]


def test_turned_range_is_placed(tmp_path):
    shutil.copytree(resources_folder() / "trade", tmp_path / "trade")
    path = tmp_path / "trade" / "materials.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("[100, 125]", "[125, 100]"), encoding="utf-8")
    with pytest.raises(ResourceFault) as caught:
        load_materials(tmp_path)
    fault = caught.value
    assert (fault.entry, fault.field) == ("nbr", "service_c")
    assert fault.line == text[: text.index("service_c = [100")].count("\n") + 1
