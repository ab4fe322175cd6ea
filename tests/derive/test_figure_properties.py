"""What holds for every figure, whatever the readings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.derive.all_figures import FIGURE_KINDS
from benchlog.measure.units import same_dimension
from benchlog.trade.sequence_file import load_sequence
from tests.derive.found import figures, number, u, value

sizes = st.floats(0.5, 5000)
small = st.floats(1e-3, 0.02)

INPUTS = {
    "media_length": ("millimeter", "inch"),
    "media_width": ("millimeter", "inch"),
    "media_hidden": ("millimeter", "inch"),
    "media_mass": ("gram", "ounce"),
    "media_thickness": ("millimeter", "thou"),
    "outlet_bore": ("millimeter", "inch"),
    "inlet_hole_diameter": ("millimeter", "inch"),
    "thread_pitch": ("millimeter", "inch"),
    "inlet_hole_count": ("count", "count"),
    "full_threads": ("count", "count"),
    "pleat_count": ("count", "count"),
}


@st.composite
def benches(draw):
    """A size with its standard uncertainty for every input; less is hidden than there is."""
    bench = {}
    for key in INPUTS:
        size = draw(sizes)
        if key == "media_hidden":
            size = bench["media_width"][0] * draw(st.floats(0.01, 0.5))
        bench[key] = (size, size * draw(small))
    return bench


STRIP_AND_HOLES = {
    "exposed_area",
    "whole_area",
    "basis_weight",
    "sheet_density",
    "pleat_depth",
    "thread_engagement",
    "inlet_area",
    "outlet_area",
    "inlet_to_outlet",
    "area_per_price",
}
"""What the readings of this bench are always enough for."""


def worked(found):
    """The figures that are numbers: some want readings that this bench has not."""
    return {key: figure for key, figure in found.items() if figure.quantity is not None}


def metric(bench):
    return figures(*(number(k, v, INPUTS[k][0], du) for k, (v, du) in bench.items()))


def in_other_units(bench):
    findings = []
    for key, (size, du) in bench.items():
        plain = number(key, size, INPUTS[key][0]).quantity.to(INPUTS[key][1])
        share = du / size
        findings.append(number(key, plain.magnitude, INPUTS[key][1], plain.magnitude * share))
    return figures(*findings)


@given(benches())
def test_units_of_the_readings_change_nothing(bench):
    ours, theirs = metric(bench), in_other_units(bench)
    assert worked(ours).keys() == worked(theirs).keys() >= STRIP_AND_HOLES
    for key, figure in worked(ours).items():
        unit = figure.kind.unit
        assert value(figure, unit) == pytest.approx(value(theirs[key], unit))
        assert u(figure, unit) == pytest.approx(u(theirs[key], unit))


@given(benches())
def test_every_figure_carries_uncertainty(bench):
    for figure in worked(metric(bench)).values():
        if figure.readings:
            assert u(figure, figure.kind.unit) > 0


@given(benches(), st.floats(1.01, 3))
def test_longer_strip_scales_area_and_depth(bench, factor):
    length, du = bench["media_length"]
    short, long = metric(bench), metric({**bench, "media_length": (length * factor, du)})
    for key, unit in (("exposed_area", "cm**2"), ("whole_area", "cm**2"), ("pleat_depth", "mm")):
        assert value(long[key], unit) == pytest.approx(factor * value(short[key], unit))
    assert value(long["basis_weight"], "g/m**2") == pytest.approx(
        value(short["basis_weight"], "g/m**2") / factor
    )


@given(benches(), st.floats(0.1, 0.9))
def test_areas_of_two_lengths_add_up(bench, part):
    length, du = bench["media_length"]
    whole = metric(bench)
    pieces = [metric({**bench, "media_length": (length * s, du)}) for s in (part, 1 - part)]
    for key in ("exposed_area", "whole_area"):
        total = sum(value(piece[key], "cm**2") for piece in pieces)
        assert total == pytest.approx(value(whole[key], "cm**2"))


@given(benches())
def test_less_is_exposed_than_there_is(bench):
    found = metric(bench)
    assert value(found["exposed_area"], "cm**2") < value(found["whole_area"], "cm**2")


@given(benches(), st.floats(1.1, 4))
def test_wider_inputs_widen_every_figure(bench, factor):
    narrow = metric(bench)
    wide = metric({key: (size, du * factor) for key, (size, du) in bench.items()})
    for key, figure in worked(narrow).items():
        unit = figure.kind.unit
        before, after = u(figure, unit), u(wide[key], unit)
        if any(term.assumed and hasattr(term.number, "std_dev") for term in figure.terms):
            # What is assumed, such as the half turn of a count by hand, stays what it is.
            assert before <= after < factor * before or before == after == 0
        else:
            assert after == pytest.approx(factor * before)


def test_kinds_are_told_apart_and_whole():
    asked = {a.key for s in ("spin_on", "cartridge") for a in load_sequence(s).attributes}
    assert len({kind.key for kind in FIGURE_KINDS}) == len(FIGURE_KINDS)
    for kind in FIGURE_KINDS:
        assert kind.key not in asked
        assert set(kind.inputs) <= asked
        assert set(kind.comparable_when) <= asked | {"contact_pressure", "currency"}
        assert same_dimension(kind.unit, kind.inch_unit)
        assert kind.label
        assert kind.formula
        assert kind.source
