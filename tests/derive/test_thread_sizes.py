"""Diameters of a named thread, and what bore, pitch and turns come to."""

from __future__ import annotations

import pytest

from benchlog.trade.thread import load_threads, thread_of
from tests.derive.found import figures, number, u, value, word

MM = 25.4

BASIC = ("thread_basic_major", "thread_basic_pitch_diameter", "thread_basic_minor")


# Rows seen in published tables: 15/16-16 and 15/16-12 UN (ASME B1.1: major, pitch and minor of
# the internal thread at its least, inches) and 3/4-16 UNF (a tap maker's table, mm).
@pytest.mark.parametrize(
    ("code", "unit", "major", "pitch_diameter", "minor"),
    [
        ("15/16-16 UN", "inch", 0.9375, 0.8969, 0.8700),
        ("15/16-12 UN", "inch", 0.9375, 0.8834, 0.8470),
        ("3/4-16 UNF", "millimeter", 19.050, 18.019, 17.330),
    ],
)
def test_published_rows_come_out(code, unit, major, pitch_diameter, minor):
    found = figures(word("thread_code", code))
    sizes = [value(found[key], unit) for key in BASIC]
    tolerance = 0.0006 if unit == "inch" else 0.0015  # published to 0.001 in, to 0.001 mm
    assert sizes == pytest.approx([major, pitch_diameter, minor], abs=tolerance)


@pytest.mark.parametrize("thread", load_threads(), ids=lambda thread: thread.code)
def test_basic_sizes_are_exact_and_in_order(thread):
    found = figures(word("thread_code", thread.code))
    major, middle, minor = (found[key] for key in BASIC)
    assert value(major, "mm") > value(middle, "mm") > value(minor, "mm")
    # ISO 68-1: D2 lies 3/5 of the way from D down to D1 (3/8 H against 5/8 H).
    depth = (value(major, "mm") - value(middle, "mm")) / (value(major, "mm") - value(minor, "mm"))
    assert depth == pytest.approx(3 / 5)
    assert u(major, "mm") == u(middle, "mm") == u(minor, "mm") == 0.0
    assert thread.label in major.assumed[0]


def test_unknown_name_has_no_sizes():
    found = figures(word("thread_code", "other"))
    for key in BASIC:
        assert found[key].refusal == "The thread that was chosen is not in the table of threads."
    assert figures()["thread_basic_minor"].refusal == "No thread: not measured."


# D = D1 + 1.0825318 P (ISO 724): the basic bore and pitch of a thread give its major diameter.
@pytest.mark.parametrize("thread", load_threads(), ids=lambda thread: thread.code)
def test_bore_and_pitch_imply_the_major(thread):
    found = figures(
        number("outlet_bore", thread.minor_mm, "mm"), number("thread_pitch", thread.pitch_mm, "mm")
    )["thread_major_implied"]
    assert value(found, "mm") == pytest.approx(thread.major_mm)


# A web chart's bolt root taken for the bore (D - 1.22687 P, 3/4-16: 0.6733 in against 0.6823)
# would imply a diameter 0.009 in too small: calculated.
def test_bolt_root_is_not_the_bore():
    found = figures(number("outlet_bore", 0.6733, "inch"), number("thread_pitch", 1 / 16, "inch"))[
        "thread_major_implied"
    ]
    assert value(found, "inch") == pytest.approx(0.75 - 0.0090, abs=2e-4)


def test_implied_major_weighs_the_pitch():
    found = figures(
        number("outlet_bore", 18.4, "mm", 0.03), number("thread_pitch", 1.5, "mm", 0.02)
    )["thread_major_implied"]
    # JCGM 100 5.1.2: slopes 1 and 1.0825.
    assert u(found, "mm") == pytest.approx((0.03**2 + (1.0825318 * 0.02) ** 2) ** 0.5)


# Geometry: 6 threads of 1/16 in on 3/4 in are half the diameter; 5 of 1.5 mm on 20 mm 0.375.
@pytest.mark.parametrize(
    ("code", "turns", "share"), [("3/4-16 UNF", 6, 0.5), ("M20x1.5", 5, 0.375)]
)
def test_engagement_in_diameters(code, turns, share):
    found = figures(number("full_threads", turns, "count"), word("thread_code", code))
    assert value(found["thread_engagement_share"], "dimensionless") == pytest.approx(share)


def test_engagement_share_without_a_name():
    thread = thread_of("M20x1.5")
    found = figures(
        number("full_threads", 5, "count"),
        number("thread_pitch", 1.5, "mm"),
        number("outlet_bore", thread.minor_mm, "mm"),
    )["thread_engagement_share"]
    assert value(found, "dimensionless") == pytest.approx(0.375)
    lone = figures(number("full_threads", 5, "count"), number("thread_pitch", 1.5, "mm"))
    assert lone["thread_engagement_share"].refusal == (
        "No bore of the outlet: not measured. No thread: not measured."
    )
