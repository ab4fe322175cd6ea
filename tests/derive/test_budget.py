"""The uncertainty budget of a figure."""

import pytest
from uncertainties import ufloat

from benchlog.derive.sum_shown import budget, budget_of_number
from benchlog.measure.finding import Finding
from benchlog.measure.state import State
from benchlog.measure.units import registry
from tests.derive.found import ALPHA, figures, number, u

# Computed with uncertainties 3.2.3 and by Monte Carlo, JCGM 100, 5.1.2 (invented strip):
# u = 0.604068 g/m², shares m 0.142, L 0.704, W 0.154.
STRIP = {
    finding.attribute: finding
    for finding in (
        number("media_length", 48.0, "inch", 0.144338),
        number("media_width", 4.10, "inch", 0.005774),
        number("media_mass", 21.4, "gram", 0.028868),
        number("media_thickness", 0.64, "millimeter", 0.007303),
    )
}


def test_grammage_shares_come_out():
    shares = budget(figures(*STRIP.values())["basis_weight"])
    assert [share.source for share in shares] == ["media_length", "media_width", "media_mass"]
    found = [share.share for share in shares]
    assert found == pytest.approx([0.704, 0.154, 0.142], abs=5e-4)


def test_shares_make_up_the_whole():
    figure = figures(*STRIP.values())["sheet_density"]
    shares = budget(figure)
    assert sum(share.share for share in shares) == pytest.approx(1.0)
    total = sum(share.contribution**2 for share in shares) ** 0.5
    assert total == pytest.approx(u(figure, figure.kind.unit))


def test_shared_instrument_is_named_by_its_inputs():
    zero = ufloat(0.0, 0.05, tag="instrument/calliper")
    made = {
        key: Finding(key, "a", State.MEASURED, quantity=registry().Quantity(size + zero, "mm"))
        for key, size in (("media_width", 104.0), ("media_hidden", 2.5))
    }
    findings = {**STRIP, **made}
    shares = budget(figures(*findings.values(), specimen=ALPHA)["exposed_area"])
    # One zero error in both widths cancels in their difference (JCGM 100, F.1.2.3).
    assert [share.source for share in shares] == ["media_length"]
    whole = budget(figures(*findings.values())["whole_area"])
    assert {share.source for share in whole} == {"media_length", "media_width"}


def test_one_error_behind_two_inputs_is_one_share():
    zero = ufloat(0.0, 0.1, tag="instrument/gauge")
    findings = {
        key: Finding(key, "a", State.MEASURED, quantity=registry().Quantity(size + zero, "mm"))
        for key, size in (("media_length", 1200.0), ("media_width", 62.0))
    }
    (share,) = budget(figures(*findings.values())["whole_area"])
    assert share.source == "media_length + media_width"
    assert share.share == pytest.approx(1.0)
    assert share.contribution == pytest.approx((1200 + 62) * 0.1 / 100)


def test_scatter_and_step_of_one_reading_are_one_share():
    length = 1200 + ufloat(0.0, 3.0, "repeats") + ufloat(0.0, 4.0, "resolution")
    made = Finding(
        "media_length", "a", State.MEASURED, quantity=registry().Quantity(length, "millimeter")
    )
    findings = {"media_length": made, "pleat_count": number("pleat_count", 50, "count")}
    (share,) = budget(figures(*findings.values())["pleat_depth"])
    assert share.source == "media_length"
    assert share.contribution == pytest.approx(5.0 / 100)


def test_source_that_no_term_knows_goes_by_its_tag():
    number = 50 + ufloat(0, 1, "tally")
    (source,) = budget_of_number(number, "count", ()).sources
    assert (source.source, source.inputs, source.share) == ("tally", (), 1.0)


def test_exact_or_refused_figure_has_no_budget():
    exact = figures(number("media_length", 100, "mm"), number("pleat_count", 50, "count"))
    assert budget(exact["pleat_depth"]) == ()
    assert budget(exact["whole_area"]) == ()
