"""Which readings of media and pleats cannot all be right."""

from __future__ import annotations

import math
from typing import Any

from benchlog.derive.plausible_rule import Rule, Seen, best, share

WET = (("media_state", "drained"), ("media_state", "washed"))
"""States in which the strip holds oil or solvent, so that its weight is not the media's."""

STRIP = "Read the strip again: length, width and thickness, each with its unit."


def _strip_volume(seen: Seen) -> Any:
    return seen["media_length"] * seen["media_width"] * seen["media_thickness"]


def _grammage(seen: Seen) -> Any:
    return seen["media_mass"] / (seen["media_length"] * seen["media_width"])


def _density(seen: Seen) -> Any:
    return seen["media_mass"] / _strip_volume(seen)


def _in_can(seen: Seen) -> Any:
    can = math.pi / 4 * seen["can_diameter"] ** 2 * seen["can_height"]
    return _strip_volume(seen) / can


def _in_element(seen: Seen) -> Any:
    ring = math.pi / 4 * (seen["element_outside"] ** 2 - seen["tube_outside"] ** 2)
    return _strip_volume(seen) / (ring * seen["element_height"]) if best(ring) > 0 else None


def _depth(seen: Seen) -> Any:
    """Depth of a pleat by strip and count: one pleat is two legs."""
    return seen["media_length"] / (2 * seen["pleat_count"])


def _room(seen: Seen) -> Any:
    """Radial space between tube and outside of the element; None where there is none."""
    room = (seen["element_outside"] - seen["tube_outside"]) / 2
    return room if best(room) > 0 else None


def _over_room(depth: Any, room: Any) -> Any:
    return None if room is None else depth / room


MEDIA_RULES = (
    share(
        "hidden_share",
        "media_hidden",
        "media_width",
        "The end caps would hide {media_hidden} of a strip {media_width} wide: more than half.",
        "Read both widths again; the hidden one is that of both caps together.",
    ),
    share(
        "exposed_share",
        "media_exposed_width",
        "media_width",
        "The exposed width of {media_exposed_width} is more than the full {media_width}.",
        "Read both widths again.",
    ),
    Rule(
        "widths_together",
        ("media_exposed_width", "media_hidden", "media_width"),
        lambda s: (s["media_exposed_width"] + s["media_hidden"]) / s["media_width"],
        "{media_exposed_width} exposed and {media_hidden} hidden are more than the full width of "
        "{media_width}.",
        "Read the widths again; the hidden one is that of both caps together, not of one.",
        "{media_exposed_width} exposed and {media_hidden} hidden do not make up the full width "
        "of {media_width}.",
    ),
    share(
        "media_of_mass",
        "media_mass",
        "whole_mass",
        "The dry strip of {media_mass} would be heavier than the whole filter of {whole_mass}.",
        "Look at the units of both weights, and at what was on the pan.",
        unless=WET,
    ),
    Rule(
        "grammage",
        ("media_mass", "media_length", "media_width"),
        _grammage,
        "{media_mass} on a strip of {media_length} by {media_width} is too heavy for media.",
        "Look at the units of weight, length and width.",
        "{media_mass} on a strip of {media_length} by {media_width} is too light for media.",
        unless=WET,
    ),
    Rule(
        "strip_density",
        ("media_mass", "media_length", "media_width", "media_thickness"),
        _density,
        "{media_mass} on a strip of {media_length} by {media_width}, {media_thickness} thick, is "
        "denser than pressed paper.",
        "Look at the units of weight and thickness.",
        "{media_mass} on a strip of {media_length} by {media_width}, {media_thickness} thick, is "
        "lighter than loose wadding.",
        unless=WET,
    ),
    Rule(
        "strip_in_can",
        ("media_length", "media_width", "media_thickness", "can_diameter", "can_height"),
        _in_can,
        "A strip of {media_length} by {media_width}, {media_thickness} thick, has no room in a "
        "can {can_diameter} across and {can_height} high.",
        STRIP,
    ),
    Rule(
        "strip_in_element",
        (
            "media_length",
            "media_width",
            "media_thickness",
            "element_outside",
            "tube_outside",
            "element_height",
        ),
        _in_element,
        "A strip of {media_length} by {media_width}, {media_thickness} thick, has no room between "
        "a tube {tube_outside} across and the outside of the element, {element_outside} across "
        "and {element_height} high.",
        STRIP,
    ),
    Rule(
        "pleats_in_element",
        ("media_length", "pleat_count", "element_outside", "tube_outside"),
        lambda s: _over_room(_depth(s), _room(s)),
        "{pleat_count} pleats of a strip {media_length} long are deeper than the space between a "
        "tube {tube_outside} across and the outside of the element, {element_outside} across.",
        "Count the pleats again, and read the strip's length again.",
    ),
    Rule(
        "pleats_in_can",
        ("media_length", "pleat_count", "can_diameter"),
        lambda s: _depth(s) / (s["can_diameter"] / 2),
        "{pleat_count} pleats of a strip {media_length} long are deeper than half of a can "
        "{can_diameter} across.",
        "Count the pleats again, and read the strip's length again.",
    ),
    Rule(
        "pleat_depth_read",
        ("pleat_depth_gauge", "media_length", "pleat_count"),
        lambda s: s["pleat_depth_gauge"] / _depth(s),
        "A pleat depth of {pleat_depth_gauge} is more than {pleat_count} pleats of a strip "
        "{media_length} long can have.",
        "Count again: one pleat is two legs, and legs counted as pleats double the count.",
        "A pleat depth of {pleat_depth_gauge} is less than {pleat_count} pleats of a strip "
        "{media_length} long have.",
    ),
    Rule(
        "pleat_gauge_room",
        ("pleat_depth_gauge", "element_outside", "tube_outside"),
        lambda s: _over_room(s["pleat_depth_gauge"], _room(s)),
        "A pleat depth of {pleat_depth_gauge} is more than the space between a tube "
        "{tube_outside} across and the outside of the element, {element_outside} across.",
        "Read the depth and both diameters again.",
    ),
    Rule(
        "crowding",
        ("media_thickness", "pleat_count", "tube_outside"),
        lambda s: 2 * s["media_thickness"] * s["pleat_count"] / (math.pi * s["tube_outside"]),
        "{pleat_count} pleats of media {media_thickness} thick have no room around a tube "
        "{tube_outside} across.",
        "Count again (one pleat is two legs), and look at the unit of the thickness.",
    ),
    share(
        "width_in_element",
        "media_width",
        "element_height",
        "A strip {media_width} wide is wider than the element of {element_height} is high.",
        "Read the strip's width and the element's height again.",
    ),
    share(
        "width_in_can",
        "media_width",
        "can_height",
        "A strip {media_width} wide is wider than the can of {can_height} is high.",
        "Read the strip's width and the can's height again.",
    ),
    share(
        "tips_thickness",
        "media_thickness_tips",
        "media_thickness",
        "The media is {media_thickness_tips} thick at the tips and {media_thickness} on the flat.",
        "Look at the units, and at the gauge's foot pressure.",
        "The media is {media_thickness_tips} thick at the tips and {media_thickness} on the flat.",
    ),
    share(
        "burst_wet_dry",
        "burst_wet",
        "burst_dry",
        "The media would burst at {burst_wet} wet and at {burst_dry} dry: wet media is weaker.",
        "See whether the two were taken for one another.",
    ),
    share(
        "pinched_of_pleats",
        "pinched_pleats",
        "pleat_count",
        "{pinched_pleats} pinched pleats are more than the {pleat_count} that there are.",
        "Count again.",
    ),
)
