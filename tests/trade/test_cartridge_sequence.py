"""What the cartridge sequence asks, by the same loader."""

from __future__ import annotations

import pytest

from benchlog.trade.component import Component
from benchlog.trade.resource_file import resources_folder
from benchlog.trade.sequence_file import load_sequence


def words(text: str) -> list[str]:
    return text.split()


# Every line of the trade's list for cartridge elements.
ASKED = words(
    """
    element_outside element_height bore_top bore_bottom bore_top_kind bore_bottom_kind
    bore_seal bore_interference cap_kind cap_thickness cap_flatness cage snap_parts
    bypass_place check_valve_place o_ring_count o_ring_section o_ring_inside
    o_ring_material drain_plug whole_mass crush_force remark_o_rings
    whole_bubble_point whole_bubble_depth bubble_point bubble_depth media_air_flow
    media_air_pressure fibre_width
    """
)


@pytest.fixture(scope="module")
def cartridge():
    return load_sequence("cartridge")


@pytest.mark.parametrize("key", ASKED)
def test_cartridge_list_is_asked(cartridge, key):
    assert cartridge.attribute(key).key == key


def test_media_is_asked_as_in_spin_ons(cartridge):
    spin_on = load_sequence("spin_on")
    for station in ("media", "microscope", "unfold"):
        assert cartridge.at(station) == spin_on.at(station)


def test_spin_on_parts_are_not_asked(cartridge):
    components = {a.component for a in cartridge.attributes}
    assert components.isdisjoint(
        {Component.CAN, Component.GASKET, Component.BASE_PLATE, Component.THREAD, Component.SPRING}
    )
    assert "element_seal" not in {a.key for a in cartridge.attributes}


def test_unfolding_is_the_only_way_of_no_return(cartridge):
    assert [s.key for s in cartridge.stations if s.one_way] == ["unfold"]
    assert cartridge.station("unfold").lost_after


def test_element_is_tried_in_alcohol_before_it_is_unfolded(cartridge):
    order = [station.key for station in cartridge.stations]
    for key in ("whole_bubble_point", "whole_bubble_depth"):
        asked = cartridge.attribute(key)
        assert order.index(asked.station) < order.index("unfold")
        assert asked.unit == load_sequence("spin_on").attribute(key).unit
    assert "alcohol vapour burns" in cartridge.attribute("whole_bubble_point").warning


def test_help_is_one_sentence_there_too(cartridge):
    for attribute in cartridge.attributes:
        assert attribute.help.endswith("."), attribute.key
        assert ". " not in attribute.help, attribute.key


def test_every_attribute_file_is_listed():
    folder = resources_folder() / "sequence"
    listed = "".join(path.read_text(encoding="utf-8") for path in folder.glob("*.toml"))
    for path in (folder / "attributes").glob("*.toml"):
        assert f'"attributes/{path.name}"' in listed, path.name
