"""Which readings of springs, valves, tube and a cartridge's own parts cannot all be right."""

from __future__ import annotations

import math
from typing import Any

from benchlog.derive.plausible_rule import BOTH, Rule, Seen, share, walls_of


def _force_over_seat(seen: Seen) -> Any:
    seat = math.pi / 4 * seen["bypass_seat"] ** 2
    return seen["bypass_force"] / seat / seen["bypass_marked"]


def _tube_surface(seen: Seen) -> Any:
    return math.pi * seen["tube_outside"] * seen["element_height"]


INSIDE_RULES = (
    share(
        "spring_installed",
        "spring_height",
        "spring_free_length",
        "The spring would be {spring_height} high installed and {spring_free_length} long free: "
        "a pressed spring is the shorter one.",
        "Read both again; see whether the two were taken for one another.",
    ),
    share(
        "spring_second",
        "spring_second_length",
        "spring_free_length",
        "The pressed spring would be {spring_second_length} long and {spring_free_length} free.",
        "Read both again; see whether the two were taken for one another.",
    ),
    Rule(
        "spring_pushes_back",
        ("spring_load", "spring_height", "spring_second_load", "spring_second_length"),
        lambda s: (
            (s["spring_second_load"] - s["spring_load"])
            * (s["spring_height"] - s["spring_second_length"])
        ),
        "",
        "See whether the two loads were taken for one another.",
        "The spring pushes {spring_load} at {spring_height} and {spring_second_load} at "
        "{spring_second_length}: it pushes harder the shorter it is.",
    ),
    share(
        "spring_in_can",
        "spring_free_length",
        "can_height",
        "The spring is {spring_free_length} long and the can that held it {can_height} high.",
        BOTH,
    ),
    share(
        "spring_height_in_can",
        "spring_height",
        "can_height",
        "The spring is {spring_height} high installed and the can around it {can_height} high.",
        BOTH,
    ),
    share(
        "spring_wire_coil",
        "spring_wire",
        "spring_coil",
        "A wire of {spring_wire} cannot be wound to a coil {spring_coil} across outside.",
        "Look at the unit of the wire.",
    ),
    share(
        "spring_coil_in_can",
        "spring_coil",
        "can_diameter",
        "The coil is {spring_coil} across and the can that held it {can_diameter}.",
        BOTH,
    ),
    Rule(
        "spring_solid",
        ("spring_wire", "spring_active_coils", "spring_free_length"),
        lambda s: s["spring_wire"] * s["spring_active_coils"] / s["spring_free_length"],
        "{spring_active_coils} coils of wire {spring_wire} thick are longer, laid close, than the "
        "free spring of {spring_free_length}.",
        "Count the coils again, and look at the unit of the wire.",
    ),
    share(
        "seat_in_element",
        "bypass_seat",
        "element_outside",
        "The bypass seat is {bypass_seat} across and the element {element_outside}.",
        BOTH,
    ),
    Rule(
        "bypass_force_marked",
        ("bypass_force", "bypass_seat", "bypass_marked"),
        _force_over_seat,
        "{bypass_force} on a seat {bypass_seat} across is far more than the marked "
        "{bypass_marked}.",
        "Look at the units of force and setting, and at what was taken for the seat.",
        "{bypass_force} on a seat {bypass_seat} across is far less than the marked "
        "{bypass_marked}.",
    ),
    share(
        "bypass_air_marked",
        "bypass_air",
        "bypass_marked",
        "The bypass opened by air at {bypass_air} and is marked {bypass_marked}.",
        "Look at the units of both pressures.",
        "The bypass opened by air at {bypass_air} and is marked {bypass_marked}.",
    ),
    share(
        "tube_inside_outside",
        "tube_inside",
        "tube_outside",
        "The centre tube is {tube_inside} across inside and {tube_outside} outside.",
        "See whether the two were taken for one another.",
    ),
    share(
        "tube_in_element",
        "tube_outside",
        "element_outside",
        "The centre tube is {tube_outside} across and the element around it {element_outside}.",
        BOTH,
    ),
    share(
        "tube_wall_share",
        "tube_wall",
        "tube_outside",
        "A wall of {tube_wall} is more than half of a tube {tube_outside} across.",
        "Look at the unit of the wall.",
    ),
    Rule(
        "tube_wall_twice",
        ("tube_wall", "tube_outside", "tube_inside"),
        walls_of("tube_wall", "tube_outside", "tube_inside"),
        "A wall of {tube_wall} is far more than the tube's {tube_outside} outside and "
        "{tube_inside} inside leave.",
        "Read all three again; a burr or louvre spoils them.",
        "A wall of {tube_wall} is far less than the tube's {tube_outside} outside and "
        "{tube_inside} inside leave.",
    ),
    Rule(
        "tube_open_share",
        ("tube_open_area", "tube_outside", "element_height"),
        lambda s: s["tube_open_area"] / _tube_surface(s),
        "{tube_open_area} open is more than a tube {tube_outside} across in an element "
        "{element_height} high has in all.",
        "Look at the unit of the area, and count the openings again.",
    ),
    Rule(
        "tube_holes_share",
        ("tube_hole_count", "tube_hole_diameter", "tube_outside", "element_height"),
        lambda s: (
            s["tube_hole_count"] * math.pi / 4 * s["tube_hole_diameter"] ** 2 / _tube_surface(s)
        ),
        "{tube_hole_count} holes of {tube_hole_diameter} have no room in a tube {tube_outside} "
        "across in an element {element_height} high.",
        "Count the holes again, and look at the unit of their diameter.",
    ),
)

CARTRIDGE_RULES = (
    share(
        "bore_top_in_element",
        "bore_top",
        "element_outside",
        "The upper bore is {bore_top} across and the element {element_outside}.",
        BOTH,
    ),
    share(
        "bore_bottom_in_element",
        "bore_bottom",
        "element_outside",
        "The lower bore is {bore_bottom} across and the element {element_outside}.",
        BOTH,
    ),
    share(
        "cap_in_element",
        "cap_thickness",
        "element_height",
        "An end cap {cap_thickness} thick is too thick for an element {element_height} high.",
        "Look at the unit of the thickness.",
    ),
    share(
        "o_ring_section_inside",
        "o_ring_section",
        "o_ring_inside",
        "The ring's section is {o_ring_section} and its inside {o_ring_inside}.",
        "See whether the two were taken for one another.",
    ),
)
