"""Rubbers and media kinds, and the words they may be called by."""

from __future__ import annotations

import shutil

import pytest

from benchlog.errors import ResourceFault
from benchlog.trade.material import fibre_density_of, load_materials
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


@pytest.mark.parametrize(
    ("kind", "density"),
    [
        # Morton and Hearle, Physical Properties of Textile Fibres, table 5.1 (published A), kg/m³:
        # cotton dry and at 65 % humidity, viscose likewise, polyester, glass.
        ("cellulose", 1550),
        ("cellulose", 1520),
        ("cellulose", 1490),
        ("synthetic", 1390),
        ("glass", 2500),
        ("glass", 2590),
        ("blend", 1390),
        ("blend", 1520),
    ],
)
def test_fibre_density_holds_the_published(kind, density):
    stated = fibre_density_of(kind)
    assert stated.low_kg_m3 <= density <= stated.high_kg_m3


def test_wire_has_no_fibre_density():
    assert fibre_density_of("wire_backed") is None
    assert fibre_density_of("could_not_tell") is None


def test_every_fibre_density_names_fibre_and_source():
    for stated in load_materials().fibre_densities:
        assert stated.fibre
        assert stated.source.startswith(("published A: ", "common practice, no source"))


@pytest.mark.parametrize(
    ("old", "new", "field"),
    [
        ("low_kg_m3 = 2500", "low_kg_m3 = 2700", "low_kg_m3"),
        ("[fibre_density.glass]", "[fibre_density.stone]", ""),
        ('fibre = "glass', 'fibres = "glass', "fibres"),
    ],
)
def test_wrong_fibre_density_is_placed(tmp_path, old, new, field):
    shutil.copytree(resources_folder() / "trade", tmp_path / "trade")
    path = tmp_path / "trade" / "materials.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    with pytest.raises(ResourceFault) as caught:
        load_materials(tmp_path)
    assert caught.value.field == field
    assert caught.value.line is not None
