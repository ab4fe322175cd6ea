"""JCGM 100:2008, annex H: the gauge block and the simultaneous resistance and reactance."""

from __future__ import annotations

import math
import statistics
from typing import Any

import numpy
import pytest
import uncertainties

from benchlog.derive.inputs import Inputs
from benchlog.derive.trace import Traced
from benchlog.measure.coverage import degrees_of_freedom, expanded, t_factor
from benchlog.measure.rounding import rounded
from tests.derive.drawn_models import arcsine, normal, rectangular, worked


def gauge_block(inputs: Inputs) -> Any:
    """H.1.2: length of a gauge block by comparison, in nm."""
    standard, difference = inputs.number("l_s"), inputs.number("d")
    expansion = inputs.number("d_alpha") * inputs.number("theta")
    temperature = inputs.number("alpha_s") * inputs.number("d_theta")
    return standard + difference - standard * (expansion + temperature)


def gauge_block_numbers() -> dict[str, Any]:
    """H.1.3 and Table H.1."""
    comparison = normal("repeats", 215.0, 5.8, 24) + normal("d1", 0.0, 3.9, 5)
    return {
        "l_s": normal("l_s", 50_000_623.0, 25.0, 18),
        "d": comparison + normal("d2", 0.0, 6.7, 8),
        "d_alpha": rectangular("d_alpha", -1e-6, 1e-6, 50),
        "theta": normal("mean bed", -0.1, 0.2) + arcsine("cyclic", 0.5),
        "alpha_s": rectangular("alpha_s", 9.5e-6, 13.5e-6),
        "d_theta": rectangular("d_theta", -0.05, 0.05, 2),
    }


@pytest.fixture(scope="module")
def length() -> Any:
    figure, _ = worked(gauge_block, gauge_block_numbers())
    assert figure.quantity is not None
    return figure.quantity.magnitude


def test_h1_length_and_combined_uncertainty(length: Any) -> None:
    # H.1.4 and H.1.5: 50.000 838 mm, uc = 32 nm; unrounded by GTC and metrolopy 31.66388
    assert length.nominal_value == pytest.approx(50_000_838.0)
    assert length.std_dev == pytest.approx(31.66388, abs=1e-5)
    assert rounded(length.nominal_value, length.std_dev) == ("50000838", "32")


# Table H.1, last column, in nm; the comparison as a whole is 9.7
CONTRIBUTIONS = {"l_s": 25.0, "d": 9.7, "d_alpha": 2.9, "d_theta": 16.6}


def test_h1_contributions_are_those_of_the_table() -> None:
    figure, _ = worked(gauge_block, gauge_block_numbers())
    sizes = {term.key: abs(term.sensitivity) * term.number.std_dev for term in figure.terms}
    for key, size in CONTRIBUTIONS.items():
        assert sizes[key] == pytest.approx(size, abs=0.051)
    # H.1.3.4, H.1.3.5: at δα = 0 and δθ = 0 neither θ nor αs has a slope
    assert (sizes["theta"], sizes["alpha_s"]) == (0.0, 0.0)


def test_h1_comparison_has_25_degrees_of_freedom() -> None:
    # H.1.6: 9.7 nm with 25.6 from 5.8 (24), 3.9 (5) and 6.7 (8), the 9.7 being rounded: its whole
    # digits, 9.682, give 25.45
    comparison = gauge_block_numbers()["d"]
    assert comparison.std_dev == pytest.approx(9.7, abs=0.05)
    assert degrees_of_freedom(comparison) == pytest.approx(25.45, abs=0.005)
    assert 9.7**4 * 25.45 / comparison.std_dev**4 == pytest.approx(25.6, abs=0.05)


def test_h1_effective_freedom_and_expanded_uncertainty(length: Any) -> None:
    # H.1.6: νeff = 16.7, taken as 16; t99(16) = 2.92; U99 = 93 nm from uc rounded to 32, and
    # 92.5 from uc as it stands
    assert degrees_of_freedom(length) == pytest.approx(16.75, abs=0.01)
    t99 = t_factor(degrees_of_freedom(length), 0.99)
    assert t99 == pytest.approx(2.92, abs=0.005)
    assert round(t99 * round(length.std_dev)) == 93
    assert expanded(length, 0.99) == pytest.approx(92.5, abs=0.1)


def test_h1_second_order_is_seen_by_drawing() -> None:
    # H.1.7: the products add 11.7 and 1.7 nm, uc becomes 34 nm
    from benchlog.derive.cross_check import draw_figure
    from benchlog.measure.monte_carlo import Draws
    from tests.derive.drawn_models import fresh

    figure, inputs = worked(gauge_block, gauge_block_numbers())
    drawn = draw_figure(figure, gauge_block, fresh(inputs), Draws(400_000))
    assert drawn.std() == pytest.approx(33.81, abs=0.15)
    assert round(drawn.std()) == 34


