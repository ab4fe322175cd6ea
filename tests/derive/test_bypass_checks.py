"""Check values for the bypass, each with its source."""

from __future__ import annotations

import math

import pytest

from tests.derive.found import figures, number, u, value

PSI = 6.894757


def by_force(force, force_unit, seat, u_force=0.0, u_seat=0.0, *more):
    return figures(
        number("bypass_force", force, force_unit, u_force),
        number("bypass_seat", seat, "mm", u_seat),
        *more,
    )


def marked(low, high=None, unit="psi", u_marked=0.5 / 3**0.5):
    if high is None:
        return number("bypass_marked", low, unit, u_marked)
    half = (high - low) / 2
    return number("bypass_marked", low + half, unit, half / 3**0.5, low=low, high=high)


# Statics with g = 9.80665 m/s² (CGPM 1901), calculated: 1.000 kg on a seat of 12.0 mm is
# 86 710 Pa = 12.576 psi; 0.800 kg 10.061 psi; 1.500 kg on 15.0 mm 12.073 psi.
@pytest.mark.parametrize(
    ("kilograms", "seat", "psi"), [(1.0, 12.0, 12.576), (0.8, 12.0, 10.061), (1.5, 15.0, 12.073)]
)
def test_mass_on_a_scale_gives_the_opening(kilograms, seat, psi):
    found = by_force(kilograms, "kgf", seat)["bypass_opening"]
    assert value(found, "psi") == pytest.approx(psi, abs=0.0006)
    grams = by_force(1000 * kilograms, "gf", seat)["bypass_opening"]
    newtons = by_force(9.80665 * kilograms, "newton", seat)["bypass_opening"]
    assert value(grams, "kPa") == pytest.approx(value(found, "kPa"))
    assert value(newtons, "kPa") == pytest.approx(value(found, "kPa"))


# Seats for 15 psi, calculated: 8 mm 0.53 kg, 10 mm 0.83 kg, 12 mm 1.19 kg, 15 mm 1.86 kg.
@pytest.mark.parametrize(("seat", "kilograms"), [(8, 0.53), (10, 0.83), (12, 1.19), (15, 1.86)])
def test_fifteen_psi_on_usual_seats(seat, kilograms):
    found = by_force(kilograms, "kgf", seat)["bypass_opening"]
    assert value(found, "psi") == pytest.approx(15.0, rel=0.01)


def test_opening_in_pascals():
    assert value(by_force(1.0, "kgf", 12.0)["bypass_opening"], "Pa") == pytest.approx(86710, abs=1)


# JCGM 100 5.1.6: relative u = sqrt((u(m)/m)² + (2 u(d)/d)²); 1.000 ± 0.005 kg and 12.0 ± 0.1 mm
# give 1.74 %, so 12.58(22) psi: calculated.
def test_uncertainty_counts_the_diameter_twice():
    found = by_force(1.0, "kgf", 12.0, 0.005, 0.1)["bypass_opening"]
    assert u(found, "psi") / value(found, "psi") == pytest.approx(0.0174, abs=5e-5)
    assert u(found, "psi") == pytest.approx(0.22, abs=0.005)
    exact = math.hypot(0.005, 2 * 0.1 / 12.0)
    assert u(found, "psi") / value(found, "psi") == pytest.approx(exact)


# Published C, a forum's trial: 4 lbf on a disc of 9 mm, 9 lbf on one of 18 mm, on valves said to
# open at 15 psi; over the disc's area that is 40.6 and 22.8 psi (calculated).
@pytest.mark.parametrize(("pounds", "disc", "psi"), [(4, 9, 40.6), (9, 18, 22.8)])
def test_disc_taken_for_the_seat_is_warned_of(pounds, disc, psi):
    found = by_force(pounds, "lbf", disc, 0.05, 0.1, marked(15))["bypass_opening"]
    assert value(found, "psi") == pytest.approx(psi, abs=0.06)
    assert any("far from the marking" in w and "disc" in w for w in found.warnings)


