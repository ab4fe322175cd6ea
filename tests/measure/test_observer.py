"""From readings to a finding. Rules: JCGM 100; the readings are invented."""

from __future__ import annotations

import math
from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchlog.errors import OurFault
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.observe import Observer
from benchlog.measure.quantities import uncertainty_in, value_in
from benchlog.measure.reading import Reading
from benchlog.measure.state import State

Read = Callable[..., Reading]
ROOT_3, ROOT_12 = math.sqrt(3), math.sqrt(12)


def seen(finding: Finding, unit: str) -> tuple[float, float]:
    assert finding.quantity is not None
    return value_in(finding.quantity, unit), uncertainty_in(finding.quantity, unit)


def test_no_reading_is_not_measured() -> None:
    finding = Observer(()).observe("thing", "a", [], "millimeter")
    assert finding == Finding("thing", "a", State.NOT_MEASURED)


def test_single_reading_steps_by_its_last_digit(read: Read) -> None:
    finding = Observer(()).observe("thing", "a", [read("287.4 g", "gram", "mass")], "gram")
    assert seen(finding, "gram") == (287.4, pytest.approx(0.1 / ROOT_12))
    assert (finding.state, finding.low, finding.high) == (State.MEASURED, None, None)


def test_trailing_nought_makes_it_finer(read: Read) -> None:
    finding = Observer(()).observe("thing", "a", [read("287.40 g", "gram", "mass")], "gram")
    assert seen(finding, "gram")[1] == pytest.approx(0.01 / ROOT_12)


def test_sixteenths_step_by_a_sixteenth(read: Read) -> None:
    finding = Observer(()).observe("thing", "a", [read('3 7/16"')], "millimeter")
    assert seen(finding, "inch") == (pytest.approx(3.4375), pytest.approx(0.0625 / ROOT_12))


def test_instrument_gives_resolution_and_permissible_error(
    read: Read, calliper: Instrument
) -> None:
    finding = Observer([calliper]).observe("thing", "a", [read("12", instrument="cal")], "inch")
    # JCGM 100 F.2.2.1 and 4.3.7, joined by 5.1.2: d 0.01 mm and ±0.02 mm
    assert seen(finding, "millimeter") == (
        pytest.approx(12.0),
        pytest.approx(math.hypot(0.01 / ROOT_12, 0.02 / ROOT_3)),
    )


def test_repeats_join_scatter_with_resolution(read: Read) -> None:
    texts = ["0.378", "0.381", "0.379", "0.380", "0.377"]
    finding = Observer(()).observe("thing", "a", [read(t) for t in texts], "millimeter")
    # scatter of the mean 0.00070711 (JCGM 100 4.2.3), resolution 0.001/sqrt(12)
    value, u = seen(finding, "millimeter")
    assert value == pytest.approx(0.379)
    assert u == pytest.approx(math.hypot(0.00070711, 0.001 / ROOT_12), rel=1e-5)


def test_averaging_leaves_the_resolution(read: Read) -> None:
    same = [read("0.38") for _ in range(10)]
    finding = Observer(()).observe("thing", "a", same, "millimeter")
    assert seen(finding, "millimeter") == (pytest.approx(0.38), pytest.approx(0.01 / ROOT_12))


def test_shared_instrument_cancels_in_difference(read: Read, calliper: Instrument) -> None:
    # JCGM 100 F.1.2: an error common to two readings leaves their difference
    observer = Observer([calliper])
    outer = observer.observe("outer", "a", [read("70.00", instrument="cal")], "millimeter").quantity
    inner = observer.observe("inner", "a", [read("2.400 in", instrument="cal")], "inch").quantity
    apart = uncertainty_in(outer - inner, "millimeter")
    assert apart == pytest.approx(math.sqrt(2) * 0.01 / ROOT_12)
    together = uncertainty_in(outer + inner, "millimeter")
    assert together == pytest.approx(math.hypot(apart, 2 * 0.02 / ROOT_3))


def test_two_observers_share_nothing(read: Read, calliper: Instrument) -> None:
    one, other = (
        Observer([calliper]).observe("thing", "a", [read("70", instrument="cal")], "millimeter")
        for _ in range(2)
    )
    assert uncertainty_in(one.quantity - other.quantity, "millimeter") == pytest.approx(
        math.sqrt(2) * math.hypot(0.01 / ROOT_12, 0.02 / ROOT_3)
    )


def test_finding_less_itself_is_exact(read: Read, calliper: Instrument) -> None:
    finding = Observer([calliper]).observe(
        "thing", "a", [read("70", instrument="cal")], "millimeter"
    )
    assert uncertainty_in(finding.quantity - finding.quantity, "millimeter") == 0.0


