"""What is asked beside the usual for the sums of can, bypass, spring and tube."""

from __future__ import annotations

import pytest

from benchlog.measure.entry import parse_entry
from benchlog.trade.attribute import Judged
from benchlog.trade.sequence_file import load_sequence

PSI_KPA = 6.894757

ADDED = {
    "can_inside": ("can", Judged.INPUT),
    "bypass_air": ("valves", Judged.BAND),
    "spring_second_length": ("valves", Judged.INPUT),
    "spring_second_load": ("valves", Judged.INPUT),
    "tube_hole_count": ("element", Judged.INPUT),
    "tube_hole_diameter": ("element", Judged.INPUT),
}


@pytest.mark.parametrize("key", ADDED)
def test_they_are_asked_only_on_request(key):
    attribute = load_sequence("spin_on").attribute(key)
    assert (attribute.station, attribute.judged) == ADDED[key]
    assert not attribute.usual


def test_cartridges_ask_for_the_tube_alone():
    asked = {a.key for a in load_sequence("cartridge").attributes}
    assert asked & set(ADDED) == {"tube_hole_count", "tube_hole_diameter"}


def test_opening_by_air_may_be_a_range():
    air = load_sequence("spin_on").attribute("bypass_air")
    said = parse_entry("8-11 psi", air.unit, air.dimension)
    assert (said.low, said.high) == (8, 11)
    # Usual settings of 8 to 30 psi pass unasked, 4 to 75 psi exist (published B).
    assert air.soft.holds(8 * PSI_KPA)
    assert air.soft.holds(30 * PSI_KPA)
    assert air.hard.holds(4 * PSI_KPA)
    assert air.hard.holds(75 * PSI_KPA)


def test_pressure_and_springs_come_with_their_cautions():
    sequence = load_sequence("spin_on")
    air = sequence.attribute("bypass_air")
    for word in ("stores energy", "shield", "eye protection", "30 psi"):
        assert word in air.warning
    for key in ("spring_second_length", "spring_second_load"):
        assert "inside a guide" in sequence.attribute(key).method


def test_inside_of_a_can_lies_below_its_outside():
    sequence = load_sequence("spin_on")
    inside, outside = sequence.attribute("can_inside"), sequence.attribute("can_diameter")
    assert inside.soft.low < outside.soft.low
    assert inside.soft.high < outside.soft.high
    assert inside.instrument == outside.instrument
