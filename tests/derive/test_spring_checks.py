"""Check values for the hold-down spring, each with its source."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchlog.derive.spring import slope
from tests.derive.found import figures, number, u, value, word

LENGTHS = {
    "free": "spring_free_length",
    "installed": "spring_height",
    "second": "spring_second_length",
}
LOADS = {"load": "spring_load", "second_load": "spring_second_load"}


def spring(u_length=0.05, u_load=0.1, length_unit="mm", load_unit="N", **read):
    lengths = [
        number(LENGTHS[k], v, length_unit, u_length) for k, v in read.items() if k in LENGTHS
    ]
    loads = [number(LOADS[k], v, load_unit, u_load) for k, v in read.items() if k in LOADS]
    return figures(*lengths, *loads)


def test_two_pairs_give_the_plain_slope():
    # Hooke's law, calculated: 30 N over 30 - 20 mm.
    found = spring(free=30, installed=20, load=30)["spring_rate"]
    assert value(found, "N/mm") == pytest.approx(3.0)
    # JCGM 100 5.1.2: 1/10 mm of 0.1 N, and 3/10 of 0.05 mm twice.
    assert u(found, "N/mm") == pytest.approx(math.hypot(0.01, 0.3 * 0.05, 0.3 * 0.05) / 1)
    assert found.warnings == ()


def test_pairs_without_a_free_length_do():
    found = spring(installed=20, load=30, second=16, second_load=42)["spring_rate"]
    assert value(found, "N/mm") == pytest.approx(3.0)


def test_three_pairs_give_the_least_squares_slope():
    found = spring(free=30, installed=20, load=30, second=16, second_load=43)["spring_rate"]
    wanted = -np.polyfit([30, 20, 16], [0, 30, 43], 1)[0]
    assert value(found, "N/mm") == pytest.approx(wanted)


pairs = st.lists(st.tuples(st.floats(5, 60), st.floats(0, 200)), min_size=2, max_size=6)


@given(pairs)
def test_slope_is_that_of_polyfit(points):
    lengths, loads = zip(*points, strict=True)
    assume(max(lengths) - min(lengths) > 0.5)
    ours = slope(lengths, loads)
    assert ours == pytest.approx(-np.polyfit(lengths, loads, 1)[0], rel=1e-7, abs=1e-7)


@given(pairs, st.data())
def test_complex_step_is_the_slope_of_the_slope(points, data):
    lengths, loads = (list(side) for side in zip(*points, strict=True))
    assume(max(lengths) - min(lengths) > 0.5)
    which = data.draw(st.integers(0, len(points) - 1))
    for side in (lengths, loads):
        kept, step = side[which], 1e-5
        side[which] = complex(kept, 1e-30)
        exact = slope(lengths, loads).imag / 1e-30
        side[which] = kept + step
        above = slope(lengths, loads)
        side[which] = kept - step
        below = slope(lengths, loads)
        side[which] = kept
        assert exact == pytest.approx((above - below) / (2 * step), rel=1e-3, abs=1e-3)


def test_crooked_pairs_are_warned_of():
    straight = spring(free=30, installed=20, load=30, second=16, second_load=43)["spring_rate"]
    crooked = spring(free=30, installed=20, load=30, second=16, second_load=50)["spring_rate"]
    assert straight.warnings == ()
    assert "do not lie on one line" in crooked.warnings[0]


def test_load_as_read_comes_first():
    found = spring(free=30, installed=20, load=31, second=16, second_load=42)["hold_down_load"]
    assert value(found, "N") == 31
    assert u(found, "N") == pytest.approx(0.1)
    assert "spring_load-a" in found.readings


def test_load_by_rate_at_the_installed_height():
    # Hooke's law, calculated: 42 N over 14 mm is 3 N/mm; over 10 mm that is 30 N.
    found = spring(free=30, installed=20, second=16, second_load=42)["hold_down_load"]
    assert value(found, "N") == pytest.approx(30.0)
    # F (L0 - Li)/(L0 - L2): slopes 10/14, F (Li - L2)/(L0 - L2)², -F/14 and F 10/14²; the free
    # length stands in both lengths and counts once (JCGM 100 5.2).
    slopes = (10 / 14 * 0.1, 42 * (20 - 16) / 14**2 * 0.05, 42 / 14 * 0.05, 42 * 10 / 14**2 * 0.05)
    assert u(found, "N") == pytest.approx(math.hypot(*slopes))


# Published A: one specification for a large element, 15 to 35 lbf; 1 lbf = 4.4482216 N.
def test_load_in_pounds():
    found = spring(load=15, load_unit="lbf", installed=20)["hold_down_load"]
    assert value(found, "N") == pytest.approx(66.723, abs=0.001)


@pytest.mark.parametrize(
    ("read", "key", "said"),
    [
        ({"free": 20, "installed": 20, "load": 30}, "spring_rate", "is not below the free length"),
        ({"free": 20, "installed": 25, "load": 30}, "spring_rate", "is not below the free length"),
        ({"free": 20, "installed": 25, "load": 30}, "hold_down_load", "not below the free length"),
        (
            {"free": 30, "second": 31, "second_load": 30},
            "spring_rate",
            "The second length of the spring is not below",
        ),
        (
            {"free": 30, "installed": 30.5, "second": 20, "second_load": 30},
            "hold_down_load",
            "The installed height of the spring is not below",
        ),
        (
            {"free": 30, "installed": 20, "load": 30, "second": 20, "second_load": 31},
            "spring_rate",
            "Two loads were read at one length",
        ),
        (
            {"installed": 20, "load": 30, "second": 16, "second_load": 28},
            "spring_rate",
            "would push less the more it is pressed",
        ),
        ({"free": 30, "installed": 20, "load": -1}, "spring_rate", "is not above zero"),
        ({}, "spring_rate", "No free length of the spring: not measured."),
        ({"free": 30}, "spring_rate", "No installed height of the spring: not measured."),
        ({"free": 30, "installed": 20}, "spring_rate", "No hold-down load: not measured."),
        ({"free": 30}, "hold_down_load", "No hold-down load: not measured. No installed height"),
    ],
)
def test_absurd_springs_are_refused(read, key, said):
    found = spring(**read)[key]
    assert found.quantity is None
    assert said in found.refusal


def coil(wire, outside, coils, unit="mm", u_wire=0.0, *more):
    return figures(
        number("spring_wire", wire, unit, u_wire),
        number("spring_coil", outside, unit),
        number("spring_active_coils", coils, "turn"),
        *more,
    )["spring_rate_from_wire"]


def scaled(figure, unit, modulus_gpa):
    """The rate for one shear modulus: it goes straight with it, from the middle of 69 to 82 GPa."""
    return value(figure, unit) * modulus_gpa / 75.5


# k = G d⁴ / 8 D³ n (Shigley). Example 10-1, from memory and calculated: d 0.037 in, D 0.400 in,
# 10.5 coils, 11.85e6 psi = 81.7029 GPa: 4.1311 lbf/in. A textbook's problem, calculated: d 4,
# outside 30 (D 26), 9 coils, 79.3 GPa: 16.042 N/mm. Calculated: d 1.0, D 15, 5 coils, 79.3 GPa
# 0.58741 N/mm; d 1.2, D 18, 4 coils 0.88111 N/mm.
@pytest.mark.parametrize(
    ("wire", "mean", "coils", "unit", "modulus", "rate_unit", "rate"),
    [
        (0.037, 0.400, 10.5, "inch", 81.7029, "force_pound/inch", 4.1311),
        (4, 26, 9, "mm", 79.3, "N/mm", 16.042),
        (1.0, 15, 5, "mm", 79.3, "N/mm", 0.58741),
        (1.2, 18, 4, "mm", 79.3, "N/mm", 0.88111),
    ],
)
def test_rate_from_wire_and_coil(wire, mean, coils, unit, modulus, rate_unit, rate):
    found = coil(wire, mean + wire, coils, unit)
    assert scaled(found, rate_unit, modulus) == pytest.approx(rate, rel=5e-5)


# Shear modulus of stainless wire 69 to 70, of music wire 79 to 82 GPa (spring makers' tables).
def test_unknown_steel_bounds_the_rate():
    found = coil(1.0, 16.0, 5)
    assert found.low == pytest.approx(scaled(found, "N/mm", 69))
    assert found.high == pytest.approx(scaled(found, "N/mm", 82))
    assert found.kind.bounded
    assert "69 to 82 GPa" in found.assumed[0]


# u(k)/k holds 4 u(d)/d: d 1.00 ± 0.01 mm is 4 % by itself. Through the mean coil, outside less
# wire, the same wire adds 3 u(d)/D: 3 x 0.01/15, so 4.2 % (calculated).
def test_wire_counts_four_times():
    with_wire, without = coil(1.0, 16.0, 5, "mm", 0.01), coil(1.0, 16.0, 5)
    extra = (u(with_wire, "N/mm") ** 2 - u(without, "N/mm") ** 2) ** 0.5
    assert extra / value(with_wire, "N/mm") == pytest.approx(0.042, rel=1e-6)


@pytest.mark.parametrize(("load", "warned"), [(5.9, False), (8.0, True)])
def test_rate_from_wire_is_set_against_the_readings(load, warned):
    readings = (
        number("spring_free_length", 30, "mm", 0.05),
        number("spring_height", 20, "mm", 0.05),
        number("spring_load", load, "N", 0.05),
    )
    found = coil(1.0, 16.0, 5, "mm", 0.01, *readings)
    assert any("Load and length give another rate" in w for w in found.warnings) == warned
    assert set(found.readings) == {"spring_wire-a", "spring_coil-a", "spring_active_coils-a"}


@pytest.mark.parametrize(
    ("wire", "outside", "coils", "said"),
    [
        (8.0, 16.0, 5, "The wire would fill the coil"),
        (1.0, 16.0, 0, "number of active coils is not above zero"),
        (-1.0, 16.0, 5, "wire diameter of the spring is not above zero"),
    ],
)
def test_absurd_coils_are_refused(wire, outside, coils, said):
    found = coil(wire, outside, coils)
    assert found.quantity is None
    assert said in found.refusal


@pytest.mark.parametrize("kind", ["leaf", "fingers", "wave", "none"])
def test_only_a_coil_has_a_rate_by_its_wire(kind):
    assert "Only a coil spring" in coil(1.0, 16.0, 5, "mm", 0.0, word("spring_kind", kind)).refusal
    assert coil(1.0, 16.0, 5, "mm", 0.0, word("spring_kind", "coil")).refusal == ""
