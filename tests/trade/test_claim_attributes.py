"""A maker's claim in figures, and on what a rubber's name rests: what is asked, and how."""

from __future__ import annotations

import shutil

import pytest

from benchlog.errors import ResourceFault
from benchlog.measure.entry import parse_entry
from benchlog.measure.units import to_si
from benchlog.trade.attribute import Judged, Kind
from benchlog.trade.material import load_materials
from benchlog.trade.resource_file import resources_folder
from benchlog.trade.sequence_file import load_sequence

CLAIMS = [
    "claim_size",
    "claim_size_scale",
    "claim_percent",
    "claim_ratio",
    "claim_standard",
    "claim_grams",
    "claim_end_pressure",
    "claim_distance",
    "claim_months",
]


@pytest.mark.parametrize("sequence", ["spin_on", "cartridge"])
@pytest.mark.parametrize("key", CLAIMS)
def test_claims_are_asked_of_every_filter(sequence, key):
    asked = load_sequence(sequence).attribute(key)
    assert asked.judged is Judged.IDENTITY
    assert asked.station == "paper"
    assert not asked.usual


@pytest.mark.parametrize(
    ("key", "text", "si"),
    [
        ("claim_size", "20", 20e-6),
        ("claim_size", "25 microns", 25e-6),
        ("claim_percent", "99", 0.99),
        ("claim_percent", "98.7 %", 0.987),
        ("claim_ratio", "75", 75.0),
        ("claim_grams", "18 g", 0.018),
        ("claim_end_pressure", "1 bar", 100_000.0),
        ("claim_distance", "15000", 15e6),
        # NIST SP 811 B.8: 1 mi = 1609.344 m
        ("claim_distance", "10000 miles", 16_093_440.0),
        # a year of 365.25 days, as the unit registry has it
        ("claim_months", "12", 365.25 * 86400),
        ("claim_months", "1 year", 365.25 * 86400),
    ],
)
def test_claims_are_typed_as_boxes_print_them(key, text, si):
    asked = load_sequence("spin_on").attribute(key)
    said = parse_entry(text, asked.unit, asked.dimension)
    assert to_si(said.value, said.unit)[0] == pytest.approx(si)


@pytest.mark.parametrize(
    ("sequence", "key"),
    [
        ("spin_on", "gasket_material"),
        ("spin_on", "adbv_material"),
        ("cartridge", "o_ring_material"),
    ],
)
def test_every_rubber_says_on_what_it_rests(sequence, key):
    by = load_sequence(sequence).attribute(f"{key}_by")
    assert by.kind is Kind.CHOICE
    assert [choice.key for choice in by.choices] == ["data_sheet", "ash", "look"]
    assert by.station == load_sequence(sequence).attribute(key).station


def test_only_silicone_shows_in_the_ash():
    assert [e.key for e in load_materials().elastomers if e.ash_shows] == ["vmq"]


def test_cold_end_above_the_hot_one_is_placed(tmp_path):
    shutil.copytree(resources_folder() / "trade", tmp_path / "trade")
    path = tmp_path / "trade" / "materials.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("cold_c = -60", "cold_c = 600"), encoding="utf-8")
    with pytest.raises(ResourceFault) as caught:
        load_materials(tmp_path)
    assert (caught.value.entry, caught.value.field) == ("vmq", "cold_c")
