"""Whether a check passes, against hand-worked limits and published tolerances."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import OurFault
from benchlog.measure.check import Remedy
from benchlog.measure.checking import (
    active_corrections,
    correction_half_widths,
    decimal_of,
    deviation_of,
    limit_of,
    result_of,
    shift_half_width,
)
from benchlog.measure.instrument import Instrument, InstrumentKind
from tests.measure.bench_checks import CALLIPER, CLOSING, OPENING, SCALE, check, correction


@pytest.mark.parametrize(
    ("shown", "passed"),
    [("0.00", True), ("0.03", True), ("-0.03", True), ("0.04", False), ("-0.04", False)],
)
def test_zero_within_permissible_error_passes(shown: str, passed: bool) -> None:
    result = result_of(check("c", CLOSING, shown), CALLIPER)
    assert (result.deviation, result.passed) == (Decimal(shown), passed)
    assert result.limit == 0.03


def test_limit_adds_the_weight_s_tolerance() -> None:
    # A 100 g weight of class M1 may be 5 mg off (OIML R 111-1:2004, table 1); the scale 0.2 g.
    weighed = check("c", CLOSING, "100.2", known=100.0, tolerance=0.005, tool=SCALE)
    assert limit_of(weighed, SCALE) == pytest.approx(0.205)
    assert result_of(weighed, SCALE).passed
    # 100.2 - 100 is 0.20000000000000284 in binary; exactly at the limit still passes.
    bare = replace(weighed, tolerance=0.0)
    assert result_of(bare, SCALE).deviation == Decimal("0.2")
    assert result_of(bare, SCALE).passed
    assert not result_of(check("c", CLOSING, "100.3", known=100.0, tool=SCALE), SCALE).passed


def test_verified_scale_has_the_limit_of_its_load() -> None:
    # Class III, e = 1 g, in service twice the initial limits: 1 g up to 500 g, 2 g up to 2000 g
    # (OIML R 76-1:2006, table 6 and 3.5.2).
    scale = Instrument(
        "s", "S", InstrumentKind.SCALE, "gram", 1.0, 0.0,
        accuracy_class="III", verification_interval=1.0,
    )  # fmt: skip
    assert limit_of(check("c", OPENING, "0", tool=scale), scale) == 1.0
    assert limit_of(check("c", OPENING, "501", known=501.0, tool=scale), scale) == 2.0


def test_limit_is_half_a_step_at_least() -> None:
    coarse = replace(CALLIPER, resolution=0.5, permissible_error=0.1)
    assert limit_of(check("c", OPENING, "0"), coarse) == 0.25


def test_check_in_another_unit_is_turned() -> None:
    # 0.002 in is 0.0508 mm: the inch is 25.4 mm exactly (NIST SP 811, B.8).
    inches = check("c", CLOSING, "0.002", unit="inch")
    assert deviation_of(inches, CALLIPER) == Decimal("0.0508")
    assert not result_of(inches, CALLIPER).passed


def test_check_in_another_dimension_is_our_fault() -> None:
    with pytest.raises(OurFault, match="gram"):
        deviation_of(check("c", CLOSING, "0.1", unit="gram"), CALLIPER)


def test_shift_is_known_to_step_and_standard() -> None:
    block = check("c", CLOSING, "10.05", known=10.0, tolerance=0.001)
    assert shift_half_width(block, CALLIPER) == pytest.approx(0.006)
    zero = check("z", CLOSING, "0.05")
    corrections = [
        correction("shift", "z"),
        replace(correction("spoiled", "z"), remedy=Remedy.SPOILED),
        correction("back", "z", takes_back="shift"),
    ]
    assert correction_half_widths([block, zero], corrections, [CALLIPER]) == {"shift": 0.005}


def test_taken_back_corrections_do_not_hold() -> None:
    first, back = correction("a", "z"), correction("b", "z", takes_back="a")
    third = correction("c", "z")
    assert active_corrections([first]) == [first]
    assert active_corrections([first, back, third]) == [third]


@given(
    st.decimals(-1000, 1000, places=3),
    st.decimals(0, 1000, places=3),
    st.decimals(0, 10, places=3),
)
def test_pass_is_symmetric_about_the_known(off: Decimal, known: Decimal, limit: Decimal) -> None:
    tool = replace(CALLIPER, permissible_error=float(limit), resolution=0.001)
    over = check("c", CLOSING, str(known + off), known=float(known))
    under = check("c", CLOSING, str(known - off), known=float(known))
    first, second = result_of(over, tool), result_of(under, tool)
    assert first.deviation == -second.deviation == off
    assert first.passed == second.passed == (abs(off) <= max(limit, Decimal("0.0005")))


@given(st.decimals(-(10**6), 10**6, places=6))
def test_decimal_of_a_double_is_what_was_written(number: Decimal) -> None:
    assert decimal_of(float(number)) == number
