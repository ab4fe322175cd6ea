"""Permissible errors of scales in use: OIML R 76-1:2006, Table 6 (initial) and 3.5.2 (in service).

The limits of classes II and III and the worked loads are published; those of I and IIII are from
memory.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import OurFault
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.permissible import ACCURACY_CLASSES, is_verified, permissible_error_at


def scale(accuracy_class: str, e: float, permissible_error: float = 9.0) -> Instrument:
    return Instrument(
        "s", "scale", InstrumentKind.SCALE, "gram", e, permissible_error, None, "",
        accuracy_class, e,
    )  # fmt: skip


# Initial verification in intervals e: up to the first load half, up to the second one, then 1.5.
TABLE_6 = [
    ("I", 50_000, 200_000),
    ("II", 5_000, 20_000),
    ("III", 500, 2_000),
    ("IIII", 50, 200),
]


@pytest.mark.parametrize(("accuracy_class", "first", "second"), TABLE_6)
def test_limits_in_service_are_twice_the_initial(
    accuracy_class: str, first: int, second: int
) -> None:
    one = scale(accuracy_class, 1.0)
    loads = (0, first, first + 1, second, second + 1)
    assert [permissible_error_at(one, load) for load in loads] == [1.0, 1.0, 2.0, 2.0, 3.0]


# Worked loads: class II, e 0.01 g: 50 g ±0.005, 100 g ±0.01, 250 g ±0.015 at first; class III,
# e 1 g: 500 g ±0.5, 501 g ±1 at first. In service twice that.
WORKED = [
    ("II", 0.01, 50.0, 0.01),
    ("II", 0.01, 100.0, 0.02),
    ("II", 0.01, 250.0, 0.03),
    ("III", 1.0, 500.0, 1.0),
    ("III", 1.0, 501.0, 2.0),
]


@pytest.mark.parametrize(("accuracy_class", "e", "load", "expected"), WORKED)
def test_worked_loads_come_out(accuracy_class: str, e: float, load: float, expected: float) -> None:
    assert permissible_error_at(scale(accuracy_class, e), load) == expected


def test_intervals_are_counted_in_decimals() -> None:
    # 200.1/0.1 is 2000.9999999999998 in binary, and 0.3/0.1 less than 3
    assert permissible_error_at(scale("III", 0.1), 200.0) == 0.2
    assert permissible_error_at(scale("III", 0.1), 200.1) == pytest.approx(0.3)
    # 500 e said in ounces and turned into grams must not climb a step by its last digit
    assert permissible_error_at(scale("III", 0.1), 50.000000000000007) == 0.1


@given(st.sampled_from(ACCURACY_CLASSES), st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_larger_loads_are_permitted_no_less(accuracy_class: str, one: float, other: float) -> None:
    small, large = sorted((one, other), key=abs)
    instrument = scale(accuracy_class, 0.1)
    assert permissible_error_at(instrument, small) <= permissible_error_at(instrument, large)
    assert permissible_error_at(instrument, one) == permissible_error_at(instrument, -one)


def test_stated_error_holds_without_a_class() -> None:
    plain = scale("", 0.0, 0.2)
    assert not is_verified(plain)
    assert [permissible_error_at(plain, load) for load in (0.0, 500.0)] == [0.2, 0.2]
    assert not is_verified(scale("II", 0.0))


def test_class_that_does_not_exist_is_our_fault() -> None:
    with pytest.raises(OurFault, match="class 'V'"):
        permissible_error_at(scale("V", 0.1), 10.0)
