"""Check values for what the strip comes to, each with its source."""

from math import hypot, sqrt

import pytest

from benchlog.measure.units import registry
from tests.derive.found import figures, number, u, value

# Common practice, no source: three strips of a practitioner's, who calls their areas the same.
# length in, width in, hidden in, dry g, thickness mm, pleats:
# exposed in², basis weight g/m², density g/cm³, depth mm
PRACTICE = [
    ((56.0, 3.68, 0.1, 18.1, 0.71, 60), (200.5, 136.1, 0.192, 11.9)),
    ((54.0, 3.88, 0.1, 29.4, 0.89, 55), (204.1, 217.5, 0.244, 12.5)),
    ((53.0, 3.89, 0.1, 23.6, 1.18, 45), (200.9, 177.4, 0.150, 15.0)),
]


def strip(length, width, hidden, mass, thickness, pleats):
    return figures(
        number("media_length", length, "inch"),
        number("media_width", width, "inch"),
        number("media_hidden", hidden, "inch"),
        number("media_mass", mass, "gram"),
        number("media_thickness", thickness, "millimeter"),
        number("pleat_count", pleats, "count"),
    )


@pytest.mark.parametrize(("said", "wanted"), PRACTICE)
def test_practice_strips_come_out(said, wanted):
    found = strip(*said)
    area, weight, density, depth = wanted
    assert round(value(found["exposed_area"], "inch**2"), 1) == area
    assert round(value(found["basis_weight"], "gram/meter**2"), 1) == weight
    assert round(value(found["sheet_density"], "gram/centimeter**3"), 3) == density
    assert round(value(found["pleat_depth"], "millimeter"), 1) == depth


# Worked by hand and with uncertainties 3.2.3 (invented strip): 48.0 × 4.10 in, 0.10 in hidden in
# all, 21.4 g, 0.64 mm, 52 pleats. 1 in² = 6.4516 cm² exactly (NIST SP 811). Half-widths 0.25 and
# 0.01 in, steps 0.1 g and 0.01 mm, five thicknesses with a scatter of 0.015 mm.
def worked_strip():
    return figures(
        number("media_length", 48.0, "inch", 0.25 / sqrt(3)),
        number("media_width", 4.10, "inch", 0.01 / sqrt(3)),
        number("media_hidden", 0.10, "inch"),
        number("media_mass", 21.4, "gram", 0.1 / sqrt(12)),
        number("media_thickness", 0.64, "millimeter", hypot(0.01 / sqrt(12), 0.015 / sqrt(5))),
        number("pleat_count", 52, "count"),
    )


def test_worked_strip_comes_out():
    found = worked_strip()
    assert value(found["exposed_area"], "inch**2") == pytest.approx(192.00, abs=1e-9)
    assert value(found["exposed_area"], "centimeter**2") == pytest.approx(192.00 * 6.4516)
    assert value(found["whole_area"], "centimeter**2") == pytest.approx(1269.67, abs=0.005)
    assert value(found["basis_weight"], "gram/meter**2") == pytest.approx(168.547, abs=5e-4)
    assert value(found["sheet_density"], "kilogram/meter**3") == pytest.approx(263.355, abs=5e-4)
    assert value(found["pleat_depth"], "millimeter") == pytest.approx(11.723, abs=5e-4)


# JCGM 100, 5.1.2 on the same strip; computed with uncertainties 3.2.3 and by Monte Carlo.
def test_worked_strip_uncertainty():
    found = worked_strip()
    assert u(found["basis_weight"], "gram/meter**2") == pytest.approx(0.604068, abs=6e-7)
    assert u(found["sheet_density"], "kilogram/meter**3") == pytest.approx(3.149851, abs=6e-7)


# JCGM 100, 5.2: both hold mass, length and width, so they are correlated: r = 0.2997.
def test_weight_and_density_stay_correlated():
    found = worked_strip()
    weight, density = (found[k].quantity.magnitude for k in ("basis_weight", "sheet_density"))
    ratio = (found["basis_weight"].quantity / found["sheet_density"].quantity).to("millimeter")
    assert ratio.magnitude.std_dev == pytest.approx(0.007303, abs=6e-7)
    together = weight + density
    covariance = (together.std_dev**2 - weight.std_dev**2 - density.std_dev**2) / 2
    assert covariance / (weight.std_dev * density.std_dev) == pytest.approx(0.2997, abs=1e-4)


# Calculated: 1200 ± 2 mm × 55 ± 0.5 mm = 660 cm² = 102.3 ± 0.95 in², the width dominating;
# two of them differ beyond 1.3 in² only (0.95 × √2). The ± are taken as they stand.
def test_two_exposed_strips_leave_a_tie_within_1_3_square_inches():
    one, other = (
        figures(
            number("media_length", 1200, "millimeter", 2.0),
            number("media_exposed_width", 55, "millimeter", 0.5),
        )["exposed_area"]
        for _ in range(2)
    )
    assert value(one, "centimeter**2") == pytest.approx(660)
    assert value(one, "inch**2") == pytest.approx(102.3, abs=0.05)
    assert u(one, "inch**2") == pytest.approx(0.95, abs=0.01)
    gap = (one.quantity - other.quantity).to("inch**2").magnitude
    assert gap.std_dev == pytest.approx(1.3, abs=0.05)


# Calculated: 12.0 g on the whole strip, 62 mm wide, is 161 g/m²; over the exposed 55 mm it would
# wrongly be 182.
def test_basis_weight_is_over_the_whole_strip():
    found = figures(
        number("media_length", 1200, "millimeter"),
        number("media_width", 62, "millimeter"),
        number("media_hidden", 7, "millimeter"),
        number("media_mass", 12.0, "gram"),
    )
    assert round(value(found["basis_weight"], "gram/meter**2")) == 161
    wrong = registry().Quantity(12.0, "gram") / found["exposed_area"].quantity
    assert round(wrong.to("gram/meter**2").magnitude) == 182


# ISO 536, from memory: 100 × 100 mm of 1.25 g is 125 g/m²; at 0.6 mm that is 0.2083 g/cm³.
def test_grammage_of_a_hand_sheet():
    found = figures(
        number("media_length", 100, "millimeter"),
        number("media_width", 100, "millimeter"),
        number("media_mass", 1.25, "gram"),
        number("media_thickness", 0.6, "millimeter"),
    )
    assert value(found["basis_weight"], "gram/meter**2") == pytest.approx(125)
    assert value(found["sheet_density"], "gram/centimeter**3") == pytest.approx(0.2083, abs=5e-5)


# Calculated: the worked strip's 1238.71 cm² for 12.50 of a currency.
def test_area_for_the_price():
    found = worked_strip()["area_per_price"]
    assert value(found, "centimeter**2/money") == pytest.approx(1238.71 / 12.50, abs=1e-3)
