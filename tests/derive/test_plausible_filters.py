"""Filters built as filters are built contradict nothing, whatever their size."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from benchlog.trade.thread import load_threads
from tests.derive.whole_filter import found_in

STEEL = 7.85e-3  # g/mm³
share = st.floats(0.0, 1.0)


class Drawn:
    """Draws sizes between ends, and says them as a calliper or scale would."""

    def __init__(self, draw):
        self._draw = draw

    def between(self, low, high):
        return low + (high - low) * self._draw(share)

    def whole(self, low, high):
        return self._draw(st.integers(low, high))

    def one_of(self, choices):
        return self._draw(st.sampled_from(choices))


def mm(value):
    return f"{value:.3f} mm"


@st.composite
def spin_ons(draw):
    """A can, and in it whatever such a can has room for."""
    d = Drawn(draw)
    across, high, wall = d.between(55, 120), d.between(50, 180), d.between(0.25, 0.7)
    typed = {
        "can_diameter": mm(across),
        "can_height": mm(high),
        "can_wall": mm(wall),
        "can_inside": mm(across - 2 * wall),
        "recess_depth": mm(d.between(3, 15)),
    }
    element_across = across - 2 * wall - d.between(2, 8)
    element_high = high - d.between(10, 20)
    media, media_grams = pleated(d, element_across, element_high)
    shell = math.pi * across * high * wall * STEEL
    base = math.pi / 4 * across**2 * d.between(2.5, 5) * STEEL
    typed["whole_mass"] = f"{media_grams + shell + base + d.between(20, 80):.1f} g"
    return typed | base_plate(d, across) | spring(d, across, high) | media | valve(d)


def base_plate(d, across):
    gasket = across * d.between(0.8, 0.98)
    inside = gasket - 2 * d.between(3, 6)
    thread = d.one_of([t for t in load_threads() if t.major_mm < inside - 8])
    count = d.whole(3, 7)
    return {
        "gasket_outside": mm(gasket),
        "gasket_inside": mm(inside),
        "thread_code": thread.code,
        "thread_pitch": mm(thread.pitch_mm),
        "full_threads": str(count),
        "thread_length": mm(count * thread.pitch_mm + d.between(0, 2)),
        "outlet_bore": mm(d.between(thread.minor_low_mm, thread.minor_high_mm)),
        "inlet_hole_count": str(d.whole(4, 10)),
        "inlet_hole_diameter": mm(d.between(3, 6)),
    }


def spring(d, across, high):
    free = d.between(12, min(45, high / 2))
    pressed, further = free * d.between(0.7, 0.9), free * d.between(0.4, 0.65)
    rate, wire = d.between(0.5, 6), d.between(0.6, 1.6)
    return {
        "spring_free_length": mm(free),
        "spring_height": mm(pressed),
        "spring_second_length": mm(further),
        "spring_load": f"{rate * (free - pressed):.3f} N",
        "spring_second_load": f"{rate * (free - further):.3f} N",
        "spring_wire": mm(wire),
        "spring_coil": mm(d.between(10, across * 0.6)),
        "spring_active_coils": f"{d.between(2, 0.8 * free / wire):.2f}",
    }


def valve(d):
    opening, seat = d.between(55, 200), d.between(6, 20)
    newtons = opening * 1e-3 * math.pi / 4 * seat**2 * d.between(0.6, 1.4)
    return {
        "bypass_marked": f"{opening:.2f} kPa",
        "bypass_air": f"{opening * d.between(0.8, 1.2):.2f} kPa",
        "bypass_seat": mm(seat),
        "bypass_force": f"{newtons:.3f} N",
    }


def pleated(d, across, high):
    """An element: tube, pleats and strip; returns what was typed and the grams of media."""
    tube, tube_wall = across * d.between(0.35, 0.6), d.between(0.25, 0.8)
    grammage, density = d.between(90, 260), d.between(0.15, 0.4)
    thick = grammage / density / 1000
    pleats = max(8, int(d.between(0.3, 1.0) * math.pi * tube / (2 * thick)))
    depth = (across - tube) / 2 * d.between(0.6, 1.0)
    length, width = 2 * pleats * depth, high - d.between(1, 3)
    hidden = d.between(2, 8)
    grams = grammage * length * width * 1e-6
    holes, hole = d.whole(20, 60), d.between(2, 4)
    dry = d.between(5, 200)
    typed = {
        "element_outside": mm(across),
        "element_height": mm(high),
        "tube_outside": mm(tube),
        "tube_inside": mm(tube - 2 * tube_wall),
        "tube_wall": mm(tube_wall),
        "tube_hole_count": str(holes),
        "tube_hole_diameter": mm(hole),
        "tube_open_area": f"{min(holes * math.pi / 4 * hole**2, 0.4 * tube * high):.1f} mm2",
        "pleat_count": str(pleats),
        "pleat_depth_gauge": mm(depth),
        "pinched_pleats": str(d.whole(0, 2)),
        "media_length": mm(length),
        "media_width": mm(width),
        "media_hidden": mm(hidden),
        "media_exposed_width": mm(width - hidden),
        "media_state": d.one_of(["as_received", "drained", "dried", "conditioned"]),
        "media_mass": f"{grams:.2f} g",
        "media_thickness": mm(thick),
        "media_thickness_tips": mm(thick * d.between(0.8, 1.2)),
        "burst_dry": f"{dry:.2f} N",
        "burst_wet": f"{dry * d.between(0.2, 1.0):.2f} N",
    }
    return typed, grams


@st.composite
def cartridges(draw):
    """An element of its own, with the bores and rings of one."""
    d = Drawn(draw)
    across, high = d.between(40, 90), d.between(50, 180)
    typed, grams = pleated(d, across, high)
    section = d.between(1.5, 5)
    return typed | {
        "whole_mass": f"{grams + d.between(5, 60):.1f} g",
        "bore_top": mm(across * d.between(0.2, 0.6)),
        "bore_bottom": mm(across * d.between(0.2, 0.6)),
        "cap_thickness": mm(d.between(0.8, 5)),
        "o_ring_section": mm(section),
        "o_ring_inside": mm(section * d.between(2, 20)),
    }


@given(spin_ons())
def test_built_spin_ons_contradict_nothing(typed):
    assert [c.what for c in found_in(typed)] == []


@given(cartridges())
def test_built_cartridges_contradict_nothing(typed):
    assert [c.what for c in found_in(typed)] == []


@given(spin_ons())
def test_parts_of_a_built_filter_contradict_nothing(typed):
    # At the bench readings come one by one: no half-read filter may be doubted either.
    half = {key: text for place, (key, text) in enumerate(typed.items()) if place % 2}
    assert found_in(half) == ()