def test_two_instruments_weigh_by_their_repeats(read: Read, calliper: Instrument) -> None:
    tape = Instrument("tape", "tape", InstrumentKind.TAPE, "inch", 0.0625, 0.03)
    readings = [read("25.4", instrument=name) for name in ("cal", "cal", "cal", "tape")]
    finding = Observer([calliper, tape]).observe("thing", "a", readings, "millimeter")
    shares = (0.75 * 0.02 / ROOT_3, 0.25 * 0.03 * 25.4 / ROOT_3, 0.0625 * 25.4 / ROOT_12)
    assert seen(finding, "millimeter")[1] == pytest.approx(math.hypot(*shares))


def test_tags_tell_where_uncertainty_comes_from(read: Read, calliper: Instrument) -> None:
    readings = [read("0.38", instrument="cal"), read("0.40", instrument="cal")]
    finding = Observer([calliper]).observe("thickness", "b", readings, "millimeter")
    assert finding.quantity is not None
    parts = finding.quantity.magnitude.error_components()
    assert {variable.tag for variable, size in parts.items() if size} == {
        "thickness/b/repeats",
        "thickness/b/resolution",
        "instrument/cal",
    }


def test_instrument_of_other_dimension_is_left_out(read: Read, scale: Instrument) -> None:
    reading = read("12.3", instrument="pan")
    finding = Observer([scale]).observe("thing", "a", [reading], "millimeter")
    assert seen(finding, "millimeter")[1] == pytest.approx(0.1 / ROOT_12)


def test_unknown_instrument_is_our_fault(read: Read) -> None:
    with pytest.raises(OurFault, match="not known"):
        Observer(()).observe("thing", "a", [read("12", instrument="gone")], "millimeter")


def test_word_beside_a_number_is_left_out(read: Read) -> None:
    finding = Observer(()).observe("thing", "a", [read("2.0"), read("x", word="x")], "millimeter")
    assert seen(finding, "millimeter")[0] == 2.0
    assert finding.word is None


def test_superseded_and_withdrawn_do_not_count(read: Read) -> None:
    wrong, right = read("3.0"), read("2.0", supersedes="r1")
    scratched = read("9.0")
    gone = read("", supersedes=scratched.id, withdrawn=True)
    finding = Observer(()).observe("thing", "a", [wrong, right, scratched, gone], "millimeter")
    assert seen(finding, "millimeter")[0] == 2.0
    assert finding.readings == (right,)


def test_everything_withdrawn_is_not_measured(read: Read) -> None:
    scratched = read("9.0")
    gone = read("", supersedes=scratched.id, withdrawn=True)
    finding = Observer(()).observe("thing", "a", [scratched, gone], "millimeter")
    assert finding == Finding("thing", "a", State.NOT_MEASURED)


@pytest.mark.parametrize("state", [s for s in State if not s.has_value])
def test_state_without_value_stands(read: Read, state: State) -> None:
    first, last = read("", state=State.COULD_NOT_TELL), read("", state=state)
    finding = Observer(()).observe("thing", "a", [first, last], "millimeter")
    assert (finding.state, finding.quantity, finding.word) == (state, None, None)
    assert finding.readings == (first, last)


def test_value_outlives_a_missing_repeat(read: Read) -> None:
    readings = [read("2.0"), read("", state=State.SPOILED)]
    finding = Observer(()).observe("thing", "a", readings, "millimeter")
    assert finding.state is State.MEASURED
    assert seen(finding, "millimeter")[0] == 2.0
    assert len(finding.readings) == 2


def test_last_word_stands(read: Read) -> None:
    readings = [read("c", word="cellulose"), read("b", word="blend")]
    finding = Observer(()).observe("media_kind", "a", readings, "")
    assert (finding.state, finding.word, finding.quantity) == (State.MEASURED, "blend", None)


def test_estimate_is_rectangular_over_its_interval(read: Read) -> None:
    reading = read("~5", "turn", "turn", state=State.ESTIMATE)
    finding = Observer(()).observe("turns", "a", [reading], "turn")
    assert (finding.state, finding.low, finding.high) == (State.ESTIMATE, 4.5, 5.5)
    assert seen(finding, "turn") == (5.0, pytest.approx(0.5 / ROOT_3))  # JCGM 100 4.3.7


def test_plain_number_by_eye_gets_interval(read: Read) -> None:
    reading = read("20", "gram", "mass", state=State.ESTIMATE)
    finding = Observer(()).observe("mass", "a", [reading], "gram")
    assert (finding.low, finding.high) == (19.0, 21.0)


def test_measurement_is_not_blurred_by_estimate(read: Read) -> None:
    readings = [read("~7", state=State.ESTIMATE), read("5.02")]
    finding = Observer(()).observe("thing", "a", readings, "millimeter")
    assert finding.state is State.MEASURED
    assert seen(finding, "millimeter")[0] == 5.02
    assert finding.low is None
    assert len(finding.readings) == 2