# Table H.2: five sets of voltage (V), current (mA) and phase (rad), taken at once
SETS = {
    "v": [5.007, 4.994, 5.005, 4.990, 4.999],
    "i": [19.663, 19.639, 19.640, 19.685, 19.678],
    "phi": [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
}


def of_either(name: str, x: Any) -> Any:
    """The cosine or sine of a float or, for slopes, of a number that remembers its making."""
    return x.applied(name) if isinstance(x, Traced) else getattr(math, name)(x)


def resistance(inputs: Inputs) -> Any:
    return impedance(inputs) * of_either("cos", inputs.number("phi"))


def reactance(inputs: Inputs) -> Any:
    return impedance(inputs) * of_either("sin", inputs.number("phi"))


def impedance(inputs: Inputs) -> Any:
    return inputs.number("v") / (inputs.number("i") / 1000)


def h2_numbers(*, correlated: bool) -> dict[str, Any]:
    means = [statistics.fmean(values) for values in SETS.values()]
    covariance = numpy.cov(list(SETS.values())) / 5
    if not correlated:
        covariance = numpy.diag(numpy.diag(covariance))
    return dict(zip(SETS, uncertainties.correlated_values(means, covariance), strict=True))


def h2_results(*, correlated: bool) -> list[Any]:
    numbers = h2_numbers(correlated=correlated)
    figures = [worked(model, numbers)[0] for model in (resistance, reactance, impedance)]
    return [figure.quantity.magnitude for figure in figures if figure.quantity is not None]


def test_h2_correlations_of_the_means() -> None:
    # Table H.2: r(V,I) −0.36, r(V,φ) 0.86, r(I,φ) −0.65
    matrix = uncertainties.correlation_matrix(list(h2_numbers(correlated=True).values()))
    assert (matrix[0, 1], matrix[0, 2], matrix[1, 2]) == pytest.approx(
        (-0.355, 0.858, -0.645), abs=5e-4
    )


# Table H.3: R 127.732, u 0.071; X 219.847, u 0.295; Z 254.260, u 0.236 Ω. The whole digits give
# u(X) = 0.2956, printed there as 0.295: hence a tolerance of 0.001
H3 = [(127.732, 0.071), (219.847, 0.295), (254.260, 0.236)]


def test_h2_results_and_their_uncertainties() -> None:
    for result, (value, u) in zip(h2_results(correlated=True), H3, strict=True):
        assert result.nominal_value == pytest.approx(value, abs=6e-4)
        assert result.std_dev == pytest.approx(u, abs=1e-3)


def test_h2_results_are_correlated() -> None:
    # Table H.3: r(R,X) −0.588, r(R,Z) −0.485, r(X,Z) 0.993
    matrix = uncertainties.correlation_matrix(h2_results(correlated=True))
    assert (matrix[0, 1], matrix[0, 2], matrix[1, 2]) == pytest.approx(
        (-0.588, -0.485, 0.993), abs=6e-4
    )


def test_h2_without_correlations_is_wrong() -> None:
    # what comes out when the three are taken for independent (by GTC): 0.1945, 0.2009, 0.2041
    sizes = [result.std_dev for result in h2_results(correlated=False)]
    assert sizes == pytest.approx([0.1945, 0.2009, 0.2041], abs=1e-4)


def test_gauge_block_drawn_has_u_36() -> None:
    # JCGM 101 9.5: the same block drawn gives 838 nm beyond 50 mm with u = 36 nm (from memory).
    # Its δα and δθ have soft shoulders, which here are rectangles of the same standard deviation;
    # plain numpy with the shoulders, 4·10⁶ draws: u 35.82, 99 % from 744.3 to 931.6 nm
    from benchlog.derive.cross_check import draw_figure
    from benchlog.measure.monte_carlo import Draws, interval
    from tests.derive.drawn_models import fresh, repeats

    comparison = repeats("repeats", 215.0, 6.0, 24) + repeats("d1", 0.0, 4.0, 5)
    numbers = gauge_block_numbers() | {
        "l_s": repeats("l_s", 50_000_623.0, 25.0, 18),
        "d": comparison + repeats("d2", 0.0, 7.0, 8),
        "d_alpha": _shouldered("d_alpha", 1e-6, 0.1e-6),
        "d_theta": _shouldered("d_theta", 0.05, 0.025),
    }
    figure, inputs = worked(gauge_block, numbers)
    drawn = draw_figure(figure, gauge_block, fresh(inputs), Draws(1_000_000)) - 50_000_000
    assert (round(drawn.mean()), round(drawn.std())) == (838, 36)
    assert interval(drawn, 0.99) == pytest.approx((744.3, 931.6), abs=1.5)


def _shouldered(name: str, half: float, shoulder: float) -> Any:
    """A rectangle with the variance of one whose ends are unsure (JCGM 101 6.4.3.4)."""
    wide = math.sqrt(half**2 + shoulder**2 / 3)
    return rectangular(name, -wide, wide)