def test_every_opening_warns_of_seat_and_falling_force():
    found = by_force(1.0, "kgf", 12.0)["bypass_opening"]
    assert found.warnings == (
        "Measure the ring on which the valve seals: the disc that one sees is not the seat. "
        "Take the force at the first movement; it falls after that.",
    )
    assert "not a flow test" in found.kind.beside


@pytest.mark.parametrize(("low", "high"), [(12, None), (8, 11), (12, 15), (16, None)])
def test_near_its_marking_the_area_is_not_doubted(low, high):
    found = by_force(1.0, "kgf", 12.0, 0.005, 0.1, marked(low, high))["bypass_opening"]
    assert len(found.warnings) == 1
    assert found.readings == ("bypass_force-a", "bypass_seat-a")


def air(psi, u_psi=0.25):
    return number("bypass_air", psi, "psi", u_psi)


def test_all_three_ways_agree():
    found = by_force(1.0, "kgf", 12.0, 0.005, 0.1, air(12.8), marked(12, 15))["bypass_agreement"]
    error = abs(12.576 - 12.8) / (1.959964 * math.hypot(0.2188, 0.25))
    assert found.word == (
        f"Force and air agree within their uncertainties (E_n {error:.2f}); "
        "force lies in the marked range; air lies in the marked range"
    )
    assert set(found.readings) == {
        "bypass_force-a",
        "bypass_seat-a",
        "bypass_air-a",
        "bypass_marked-a",
    }


# 8 to 11 psi is an interval: 12.576 psi is 1.576 psi above its upper end, not 3.076 from its
# middle, and the interval itself brings no uncertainty: E_n 3.67 (calculated).
def test_marked_interval_is_kept():
    found = by_force(1.0, "kgf", 12.0, 0.005, 0.1, marked(8, 11))["bypass_agreement"]
    opening = 9.80665 / (math.pi / 4 * 0.012**2) / 6894.757293
    error = (opening - 11) / (1.959964 * opening * math.hypot(0.005, 2 * 0.1 / 12.0))
    assert found.word == (
        f"Force and marking are further apart than their uncertainties allow (E_n {error:.2f})"
    )
    kilopascals = by_force(1.0, "kgf", 12.0, 0.005, 0.1, marked(8 * PSI, 11 * PSI, "kPa"))[
        "bypass_agreement"
    ]
    assert kilopascals.word == found.word


def test_single_marking_is_good_to_its_last_digit():
    found = figures(air(12.8), marked(12))["bypass_agreement"]
    error = 0.8 / (1.959964 * math.hypot(0.25, 0.5 / 3**0.5))
    assert found.word == (
        f"Air and marking are further apart than their uncertainties allow (E_n {error:.2f})"
    )


def test_agreement_never_judges():
    word = figures(air(30), marked(8, 11))["bypass_agreement"].word
    for verdict in ("good", "bad", "fail", "better", "wrong"):
        assert verdict not in word


FORCE, SEAT = "opening force of the bypass", "seat diameter of the bypass"
AIR, MARKED = "opening of the bypass by air", "marked setting of the bypass"


@pytest.mark.parametrize(
    ("findings", "missing"),
    [
        ((), (FORCE, SEAT, AIR, MARKED)),
        ((air(12),), (FORCE, SEAT, MARKED)),
        ((marked(12),), (FORCE, SEAT, AIR)),
        ((number("bypass_force", 1, "kgf"), air(12)), (SEAT, MARKED)),
    ],
)
def test_one_way_alone_has_nothing_to_agree_with(findings, missing):
    found = figures(*findings)["bypass_agreement"]
    assert found.word is None
    assert found.refusal == " ".join(f"No {words}: not measured." for words in missing)


def test_no_seat_no_opening():
    found = figures(number("bypass_force", 1, "kgf"))["bypass_opening"]
    assert found.refusal == "No seat diameter of the bypass: not measured."
    assert "not above zero" in by_force(0.0, "kgf", 12.0)["bypass_opening"].refusal
