"""Whether two specimens differ in one attribute."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.judge.differences import attribute_differences, difference
from benchlog.measure.finding import Finding
from benchlog.measure.state import WITHOUT_VALUE, State
from benchlog.measure.units import registry
from tests.derive.found import number, without, word
from tests.judge.bench_of import (
    SHIPPED,
    SPIN_ON,
    evidence,
    first,
    keyed,
    piecewise,
    rules,
    unscored,
    worked_out,
)

WALL = piecewise("can_wall", (0.2, 0), (0.4, 10), meaningful=0.05)


def walls(one, other, u=0.0, other_u=None):
    return [
        number("can_wall", one, "mm", u, "a"),
        number("can_wall", other, "mm", u if other_u is None else other_u, "b"),
    ]


def compared(findings, rule=WALL, specimens=None):
    return difference(rule, "a", "b", evidence(findings, specimens or first(2)))


def test_gap_beyond_both_limits_differs():
    found = compared(walls(0.40, 0.30, u=0.01))
    assert found.differs
    assert found.gap == pytest.approx(0.10)
    assert found.expanded == pytest.approx(1.959964 * 0.01 * 2**0.5)
    assert (found.meaningful, found.unit) == (0.05, "millimeter")


def test_gap_within_its_uncertainty_does_not():
    assert not compared(walls(0.40, 0.30, u=0.04)).differs


def test_gap_that_means_nothing_does_not():
    found = compared(walls(0.34, 0.30, u=0.001))
    assert found.gap > found.expanded
    assert not found.differs


def test_gap_on_the_limit_is_not_beyond_it():
    assert not compared(walls(0.35, 0.30)).differs
    assert not compared(walls(0.30, 0.35)).differs
    assert compared(walls(0.3501, 0.30)).differs


def test_share_is_of_the_smaller_value():
    share = replace(WALL, meaningful=0.05, meaningful_is_share=True)
    assert compared(walls(1.051, 1.0), share).differs
    assert not compared(walls(1.049, 1.0), share).differs
    assert compared(walls(1.0, 1.049), share).meaningful == pytest.approx(0.05)


# JCGM 100, 5.2 and F.1.2: what both readings share cancels. Published means: A 0.3790 and B 0.3844
# mm from Welch's two samples (s/√n 0.000707 and 0.001208), u of the difference 0.0014 (0.0014583
# with a step of 0.001 mm); a calibration of ±0.002 mm taken as if it were independent would give
# 0.0021894.
def test_shared_calibration_cancels():
    zero = ufloat(0.0, 0.002 / 3**0.5, "instrument/gauge")
    step = 0.001 / 12**0.5
    sizes = {"a": (0.3790, 0.0015811 / 5**0.5), "b": (0.3844, 0.0027019 / 5**0.5)}
    findings = []
    for specimen, (mean, scatter) in sizes.items():
        size = mean + ufloat(0.0, (scatter**2 + step**2) ** 0.5) + zero
        quantity = registry().Quantity(size, "millimeter")
        findings.append(Finding("can_wall", specimen, State.MEASURED, quantity=quantity))
    assert compared(findings).expanded / 1.959964 == pytest.approx(0.0014583, abs=2e-6)
    apart = [
        number("can_wall", m, "mm", (s**2 + step**2 + 0.002**2 / 3) ** 0.5, i)
        for i, (m, s) in sizes.items()
    ]
    assert compared(apart).expanded / 1.959964 == pytest.approx(0.0021894, abs=2e-6)


def test_words_differ_when_they_are_not_the_same():
    kinds = unscored("cap_kind")
    same = [word("cap_kind", "metal", "a"), word("cap_kind", "metal", "b")]
    assert not compared(same, kinds).differs
    assert compared([same[0], word("cap_kind", "fibre", "b")], kinds).differs


@pytest.mark.parametrize("state", WITHOUT_VALUE)
def test_missing_value_is_not_a_difference(state):
    found = compared([number("can_wall", 0.3, "mm"), without("can_wall", state, "b")])
    assert not found.differs
    assert found.gap is None
    assert found.refused == f"Bravo has no value: {state.value}"


THICKNESS = unscored("media_thickness", meaningful=0.05)


def thicknesses(one_kpa, other_kpa, states=("conditioned", "conditioned")):
    return [
        number("media_thickness", 0.6, "mm", 0.001, "a", contact_pressure_kpa=one_kpa),
        number("media_thickness", 0.9, "mm", 0.001, "b", contact_pressure_kpa=other_kpa),
        word("media_state", states[0], "a"),
        word("media_state", states[1], "b"),
    ]


def test_one_foot_pressure_is_compared():
    assert compared(thicknesses(50.0, 50.0), THICKNESS).differs


def test_unlike_foot_pressures_are_refused():
    found = compared(thicknesses(2.0, 50.0), THICKNESS)
    assert not found.differs
    assert found.refused == "the gauge's foot pressure differs: Alpha 2 kPa, Bravo 50 kPa"


@pytest.mark.parametrize("pressures", [(None, 50.0), (50.0, None), (None, None)])
def test_unknown_foot_pressure_is_refused(pressures):
    found = compared(thicknesses(*pressures), THICKNESS)
    assert "the gauge's foot pressure is not known" in found.refused


def test_readings_at_several_pressures_are_refused():
    one, *others = thicknesses(None, 50.0)
    found = compared([replace(one, mixed_pressure=True), *others], THICKNESS)
    assert found.refused.endswith("is not known for Alpha (more than one)")


def test_prices_in_unlike_currencies_are_refused():
    prices = [number("price", 10, "money"), number("price", 12, "money", specimen="b")]
    one, other = first(2)
    assert compared(prices, unscored("price")).differs
    found = compared(prices, unscored("price"), specimens=(one, replace(other, currency="")))
    assert found.refused == "the currency paid in is not known for Bravo (not answered)"


def test_stated_prices_are_compared_without_a_reading():
    one, other = first(2)
    dear = (replace(one, price=Decimal("12.50")), replace(other, price=Decimal("8.00")))
    found = compared([], unscored("price"), specimens=dear)
    assert (found.gap, found.differs) == (4.5, True)
    assert compared([], unscored("price")).refused == "Alpha has no value: not measured"


def test_unlike_media_states_are_refused():
    found = compared(thicknesses(50.0, 50.0, ("conditioned", "drained")), THICKNESS)
    assert found.refused.startswith("the state of the media differs: Alpha ")


def test_unknown_media_state_is_refused():
    found = compared(thicknesses(50.0, 50.0)[:3], THICKNESS)
    assert found.refused == "the state of the media is not known for Bravo (not measured)"


def test_unlike_currencies_are_refused():
    (rule,) = [e for e in SHIPPED.entries if e.subject == "area_per_price"]
    strip = [
        finding
        for s in ("a", "b")
        for finding in (
            number("media_length", 1200, "mm", specimen=s),
            number("media_exposed_width", 55, "mm", specimen=s),
            word("media_kind", "blend", s),
        )
    ]
    one, other = first(2)
    one = replace(one, price=10)
    same = compared(strip, rule, specimens=(one, replace(other, price=5)))
    assert same.differs
    other = replace(other, price=5, currency="USD")
    found = compared(strip, rule, specimens=(one, other))
    assert found.refused == "the currency paid in differs: Alpha EUR, Bravo USD"


@given(st.floats(0.1, 1), st.floats(0.1, 1), st.floats(0, 0.1), st.floats(1, 10))
def test_more_uncertainty_never_makes_a_difference(one, other, u, more):
    if compared(walls(one, other, u * more)).differs:
        assert compared(walls(one, other, u)).differs


@given(st.floats(0.1, 1), st.floats(0.1, 1), st.floats(0, 0.1))
def test_order_turns_the_sign_and_no_more(one, other, u):
    found, turned = compared(walls(one, other, u)), compared(walls(other, one, u))
    assert found.gap == pytest.approx(-turned.gap)
    assert found.differs == turned.differs


def test_listing_names_who_stands_clear():
    specimens = first(3)
    findings = [
        number("can_wall", size, "mm", 0.001, s.id)
        for s, size in zip(specimens, (0.30, 0.31, 0.45), strict=True)
    ]
    (standing,) = attribute_differences(
        specimens, keyed(findings), worked_out(findings, specimens), rules(WALL), SPIN_ON
    )
    assert standing.subject == "can_wall"
    assert standing.clear == ("c",)
    assert [(p.first, p.second, p.differs) for p in standing.pairs] == [
        ("a", "b", False),
        ("a", "c", True),
        ("b", "c", True),
    ]


def test_nobody_stands_clear_of_nobody():
    specimens = first(3)
    findings = [number("can_wall", 0.3, "mm", 0.001, "a")]
    (standing,) = attribute_differences(
        specimens, keyed(findings), worked_out(findings, specimens), rules(WALL), SPIN_ON
    )
    assert standing.clear == ()
    assert all(pair.refused for pair in standing.pairs)
