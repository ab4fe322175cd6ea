"""Check values for thread and openings, each with its source."""

import math

import pytest

from benchlog.measure.state import State
from benchlog.trade.thread import thread_of
from tests.derive.found import figures, number, u, value, without, word


# Geometry, calculated: 6 × 1/16 in = 9.525 mm; 5 × 1.5 mm = 7.5 mm.
@pytest.mark.parametrize(
    ("count", "pitch", "unit", "wanted_mm"), [(6, 1 / 16, "inch", 9.525), (5, 1.5, "mm", 7.5)]
)
def test_engagement_from_a_read_pitch(count, pitch, unit, wanted_mm):
    found = figures(number("full_threads", count, "count"), number("thread_pitch", pitch, unit))
    assert value(found["thread_engagement"], "millimeter") == pytest.approx(wanted_mm)


# ASME B1.1: 16 threads per inch have a pitch of 1/16 in; ISO 262: M20x1.5 has 1.5 mm.
@pytest.mark.parametrize(
    ("code", "count", "wanted_mm"), [("3/4-16 UNF", 6, 9.525), ("M20x1.5", 5, 7.5)]
)
def test_engagement_from_the_named_thread(code, count, wanted_mm):
    found = figures(number("full_threads", count, "count"), word("thread_code", code))
    engagement = found["thread_engagement"]
    assert value(engagement, "millimeter") == pytest.approx(wanted_mm, abs=0.005)
    assert engagement.readings == ("full_threads-a", "thread_code-a")


def test_read_pitch_comes_before_the_name():
    found = figures(
        number("full_threads", 4, "count"),
        number("thread_pitch", 2.0, "mm"),
        word("thread_code", "M20x1.5"),
    )["thread_engagement"]
    assert value(found, "millimeter") == pytest.approx(8.0)
    assert found.readings == ("full_threads-a", "thread_pitch-a")


# Geometry of circles: eight holes of 5 mm are 8 × 19.635 = 157.08 mm²; a bore of 18.5 mm is
# 268.80 mm².
def test_openings_come_out():
    found = figures(
        number("inlet_hole_count", 8, "count"),
        number("inlet_hole_diameter", 5, "millimeter"),
        number("outlet_bore", 18.5, "millimeter"),
    )
    assert value(found["inlet_area"], "millimeter**2") == pytest.approx(157.08, abs=0.005)
    assert value(found["outlet_area"], "millimeter**2") == pytest.approx(268.80, abs=0.005)
    assert value(found["inlet_to_outlet"], "dimensionless") == pytest.approx(0.58437, abs=1e-5)


# JCGM 100, 5.1.2: an area goes with the square of the diameter, so its share doubles.
def test_area_doubles_the_share_of_the_diameter():
    found = figures(number("outlet_bore", 20.0, "millimeter", 0.1))["outlet_area"]
    relative = u(found, "millimeter**2") / value(found, "millimeter**2")
    assert relative == pytest.approx(2 * 0.1 / 20.0)


# JCGM 100, 4.3.7: anywhere between the thread's limits, so rectangular.
def test_outlet_from_the_named_thread_lies_within_its_limits():
    thread = thread_of("M20x1.5")
    found = figures(word("thread_code", "M20x1.5"))["outlet_area"]
    low, high = (math.pi / 4 * d**2 for d in (thread.minor_low_mm, thread.minor_high_mm))
    area = value(found, "millimeter**2")
    assert low < area < high
    assert u(found, "millimeter**2") == pytest.approx((high - low) / 2 / math.sqrt(3), rel=1e-3)


@pytest.mark.parametrize("state", [State.NOT_MEASURED, State.COULD_NOT_TELL, State.SPOILED])
def test_unknown_thread_says_both_ways(state):
    found = figures(number("full_threads", 5, "count"), without("thread_code", state))
    assert found["thread_engagement"].refusal == (
        f"No thread pitch: not measured. No thread: {state.value}."
    )
    assert found["outlet_area"].refusal == (
        f"No bore of the outlet: not measured. No thread: {state.value}."
    )


def test_count_by_hand_is_good_to_half_a_turn():
    # 0.5/sqrt(3) of a turn (JCGM 100 4.3.7) times a pitch of 1.5 mm; the half turn itself is
    # common practice, no source.
    found = figures(number("full_threads", 5, "count"), number("thread_pitch", 1.5, "millimeter"))
    assert u(found["thread_engagement"], "millimeter") == pytest.approx(
        1.5 * 0.5 / math.sqrt(3), rel=1e-3
    )
