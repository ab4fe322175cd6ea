"""The cross-check of the bench's own figures, and what it says."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.derive.all_figures import figures_of
from benchlog.derive.cross_check import cross_check, cross_check_of, draw_figure
from benchlog.derive.figure import Figure
from benchlog.derive.inputs import Inputs
from benchlog.derive.number import square_root
from benchlog.measure.coverage import t_factor
from benchlog.measure.finding import Finding
from benchlog.measure.monte_carlo import Draws
from benchlog.measure.state import State
from benchlog.measure.units import registry
from tests.derive.drawn_models import fresh, normal, rectangular, repeats, worked
from tests.derive.found import ALPHA, number, without

DRAWS = Draws(400_000, seed=5)


def found(key: str, magnitude: Any, unit: str) -> Finding:
    return replace(number(key, 0.0, unit), quantity=registry().Quantity(magnitude, unit))


def strip(thickness: Any) -> dict[str, Finding]:
    """48.0 × 4.10 in, 0.10 in of it hidden, 21.4 g; all uncertainties normal (invented)."""
    findings = (
        found("media_length", normal("L", 48.0, 0.144338), "inch"),
        found("media_width", normal("W", 4.10, 0.005774), "inch"),
        number("media_hidden", 0.10, "inch"),
        found("media_mass", normal("m", 21.4, 0.028868), "gram"),
        found("media_thickness", thickness, "millimeter"),
        number("pleat_count", 52, "count"),
    )
    return {finding.attribute: finding for finding in findings}


@pytest.fixture(scope="module")
def findings() -> dict[str, Finding]:
    return strip(normal("t", 0.64, 0.007303))


@pytest.fixture(scope="module")
def figures(findings: dict[str, Finding]) -> dict[str, Figure]:
    return figures_of(findings, ALPHA)


# Drawn with 4·10⁶ trials of plain numpy for the same strip: 95 % intervals and u by first order
DRAWN = [
    ("basis_weight", (167.37, 169.74), 0.604068),
    ("sheet_density", (0.25731, 0.26966), 3.149851e-3),
]


@pytest.mark.parametrize(("key", "ends", "u"), DRAWN)
def test_strip_agrees_with_plain_draws(
    figures: dict[str, Figure],
    findings: dict[str, Finding],
    key: str,
    ends: tuple[float, float],
    u: float,
) -> None:
    check = cross_check_of(figures[key], findings, ALPHA, draws=DRAWS)
    assert check is not None
    assert (check.low, check.high) == pytest.approx(ends, abs=0.01 * u)
    assert check.u == pytest.approx(u, rel=0.01)
    assert check.trials == 400_000
    assert check.lost == 0


def test_every_unsure_figure_is_checked(
    figures: dict[str, Figure], findings: dict[str, Finding]
) -> None:
    draws, seen = Draws(20_000), 0
    for figure in figures.values():
        check = cross_check_of(figure, findings, ALPHA, draws=draws)
        unsure = figure.quantity is not None and hasattr(figure.quantity.magnitude, "std_dev")
        assert (check is not None) is unsure
        seen += unsure
    assert seen >= 5


def test_figures_of_one_strip_are_drawn_together(
    figures: dict[str, Figure], findings: dict[str, Finding]
) -> None:
    # the correlation of basis weight and density by first order: 0.2997
    from benchlog.derive.all_figures import FORMULAS
    from benchlog.derive.inputs import Common
    from benchlog.trade.conditions import usual_conditions

    formulas = {kind.key: formula for kind, formula in FORMULAS}
    weight, density = (
        draw_figure(
            figures[key],
            formulas[key],
            Inputs(findings, ALPHA, usual_conditions(), Common()),
            DRAWS,
        )
        for key in ("basis_weight", "sheet_density")
    )
    assert numpy.corrcoef(weight, density)[0, 1] == pytest.approx(0.2997, abs=0.01)


def test_refusals_and_exact_figures_have_no_check() -> None:
    findings = {f.attribute: f for f in (without("media_length", State.SPOILED),)}
    area = figures_of(findings, ALPHA)["exposed_area"]
    assert cross_check_of(area, findings, ALPHA, draws=Draws(10)) is None
    exact, inputs = worked(identity, {"x": 3.0})
    assert cross_check(exact, identity, fresh(inputs), Draws(10)) is None


def identity(inputs: Inputs) -> Any:
    return inputs.number("x")


def test_few_repeats_agree_by_their_t() -> None:
    for freedom in (1, 2, 4):
        figure, inputs = worked(identity, {"x": repeats("x", 5.0, 0.3, freedom)})
        check = cross_check(figure, identity, fresh(inputs), DRAWS)
        assert check is not None
        assert check.high == pytest.approx(5.0 + 0.3 * t_factor(freedom), rel=0.02)
        assert check.agrees or freedom == 1
        assert (check.mean is None, check.u is None) == (freedom < 2, freedom < 3)


def test_single_rectangle_is_shown_too_wide() -> None:
    # by hand: first order 1.959964/√3 = 1.1316, drawn 0.95; δ = 0.05 for u = 0.577
    figure, inputs = worked(identity, {"x": rectangular("x", 9.0, 11.0)}, unit="percent")
    check = cross_check(figure, identity, fresh(inputs), DRAWS)
    assert check is not None
    assert (check.low, check.high) == pytest.approx((905, 1095), abs=0.5)
    assert check.tolerance == pytest.approx(5.0)
    assert check.words == (
        f"95 % of the draws lie from {check.low:.1f} to {check.high:.1f} %; the interval shown is "
        "18 % too wide at the lower end and 18 % too wide at the upper end. Most of it comes from "
        "one input with hard limits, which has no tails."
    )


def test_few_repeats_among_others_are_named() -> None:
    # u 0.3 of one degree of freedom beside 0.9: drawn wider than Welch and Satterthwaite have it
    numbers = {"x": repeats("x", 5.0, 0.3, 1) + normal("y", 0.0, 0.9)}
    figure, inputs = worked(identity, numbers)
    check = cross_check(figure, identity, fresh(inputs), DRAWS)
    assert check is not None
    assert not check.agrees
    assert check.words.endswith(
        "too narrow at the upper end. Few repeats stand behind it; more of them bring the two "
        "together."
    )


def test_many_inputs_agree() -> None:
    numbers = {f"x{n}": rectangular(f"x{n}", 0.0, 1.0) for n in range(12)}

    def model(inputs: Inputs) -> Any:
        return sum(inputs.number(key) for key in numbers)

    figure, inputs = worked(model, numbers)
    check = cross_check(figure, model, fresh(inputs), DRAWS)
    assert check is not None
    assert check.agrees
    assert check.words.endswith("the interval shown agrees within 0.5.")


def test_bounded_estimate_may_be_wider_but_not_narrower() -> None:
    numbers = {"x": rectangular("x", 9.0, 11.0)}
    figure, inputs = worked(identity, numbers, bounded=True)
    wide, narrow = (replace(figure, low=10 - h, high=10 + h) for h in (3.0, 0.5))
    for shown, agrees, said in ((wide, True, "holds them"), (narrow, False, "too narrow at the")):
        check = cross_check(shown, identity, fresh(inputs), DRAWS)
        assert check is not None
        assert check.agrees is agrees
        assert said in check.words


def root(inputs: Inputs) -> Any:
    return square_root(inputs.number("x"))


def test_draws_without_a_value_are_owned_up_to() -> None:
    # P(x < 0) for N(1, 0.5) is 2.275 % (normal table at 2)
    figure, inputs = worked(root, {"x": normal("x", 1.0, 0.5)})
    check = cross_check(figure, root, fresh(inputs), DRAWS)
    assert check is not None
    assert not check.agrees
    assert check.lost / check.trials == pytest.approx(0.02275, abs=0.001)
    assert check.words.startswith("In 2.3 % of 400000 draws the formula has no value")


def test_too_few_draws_ask_for_more() -> None:
    figure, inputs = worked(identity, {"x": normal("x", 1.0, 0.095)})
    check = cross_check(figure, identity, fresh(inputs), Draws(400), digits=2)
    assert check is not None
    assert check.noise > check.tolerance / 5
    assert check.words.endswith("draw more.")


@settings(max_examples=30, deadline=None)
@given(
    st.floats(-1e3, 1e3),
    st.floats(1e-3, 1e2),
    st.lists(st.floats(0.2, 5.0), min_size=1, max_size=4),
)
def test_sums_of_normals_always_agree(middle: float, u: float, slopes: list[float]) -> None:
    numbers = {f"x{n}": normal(f"x{n}", middle, u) for n in range(len(slopes))}

    def model(inputs: Inputs) -> Any:
        return sum(slope * inputs.number(key) for slope, key in zip(slopes, numbers, strict=True))

    figure, inputs = worked(model, numbers)
    check = cross_check(figure, model, fresh(inputs), Draws(40_000))
    assert check is not None
    assert check.agrees
