"""What a price buys: sums by hand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.derive.all_figures import figures_of
from benchlog.derive.money import PRICE_PER_AREA, PRICE_PER_YEAR
from benchlog.trade.conditions import usual_conditions
from tests.derive.as_said import said
from tests.derive.found import ALPHA, figures, number, u, value

STRIP = (
    number("media_length", 1200, "millimeter", 2.0),
    number("media_width", 62, "millimeter", 0.3),
    number("media_hidden", 7, "millimeter", 0.4),
)


def test_price_of_area_by_hand():
    # 12.50 for 120 cm × 5.5 cm = 660 cm²: 1.8939 for 100 cm², 17.595 for a square foot.
    found = figures(*STRIP)["price_per_area"]
    assert value(found, "money/decimeter**2") == pytest.approx(12.5 / 6.6)
    assert value(found, "money/foot**2") == pytest.approx(12.5 / 6.6 * 9.290304)
    assert u(found, "money/decimeter**2") > 0


@given(st.decimals("0.5", 100, places=2))
def test_price_of_area_is_the_other_way_round(price):
    found = figures(*STRIP, specimen=replace(ALPHA, price=price))
    product = value(found["price_per_area"], "money/cm**2") * value(
        found["area_per_price"], "cm**2/money"
    )
    assert product == pytest.approx(1)


@pytest.mark.parametrize(
    # 12.50 over the claimed time; 15 000 km are driven in a year of the usual conditions.
    ("claims", "a_year"),
    [
        ([said("claim_months", "12")], 12.5),
        ([said("claim_months", "24")], 6.25),
        ([said("claim_distance", "30000 km")], 6.25),
        ([said("claim_distance", "10000 mi")], 12.5 * 15000 / 16093.44),
        ([said("claim_months", "24"), said("claim_distance", "15000 km")], 12.5),
        ([said("claim_months", "6"), said("claim_distance", "15000 km")], 25.0),
    ],
)
def test_price_of_a_year_by_hand(claims, a_year):
    found = figures(*claims)["price_per_year"]
    assert value(found, "money/year") == pytest.approx(a_year)
    assert u(found, "money/year") > 0


def test_distance_a_year_is_a_stated_condition():
    findings = {"claim_distance": said("claim_distance", "20000 km")}
    slow = replace(usual_conditions(), km_per_year=5000.0)
    found = figures_of(findings, ALPHA, slow)["price_per_year"]
    assert value(found, "money/year") == pytest.approx(12.5 / 4)
    assert "5000 km are driven in a year, as stated." in found.assumed


def test_the_earlier_of_two_claims_is_named():
    both = figures(said("claim_months", "24"), said("claim_distance", "15000"))["price_per_year"]
    assert both.warnings == (
        "Time and distance are both claimed; at 15000 km a year, as stated, the distance is up "
        "earlier and counts.",
    )
    assert both.readings == ("claim_months-1", "claim_distance-1")


def test_claims_up_at_once_are_said_so():
    both = figures(said("claim_months", "12"), said("claim_distance", "15000"))["price_per_year"]
    assert both.warnings == (
        "Time and distance are both claimed; at 15000 km a year, as stated, both are up at once.",
    )
    by_month = figures(said("claim_months", "11"), said("claim_distance", "15000"))
    assert "the time is up earlier" in by_month["price_per_year"].warnings[0]


def test_year_without_claim_or_price_is_refused():
    assert figures()["price_per_year"].refusal == (
        "No claimed time: not measured. No claimed distance: not measured. One is needed."
    )
    unpriced = replace(ALPHA, price=None)
    found = figures(said("claim_months", "12"), specimen=unpriced)["price_per_year"]
    assert found.refusal == "No price stated: not answered."


@pytest.mark.parametrize("key", ["area_per_price", "price_per_area", "price_per_year"])
def test_a_price_of_nothing_is_refused(key):
    given_away = replace(ALPHA, price=Decimal(0))
    found = figures(*STRIP, said("claim_months", "12"), specimen=given_away)[key]
    assert "is nothing" in found.refusal


def test_no_distance_a_year_is_refused():
    still = replace(usual_conditions(), km_per_year=0.0)
    findings = {"claim_distance": said("claim_distance", "20000 km")}
    assert "No distance a year" in figures_of(findings, ALPHA, still)["price_per_year"].refusal


def test_prices_are_compared_in_one_currency():
    assert "currency" in PRICE_PER_AREA.comparable_when
    assert PRICE_PER_YEAR.comparable_when == ("currency",)
    assert "not tested" in PRICE_PER_YEAR.beside
