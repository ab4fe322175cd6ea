"""What holds for the figures of thread, can, valves, springs and tube, whatever the readings."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.derive import bypass, can, spring, spring_wire, thread, thread_basic, tube
from benchlog.derive.inputs import Common, Inputs
from benchlog.derive.working import again, from_si, work
from benchlog.measure.units import registry, si_unit
from benchlog.trade.conditions import usual_conditions
from tests.derive.found import ALPHA, figures, number, u, value, word

NUMBERS = tuple(
    (kind, formula)
    for module in (bypass, can, spring, spring_wire, thread, thread_basic, tube)
    for kind, formula in module.FIGURES
    if kind.unit
)

EACH = pytest.mark.parametrize(("kind", "formula"), NUMBERS, ids=lambda x: getattr(x, "key", None))

UNITS = {
    "outlet_bore": ("millimeter", "inch"),
    "thread_pitch": ("millimeter", "thou"),
    "full_threads": ("count", "count"),
    "can_diameter": ("millimeter", "inch"),
    "can_wall": ("millimeter", "thou"),
    "can_inside": ("millimeter", "inch"),
    "bypass_force": ("newton", "kgf"),
    "bypass_seat": ("millimeter", "inch"),
    "spring_free_length": ("millimeter", "inch"),
    "spring_height": ("millimeter", "inch"),
    "spring_load": ("newton", "lbf"),
    "spring_second_length": ("millimeter", "inch"),
    "spring_second_load": ("newton", "gf"),
    "spring_wire": ("millimeter", "inch"),
    "spring_coil": ("millimeter", "inch"),
    "spring_active_coils": ("turn", "turn"),
    "tube_hole_count": ("count", "count"),
    "tube_hole_diameter": ("millimeter", "inch"),
}


@st.composite
def benches(draw):
    """Sizes that make sense together, each with a standard uncertainty of 0.1 to 2 %."""

    def within(low, high):
        return draw(st.floats(low, high))

    sizes = {
        "outlet_bore": within(15, 40),
        "thread_pitch": within(1, 3),
        "full_threads": within(2, 12),
        "can_diameter": within(55, 120),
        "can_wall": within(0.2, 1.5),
        "bypass_force": within(1, 60),
        "bypass_seat": within(5, 25),
        "spring_free_length": within(30, 60),
        "spring_height": within(20, 28),
        "spring_load": within(20, 60),
        "spring_second_length": within(5, 18),
        "spring_second_load": within(70, 160),
        "spring_wire": within(0.6, 3),
        "spring_coil": within(10, 50),
        "spring_active_coils": within(2, 10),
        "tube_hole_count": within(20, 300),
        "tube_hole_diameter": within(1, 8),
    }
    sizes["can_inside"] = sizes["can_diameter"] - 2 * within(0.2, 1.5)
    share = draw(st.floats(1e-3, 0.02))
    return {key: (size, size * share) for key, size in sizes.items()}


THREAD = word("thread_code", "M20x1.5")

FACTORS = {
    key: [number(key, 1.0, units[0]).quantity.to(unit).magnitude for unit in units]
    for key, units in UNITS.items()
}

SIZES = {
    "outlet_bore": 18.5, "thread_pitch": 1.5, "full_threads": 5, "can_diameter": 76.2,
    "can_wall": 0.38, "can_inside": 75.4, "bypass_force": 10, "bypass_seat": 12,
    "spring_free_length": 30, "spring_height": 20, "spring_load": 30,
    "spring_second_length": 16, "spring_second_load": 43, "spring_wire": 1,
    "spring_coil": 16, "spring_active_coils": 5, "tube_hole_count": 96,
    "tube_hole_diameter": 3,
}  # fmt: skip
"""One bench, invented, in the first of the units."""

FEW = settings(max_examples=15)
"""Each of these goes over every figure, so few benches see enough."""


def worked(bench, side=0):
    findings = [THREAD]
    for key, (size, du) in bench.items():
        factor = FACTORS[key][side]
        findings.append(number(key, size * factor, UNITS[key][side], du * factor))
    return figures(*findings)


def inputs_of(bench):
    findings = {k: number(k, v, UNITS[k][0], du) for k, (v, du) in bench.items()}
    return Inputs({**findings, "thread_code": THREAD}, ALPHA, usual_conditions(), Common())


@FEW
@given(benches())
def test_every_one_is_worked_in_either_units(bench):
    ours, theirs = worked(bench), worked(bench, 1)
    for kind, _ in NUMBERS:
        one, other = ours[kind.key], theirs[kind.key]
        assert one.refusal == other.refusal == ""
        assert value(other, kind.unit) == pytest.approx(value(one, kind.unit))
        assert u(other, kind.unit) == pytest.approx(u(one, kind.unit))
        if kind.bounded:
            assert (other.low, other.high) == pytest.approx((one.low, one.high))
            assert one.low < value(one, kind.unit) < one.high
    for key in ("thread_candidates", "bypass_agreement", "tube_ample"):
        assert ours[key].word == theirs[key].word


@EACH
@FEW
@given(benches())
def test_slopes_are_those_of_finite_differences(kind, formula, bench):
    inputs = inputs_of(bench)
    figure = work(kind, formula, inputs)
    for term in figure.terms:
        best = inputs.best(term.key)
        step = 1e-6 * (abs(best) or 1.0)
        ends = [again(formula, inputs, **{term.key: best + way * step}) for way in (1, -1)]
        wanted = (ends[0] - ends[1]) / (2 * step) * from_si(kind.unit)
        assert term.sensitivity == pytest.approx(wanted, rel=1e-4, abs=1e-6 * abs(wanted) + 1e-9)


@EACH
def test_dimensions_come_out(kind, formula):
    inputs = inputs_of({key: (size, 0.0) for key, size in SIZES.items()})
    plain = formula(inputs)
    bare = {"turn": "dimensionless", "count": "dimensionless"}
    given = {
        key: registry().Quantity(inputs.best(key), bare.get(used.unit, used.unit))
        for key, used in inputs.used.items()
    }
    found = again(formula, inputs, **given)
    assert found.to(si_unit(kind.unit)).magnitude == pytest.approx(plain)


@EACH
@FEW
@given(bench=benches(), factor=st.floats(1.1, 4))
def test_wider_readings_widen_every_figure(kind, formula, bench, factor):
    narrow = work(kind, formula, inputs_of(bench))
    wide = work(kind, formula, inputs_of({k: (v, factor * du) for k, (v, du) in bench.items()}))
    before, after = u(narrow, kind.unit), u(wide, kind.unit)
    if kind in (thread_basic.BASIC_MAJOR, thread_basic.BASIC_PITCH, thread_basic.BASIC_MINOR):
        assert before == after == 0.0  # exact by definition
    elif any(term.assumed and hasattr(term.number, "std_dev") for term in narrow.terms):
        assert before < after < factor * before * (1 + 1e-9)
    else:
        assert after == pytest.approx(factor * before)


UP = {
    "can_hoop_stress": ("can_diameter",),
    "can_yield_pressure": ("can_wall",),
    "can_wall_from_diameters": ("can_diameter",),
    "bypass_opening": ("bypass_force",),
    "spring_rate_from_wire": ("spring_wire",),
    "tube_area_from_holes": ("tube_hole_count", "tube_hole_diameter"),
    "tube_to_outlet": ("tube_hole_diameter",),
    "thread_major_implied": ("outlet_bore", "thread_pitch"),
    "thread_engagement_share": ("full_threads", "thread_pitch"),
}
DOWN = {
    "can_hoop_stress": ("can_wall",),
    "can_yield_pressure": ("can_diameter",),
    "can_wall_from_diameters": ("can_inside",),
    "bypass_opening": ("bypass_seat",),
    "spring_rate_from_wire": ("spring_coil", "spring_active_coils"),
    "tube_to_outlet": ("outlet_bore",),
}


FORMULAS = {kind.key: formula for kind, formula in NUMBERS}


@given(benches(), st.floats(1.001, 1.01))
def test_more_of_an_input_moves_one_way(bench, factor):
    inputs = inputs_of(bench)
    for keys, way in ((UP, 1), (DOWN, -1)):
        for figure_key, moved in keys.items():
            formula = FORMULAS[figure_key]
            before = formula(inputs)
            for key in moved:
                by = factor if key != "can_inside" else 1 + (factor - 1) / 1000
                after = again(formula, inputs, **{key: inputs.best(key) * by})
                assert way * (after - before) > 0


@EACH
def test_arrays_are_worked_element_by_element(kind, formula):
    bench = {key: (size, 0.0) for key, size in SIZES.items()}
    inputs = inputs_of(bench)
    formula(inputs)
    factors = np.array([0.999, 1.0, 1.001])
    for key in tuple(inputs.used):
        best = inputs.best(key)
        together = again(formula, inputs, **{key: best * factors})
        apart = [again(formula, inputs, **{key: best * factor}) for factor in factors]
        assert together == pytest.approx(np.array(apart), rel=1e-12)