def test_marked_range_keeps_its_ends(read: Read) -> None:
    reading = read("8-11 psi", "psi", "pressure")
    finding = Observer(()).observe("bypass", "a", [reading], "kilopascal")
    assert finding.state is State.MEASURED
    assert finding.low == pytest.approx(8 * 6.894757)  # NIST SP 811
    assert finding.high == pytest.approx(11 * 6.894757)
    assert seen(finding, "psi") == (pytest.approx(9.5), pytest.approx(1.5 / ROOT_3))


def test_interval_kept_beside_reading_is_used(read: Read) -> None:
    from dataclasses import replace

    reading = replace(read("0.5 in", state=State.ESTIMATE), si_low=0.010, si_high=0.016)
    finding = Observer(()).observe("thing", "a", [reading], "millimeter")
    assert (finding.low, finding.high) == (pytest.approx(10.0), pytest.approx(16.0))


def test_single_count_is_exact(read: Read) -> None:
    finding = Observer(()).observe("pleats", "a", [read("52", "count", "count")], "count")
    assert seen(finding, "count") == (52.0, 0.0)


def test_counts_that_agree_are_exact(read: Read) -> None:
    readings = [read("52", "count", "count"), read("52", "count", "count")]
    finding = Observer(()).observe("pleats", "a", readings, "count")
    assert seen(finding, "count") == (52.0, 0.0)
    assert (finding.low, len(finding.readings)) == (None, 2)


def test_counts_that_disagree_show_their_ends(read: Read) -> None:
    readings = [read(t, "count", "count") for t in ("49", "51")]
    finding = Observer(()).observe("pleats", "a", readings, "count")
    assert seen(finding, "count") == (50.0, pytest.approx(1 / ROOT_3))
    assert (finding.low, finding.high) == (49.0, 51.0)


def test_estimated_count_keeps_interval(read: Read) -> None:
    reading = read("~50", "count", "count", state=State.ESTIMATE)
    finding = Observer(()).observe("pleats", "a", [reading], "count")
    assert (finding.low, finding.high) == (47.5, 52.5)


def test_missing_unit_takes_that_of_readings(read: Read) -> None:
    finding = Observer(()).observe("pleats", "a", [read("52", "", "count")], "")
    assert seen(finding, "count") == (52.0, 0.0)


def test_foot_pressure_comes_along(read: Read, soft_gauge: Instrument) -> None:
    readings = [read("0.51", instrument="soft"), read("0.52", instrument="soft")]
    finding = Observer([soft_gauge]).observe("thickness", "a", readings, "millimeter")
    assert (finding.contact_pressure_kpa, finding.mixed_pressure) == (2.0, False)


@pytest.mark.parametrize("other", ["hard", "cal", None])
def test_mixed_foot_pressures_are_marked(
    read: Read,
    soft_gauge: Instrument,
    hard_gauge: Instrument,
    calliper: Instrument,
    other: str | None,
) -> None:
    readings = [read("0.51", instrument="soft"), read("0.49", instrument=other)]
    observer = Observer([soft_gauge, hard_gauge, calliper])
    finding = observer.observe("thickness", "a", readings, "millimeter")
    assert (finding.contact_pressure_kpa, finding.mixed_pressure) == (None, True)


def test_temperature_keeps_its_degrees(read: Read) -> None:
    reading = read("70 °F", "degree_Celsius", "temperature")
    finding = Observer(()).observe("room", "a", [reading], "degree_Celsius")
    value, u = seen(finding, "degree_Celsius")
    assert value == pytest.approx(21.111, abs=1e-3)
    assert u == pytest.approx(1 / 1.8 / ROOT_12)


decimals = st.lists(st.decimals(Decimal("0.01"), Decimal("999"), places=2), min_size=1, max_size=6)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(decimals)
def test_finding_does_not_depend_on_unit(
    read: Read, calliper: Instrument, values: list[Decimal]
) -> None:
    readings = [read(f"{v} mm", instrument="cal") for v in values]
    observer = Observer([calliper])
    metric = observer.observe("thing", "a", readings, "millimeter")
    inches = observer.observe("thing", "a", readings, "inch")
    assert seen(metric, "millimeter") == pytest.approx(seen(inches, "millimeter"), rel=1e-9)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(decimals, st.booleans())
def test_estimate_lies_in_its_interval(read: Read, values: list[Decimal], by_eye: bool) -> None:
    state = State.ESTIMATE if by_eye else State.MEASURED
    readings = [read(f"~{v}", state=state) for v in values]
    finding = Observer(()).observe("thing", "a", readings, "millimeter")
    value, u = seen(finding, "millimeter")
    assert finding.low is not None
    assert finding.high is not None
    assert finding.low < value < finding.high
    assert u > 0
