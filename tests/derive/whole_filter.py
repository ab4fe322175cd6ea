"""Two invented filters whose readings agree with one another, as typed at the bench."""

from __future__ import annotations

from collections.abc import Mapping

from benchlog.derive.plausible import Contradiction, contradictions
from tests.derive.as_said import said
from tests.derive.found import ALPHA

SPIN_ON = {
    "whole_mass": "312.4 g",
    "can_diameter": "76.1 mm",
    "can_height": "87.4 mm",
    "can_inside": "75.3 mm",
    "can_wall": "0.38 mm",
    "gasket_outside": "71.4 mm",
    "gasket_inside": "61.9 mm",
    "thread_code": "3/4-16 UNF",
    "thread_pitch": "1.59 mm",
    "full_threads": "5",
    "thread_length": "9.0 mm",
    "outlet_bore": "17.42 mm",
    "recess_depth": "6.2 mm",
    "inlet_hole_count": "8",
    "inlet_hole_diameter": "6.02 mm",
    "spring_height": "22.0 mm",
    "spring_free_length": "31.2 mm",
    "spring_second_length": "18.0 mm",
    "spring_load": "40 N",
    "spring_second_load": "57 N",
    "spring_wire": "1.20 mm",
    "spring_coil": "24.0 mm",
    "spring_active_coils": "4",
    "bypass_force": "9.5 N",
    "bypass_seat": "12.0 mm",
    "bypass_marked": "12 psi",
    "bypass_air": "85 kPa",
    "element_outside": "66.1 mm",
    "element_height": "59.8 mm",
    "tube_outside": "32.1 mm",
    "tube_inside": "31.3 mm",
    "tube_wall": "0.40 mm",
    "tube_open_area": "1180 mm2",
    "tube_hole_count": "60",
    "tube_hole_diameter": "5.0 mm",
    "pleat_count": "54",
    "pleat_depth_gauge": "12.6 mm",
    "pinched_pleats": "1",
    "media_length": "1368 mm",
    "media_width": "58.5 mm",
    "media_hidden": "4.0 mm",
    "media_exposed_width": "54.5 mm",
    "media_state": "conditioned",
    "media_mass": "11.8 g",
    "media_thickness": "0.71 mm",
    "media_thickness_tips": "0.68 mm",
    "burst_dry": "40 N",
    "burst_wet": "22 N",
}

CARTRIDGE = {
    "whole_mass": "62.0 g",
    "element_outside": "64.0 mm",
    "element_height": "92.0 mm",
    "bore_top": "24.0 mm",
    "bore_bottom": "22.0 mm",
    "cap_thickness": "2.0 mm",
    "o_ring_section": "3.0 mm",
    "o_ring_inside": "70.0 mm",
    "media_mass": "18.5 g",
}


def found_in(typed: Mapping[str, str]) -> tuple[Contradiction, ...]:
    """What the readings typed contradict each other in."""
    return contradictions({key: said(key, text) for key, text in typed.items()}, ALPHA)
