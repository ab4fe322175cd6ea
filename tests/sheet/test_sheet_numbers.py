from __future__ import annotations

import pytest
from uncertainties import ufloat

from benchlog.measure.units import registry
from benchlog.sheet.numbers import number, number_with_unit, spread, symbol

NBSP = "\u00a0"


def quantity(value: float, u: float, unit: str) -> object:
    return registry().Quantity(ufloat(value, u), unit)


def test_interval_holds_95_percent() -> None:
    shown = spread(quantity(0.51, 0.006, "millimeter"), "millimeter")
    # k = 1.960, 95 % without a limit to the degrees of freedom (JCGM 100:2008, Table G.2)
    assert (shown.low, shown.high) == pytest.approx((0.49824, 0.52176))


def test_unit_is_converted() -> None:
    shown = spread(quantity(56.0, 0.1, "inch"), "millimeter")
    assert shown.value == pytest.approx(1422.4)  # 1 in = 25.4 mm exactly
    assert shown.unit == "millimeter"


def test_other_dimension_keeps_its_own_unit() -> None:
    assert spread(quantity(5, 0.1, "gram"), "millimeter").unit == "gram"
    assert spread(quantity(5, 0.1, "gram"), "no such unit").unit == "gram"


def test_number_matches_its_uncertainty() -> None:
    assert number(spread(quantity(102.31, 0.475, "inch ** 2"), "inch ** 2")) == "102.31 ± 0.93"
    assert number(spread(registry().Quantity(52, "count"), "count")) == "52"


def test_breaks_only_before_the_plus_minus() -> None:
    said = number_with_unit(quantity(1422.4, 0.8, "millimeter"), "millimeter")
    assert said == f"1422.4 ±{NBSP}1.6{NBSP}mm"


def test_exact_number_has_no_plus_minus() -> None:
    assert number_with_unit(registry().Quantity(6, "turn"), "turn") == f"6{NBSP}turns"


def test_symbols_are_the_trades() -> None:
    assert symbol("pound_force_per_square_inch") == "psi"
    assert symbol("gram / meter ** 2") == "g/m²"
    assert symbol("") == symbol("count") == ""
    assert symbol("made_up_unit") == "made up unit"
