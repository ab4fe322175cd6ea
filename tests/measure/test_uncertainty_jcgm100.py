"""Type A and Type B against JCGM 100:2008 and NIST StRD."""

from __future__ import annotations

import math
import statistics
import warnings

import pytest

from benchlog.measure.uncertainty import (
    exact,
    of_half_width,
    of_repeats,
    of_resolution,
    spread_about,
)


def test_repeats_give_s_over_root_n() -> None:
    # rule: JCGM 100 4.2.3; the numbers are invented, s worked out by hand: 0.0015811
    thickness = [0.378, 0.381, 0.379, 0.380, 0.377]
    assert of_repeats(thickness) == pytest.approx(0.00070711, rel=1e-5)


# JCGM 100:2008 table H.2, five sets of voltage (V), current (mA) and phase (rad), and the
# uncertainties of their means as printed there
H2 = [
    ([5.007, 4.994, 5.005, 4.990, 4.999], 4.9990, 0.0032, 4),
    ([19.663, 19.639, 19.640, 19.685, 19.678], 19.6610, 0.0095, 4),
    ([1.0456, 1.0438, 1.0468, 1.0428, 1.0433], 1.04446, 0.00075, 5),
]


@pytest.mark.parametrize(("values", "mean", "u", "places"), H2)
def test_gum_h2_means(values: list[float], mean: float, u: float, places: int) -> None:
    assert statistics.fmean(values) == pytest.approx(mean, abs=1e-9)
    assert round(of_repeats(values), places) == u


def test_single_value_has_no_scatter() -> None:
    assert of_repeats([3.52]) == 0.0


def test_resolution_is_029_of_step() -> None:
    # JCGM 100 F.2.2.1 prints u = 0.29 d
    assert round(of_resolution(1.0), 2) == 0.29
    assert of_resolution(0.1) == pytest.approx(0.028868, rel=1e-4)


def test_half_width_over_root_three() -> None:
    # JCGM 100 4.3.7: u² = a²/3
    assert of_half_width(1.0) ** 2 == pytest.approx(1 / 3)
    assert of_half_width(0.05) == pytest.approx(0.028868, rel=1e-4)


# NIST StRD, univariate summary statistics: Michelson's speed of light, in air, (c - 299 000 km/s)
MICHELSON = """
850 740 900 1070 930 850 950 980 980 880 1000 980 930 650 760 810 1000 1000 960 960
960 940 960 940 880 800 850 880 900 840 830 790 810 880 880 830 800 790 760 800
880 880 880 860 720 720 620 860 970 950 880 910 850 870 840 840 850 840 840 840
890 810 810 820 800 770 760 740 750 760 910 920 890 860 880 720 840 850 850 780
890 840 780 810 760 810 790 810 820 850 870 870 810 740 810 940 950 800 810 870
"""


def test_strd_michelson_certified_values() -> None:
    # certified: mean 299.852400000000, standard deviation 0.0790105478190518 (thousands of km/s)
    values = [(299_000 + int(each)) / 1000 for each in MICHELSON.split()]
    assert len(values) == 100
    assert statistics.fmean(values) == pytest.approx(299.8524, rel=1e-15)
    deviation = of_repeats(values) * math.sqrt(len(values))
    assert deviation == pytest.approx(0.0790105478190518, rel=1e-11)


STRD_ACCURACY = [
    # NIST StRD NumAcc1 to NumAcc4: values, certified deviation, digits that binary inputs leave
    ([10000001.0, 10000003.0, 10000002.0], 1.0, 1e-15),
    ([1.2] + [1.1, 1.3] * 500, 0.1, 1e-14),
    ([1000000.2] + [1000000.1, 1000000.3] * 500, 0.1, 1e-9),
    ([10000000.2] + [10000000.1, 10000000.3] * 500, 0.1, 1e-8),
]


@pytest.mark.parametrize(("values", "deviation", "tolerance"), STRD_ACCURACY)
def test_strd_accuracy_sets(values: list[float], deviation: float, tolerance: float) -> None:
    got = of_repeats(values) * math.sqrt(len(values))
    assert got == pytest.approx(deviation, rel=tolerance)


def test_parts_join_as_squares() -> None:
    joined = spread_about(10.0, ((3.0, "one"), (4.0, "other"), (0.0, "none")))
    assert (joined.nominal_value, joined.std_dev) == (10.0, 5.0)
    assert {part.tag: size for part, size in joined.error_components().items() if size} == {
        "one": 3.0,
        "other": 4.0,
    }


def test_exact_number_warns_of_nothing() -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        fifty = exact(50.0)
        assert (fifty.nominal_value, fifty.std_dev) == (50.0, 0.0)
        assert (fifty / 2).std_dev == 0.0
