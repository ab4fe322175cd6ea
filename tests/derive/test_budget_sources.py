"""The whole budget: terms with their slopes, independent sources, coverage."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import correlated_values_norm, ufloat, umath

from benchlog.derive.figure import Term
from benchlog.derive.sum_shown import budget_of, budget_of_finding, budget_of_number, in_unit
from benchlog.measure.finding import Finding
from benchlog.measure.part import Part, Spread, variable
from benchlog.measure.state import State
from benchlog.measure.units import registry
from tests.derive.found import figures, number, word

# JCGM 100 Tables H.2 to H.4: means, standard uncertainties and correlations of V (V), I (A) and
# phi (rad), and the resistance R = V cos(phi) / I with its combined standard uncertainty.
MEANS = (4.9990, 0.0196610, 1.04446)
SIZES = (0.0032094, 0.0000094710, 0.00075206)
CORRELATIONS = ((1.0, -0.3553, 0.8576), (-0.3553, 1.0, -0.6451), (0.8576, -0.6451, 1.0))


def resistance():
    """R of H.2 and its three terms, slopes by hand."""
    volts, amps, phase = correlated_values_norm(
        list(zip(MEANS, SIZES, strict=True)), [list(row) for row in CORRELATIONS]
    )
    v, i, phi = MEANS
    terms = (
        Term("volts", volts, "volt", math.cos(phi) / i),
        Term("amps", amps, "ampere", -v * math.cos(phi) / i**2),
        Term("phase", phase, "radian", -v * math.sin(phi) / i),
    )
    return volts * umath.cos(phase) / amps, terms


def test_correlated_inputs_make_the_published_uncertainty():
    found = budget_of_number(*_with_unit(resistance()))
    assert found.value == pytest.approx(127.732, abs=5e-4)
    assert found.u == pytest.approx(0.071, abs=5e-4)
    assert sum(source.share for source in found.sources) == pytest.approx(1.0)
    assert all(source.inputs == ("volts", "amps", "phase") for source in found.shared)


def test_terms_alone_would_overstate_what_correlation_cancels():
    found = budget_of_number(*_with_unit(resistance()))
    # H.2.4 warns of it; 0.1945 was computed with the correlations dropped (numpy).
    assert math.hypot(*(term.contribution for term in found.terms)) == pytest.approx(
        0.1945, abs=2e-4
    )
    assert math.hypot(*(source.contribution for source in found.sources)) == pytest.approx(found.u)
    assert all(term.share == 0.0 for term in found.terms)


def test_end_gauge_budget_is_the_published_one():
    # JCGM 100 H.1, Table H.1: contributions 25, 9.7 (of 5.8, 3.9, 6.7), 2.9 and 16.6 nm with 18,
    # 25.6 (of 24, 5, 8), 50 and 2 degrees of freedom; u = 32 nm with 16 of them.
    length, alpha, theta = 50_000_623.0, 11.5e-6, -0.1
    standard = length + variable(25.0, Part("standard", freedom=18))
    parts = ((5.8, 24), (3.9, 5), (6.7, 8))
    difference = 215.0 + sum(
        variable(size, Part(f"difference {size}", freedom=nu)) for size, nu in parts
    )
    expansion = variable(1e-6 / math.sqrt(3), Part("expansion", Spread.RECTANGULAR, 50))
    warmth = variable(0.05 / math.sqrt(3), Part("warmth", Spread.RECTANGULAR, 2))
    terms = (
        Term("standard", standard, "nanometer", 1.0),
        Term("difference", difference, "nanometer", 1.0),
        Term("expansion", expansion, "1/kelvin", -length * theta),
        Term("warmth", warmth, "kelvin", -length * alpha),
    )
    made = standard + difference - length * (expansion * theta + alpha * warmth)
    found = budget_of_number(made, "nanometer", terms)
    sizes = [term.contribution for term in found.terms]
    assert sizes == pytest.approx([25.0, 9.7, 2.9, 16.6], abs=0.05)
    # Printed 25.6 comes of the rounded 9.7; from 5.8, 3.9 and 6.7 themselves it is 25.45.
    assert found.terms[1].freedom == pytest.approx(25.6, abs=0.2)
    assert found.u == pytest.approx(31.66, abs=0.01)
    assert math.floor(found.freedom) == 16
    # Table G.2: t for 95 % and 16 degrees of freedom is 2.12.
    assert found.factor == pytest.approx(2.12, abs=5e-3)
    assert [s.inputs for s in found.sources][:2] == [("standard",), ("warmth",)]


def _with_unit(made):
    return made[0], "ohm", made[1]


def widths(error: float, scatter: float):
    """A full and a hidden width that share a calliper, the first with a scatter of its own."""
    zero = variable(error, Part("instrument/calliper", Spread.RECTANGULAR))
    own = variable(scatter, Part("media_width/a/repeats", Spread.REPEATS, 4))
    made = {
        "media_width": 104.0 + zero + own,
        "media_hidden": 2.5 + zero,
        "media_length": 1200.0 + ufloat(0, 3),
    }
    return [
        Finding(key, "a", State.MEASURED, quantity=registry().Quantity(size, "millimeter"))
        for key, size in made.items()
    ]


def test_shared_error_that_cancels_is_shown_as_such():
    found = budget_of(figures(*widths(0.05, 0.02))["exposed_area"])
    (zero,) = found.shared
    assert zero.source == "media_width + media_hidden"
    assert (zero.contribution, zero.share, zero.cancels) == (0.0, 0.0, True)
    assert zero.apart == pytest.approx(math.sqrt(2) * 1200 * 0.05 / 100)
    assert sum(source.share for source in found.sources) == pytest.approx(1.0)


def test_shared_error_that_adds_up_is_no_cancelling():
    found = budget_of(figures(*widths(0.05, 0.02))["whole_area"])
    assert not any(source.cancels for source in found.sources)
    zero = variable(0.1, Part("instrument/tape", Spread.RECTANGULAR))
    terms = [Term(key, 10 + zero, "millimeter", 1.0) for key in ("one", "other")]
    (source,) = budget_of_number(terms[0].number + terms[1].number, "millimeter", terms).sources
    assert source.contribution == pytest.approx(0.2) != source.apart
    assert not source.cancels


def test_term_tells_value_slope_and_degrees_of_freedom():
    found = budget_of(figures(*widths(0.05, 0.02))["exposed_area"])
    row = next(term for term in found.terms if term.key == "media_width")
    assert (row.value, row.unit, row.said_in) == (pytest.approx(0.104), "meter", "millimeter")
    # A = L (W - h), so that dA/dW is L: 1.2 m is 12000 cm² for one metre of width.
    assert row.sensitivity == pytest.approx(12_000)
    assert row.contribution == pytest.approx(12_000 * math.hypot(0.05, 0.02) / 1000)
    assert row.freedom == pytest.approx(4 * (0.05**2 + 0.02**2) ** 2 / 0.02**4)
    assert row.spread is None
    seen = in_unit(row, "millimeter")
    assert (seen.value, seen.sensitivity) == (pytest.approx(104), pytest.approx(12))
    assert seen.u * seen.sensitivity == pytest.approx(seen.contribution)


def test_shifted_zero_moves_the_value_alone():
    number_k = variable(1.0, Part("thermometer")) + 293.15
    (row,) = budget_of_number(number_k, "kelvin", [Term("t", number_k, "kelvin", 1.0)]).terms
    seen = in_unit(row, "degree_Fahrenheit")
    # NIST SP 811 B.9: t/°F = 1.8 t/°C + 32; an interval of 1 K is one of 1.8 °F.
    assert (seen.value, seen.u) == (pytest.approx(68.0), pytest.approx(1.8))


def test_few_repeats_widen_the_expanded_uncertainty():
    mean = 0.379 + variable(0.000707, Part("wall/a/repeats", Spread.REPEATS, 4))
    finding = Finding("wall", "a", State.MEASURED, quantity=registry().Quantity(mean, "mm"))
    found = budget_of_finding(finding)
    # JCGM 100 Table G.2: t for 95 % and 4 degrees of freedom is 2.776 (2.78 as printed).
    assert (found.freedom, found.factor) == (pytest.approx(4), pytest.approx(2.776, abs=5e-4))
    assert found.expanded == pytest.approx(2.776 * 0.000707, rel=1e-3)
    (source,) = found.sources
    assert (source.spread, source.freedom, source.share) == (Spread.REPEATS, 4, 1.0)


def test_word_state_and_refusal_have_no_budget():
    assert budget_of_finding(word("media_kind", "cellulose")) is None
    assert budget_of(figures()["exposed_area"]) is None


def test_exact_number_has_an_empty_budget():
    found = budget_of_finding(number("pleat_count", 52, "count"))
    assert (found.u, found.expanded, found.sources) == (0.0, 0.0, ())
    assert math.isinf(found.freedom)


@given(
    st.lists(st.floats(1e-3, 1e3), min_size=1, max_size=5),
    st.lists(st.floats(-50, 50), min_size=5, max_size=5),
    st.floats(1e-3, 10),
)
def test_shares_always_make_up_the_whole(sizes, slopes, common):
    shared = variable(common, Part("instrument/x"))
    terms = [
        Term(f"x{n}", 1 + variable(size, Part(f"own{n}")) + shared, "mm", slopes[n])
        for n, size in enumerate(sizes)
    ]
    total = sum((t.sensitivity * t.number for t in terms), start=0.0 * shared)
    found = budget_of_number(total, "mm", terms)
    if any(slopes[: len(sizes)]):
        assert sum(source.share for source in found.sources) == pytest.approx(1.0)
        left = math.hypot(*(source.contribution for source in found.sources))
        assert left == pytest.approx(found.u, rel=1e-9)
    assert all(source.share <= 1.0 + 1e-12 for source in found.sources)
