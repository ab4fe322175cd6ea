"""Which readings of can, base plate, thread and gasket cannot all be right."""

from __future__ import annotations

import math
from typing import Any

from benchlog.derive.plausible_rule import BOTH, Rule, Seen, share, walls_of
from benchlog.trade.thread import Thread, load_threads


def _thread(seen: Seen) -> Thread | None:
    code = seen.words["thread_code"]
    return next((thread for thread in load_threads() if thread.code == code), None)


def _bore_of_major(seen: Seen) -> Any:
    thread = _thread(seen)
    return None if thread is None else seen["outlet_bore"] / (thread.major_mm / 1000)


def _pitch_of_named(seen: Seen) -> Any:
    thread = _thread(seen)
    return None if thread is None else seen["thread_pitch"] / (thread.pitch_mm / 1000)


def _bulk_density(seen: Seen) -> Any:
    return seen["whole_mass"] / (math.pi / 4 * seen["can_diameter"] ** 2 * seen["can_height"])


CAN_RULES = (
    share(
        "element_in_can",
        "element_outside",
        "can_diameter",
        "The element is {element_outside} across and the can that held it {can_diameter}.",
        BOTH,
    ),
    share(
        "element_height_in_can",
        "element_height",
        "can_height",
        "The element is {element_height} high and the can that held it {can_height}.",
        BOTH,
    ),
    share(
        "can_inside_outside",
        "can_inside",
        "can_diameter",
        "The can is {can_inside} across inside and {can_diameter} outside.",
        "See whether the two were taken for one another.",
    ),
    share(
        "can_wall_share",
        "can_wall",
        "can_diameter",
        "A wall of {can_wall} is too thick for a can {can_diameter} across.",
        "Look at the unit of the wall.",
    ),
    Rule(
        "can_wall_twice",
        ("can_wall", "can_diameter", "can_inside"),
        walls_of("can_wall", "can_diameter", "can_inside"),
        "A wall of {can_wall} is far more than the can's {can_diameter} outside and {can_inside} "
        "inside leave.",
        "Read all three again; paint and a dented can spoil them.",
        "A wall of {can_wall} is far less than the can's {can_diameter} outside and {can_inside} "
        "inside leave.",
    ),
    Rule(
        "bulk_density",
        ("whole_mass", "can_diameter", "can_height"),
        _bulk_density,
        "{whole_mass} is too heavy for a can {can_diameter} across and {can_height} high.",
        "Look at the unit of the weight, and see that the scale was zeroed.",
        "{whole_mass} is too light for a can {can_diameter} across and {can_height} high.",
    ),
)

BASE_RULES = (
    Rule(
        "bore_of_thread",
        ("outlet_bore",),
        _bore_of_major,
        "A bore of {outlet_bore} is wider than the whole thread {thread_code}.",
        "Read the bore again, or look at the thread again.",
        "A bore of {outlet_bore} is narrower than the thread {thread_code} can have.",
        words=("thread_code",),
    ),
    Rule(
        "pitch_of_thread",
        ("thread_pitch",),
        _pitch_of_named,
        "A pitch of {thread_pitch} is coarser than that of the thread {thread_code}.",
        "Lay the pitch gauge in again, or look at the thread again.",
        "A pitch of {thread_pitch} is finer than that of the thread {thread_code}.",
        words=("thread_code",),
    ),
    Rule(
        "threads_in_length",
        ("full_threads", "thread_pitch", "thread_length"),
        lambda s: s["full_threads"] * s["thread_pitch"] / s["thread_length"],
        "{full_threads} full threads of pitch {thread_pitch} are longer than the thread's "
        "{thread_length}.",
        "Count the full threads again, and read the length again.",
    ),
    share(
        "thread_in_can",
        "thread_length",
        "can_height",
        "A thread {thread_length} long is more than half of a can {can_height} high.",
        "Look at the unit of the thread's length.",
    ),
    share(
        "recess_in_can",
        "recess_depth",
        "can_height",
        "A recess {recess_depth} deep is more than half of a can {can_height} high.",
        "Look at the unit of the depth.",
    ),
    share(
        "gasket_ring",
        "gasket_inside",
        "gasket_outside",
        "The gasket is {gasket_inside} across inside and {gasket_outside} outside.",
        "See whether the two were taken for one another.",
    ),
    share(
        "gasket_on_can",
        "gasket_outside",
        "can_diameter",
        "The gasket is {gasket_outside} across and the can that carries it {can_diameter}.",
        BOTH,
    ),
    share(
        "outlet_in_gasket",
        "outlet_bore",
        "gasket_inside",
        "The outlet's bore of {outlet_bore} is wider than the gasket's inside, {gasket_inside}.",
        BOTH,
    ),
    Rule(
        "holes_in_ring",
        ("inlet_hole_count", "inlet_hole_diameter", "gasket_inside"),
        lambda s: s["inlet_hole_count"] * s["inlet_hole_diameter"] / (math.pi * s["gasket_inside"]),
        "{inlet_hole_count} inlet holes of {inlet_hole_diameter} have no room in a ring inside "
        "the gasket, {gasket_inside} across.",
        "Count the holes again, and read their diameter again.",
    ),
)
