"""One capture per placing, by example and by property. Rules: common practice, no source."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.instruments.steady import PanWatch, PressWatch, SteadyRule, grams_per, last_digit
from benchlog.measure.reading import Said
from benchlog.tasks.ports import Capture, Steadiness, Weight

STABLE, MOVING, SILENT = Steadiness.STABLE, Steadiness.MOVING, Steadiness.SILENT
WAITING, SETTLING, CAUGHT = Capture.WAITING, Capture.SETTLING, Capture.CAUGHT


def weight(value: str | None, steadiness: Steadiness = STABLE, unit: str = "gram") -> Weight:
    said = None if value is None else Said(value, Decimal(value), unit)
    return Weight(said, steadiness, None, b"")


def play(watch: PanWatch, *lines: Weight, step_s: float = 0.1, start_s: float = 0.0):
    """Feed lines a step apart; return the captures and the values caught."""
    steps = [watch.feed(line, start_s + i * step_s) for i, line in enumerate(lines)]
    values = [str(s.caught.said.value) for s in steps if s.caught and s.caught.said]
    return [s.capture for s in steps], values


def test_load_settles_and_is_caught_once():
    lines = [weight("0.0"), weight("250.1", MOVING), weight("287.4"), weight("287.4")]
    assert play(PanWatch(), *lines) == ([WAITING, SETTLING, CAUGHT, CAUGHT], ["287.4"])


def test_near_zero_rearms():
    lines = [weight("287.4"), weight("0.2"), weight("31.0")]
    assert play(PanWatch(), *lines) == ([CAUGHT, WAITING, CAUGHT], ["287.4", "31.0"])


def test_swapped_tray_is_not_caught_again():
    lines = [weight("287.4"), weight("120.0", MOVING), weight("301.2"), weight("301.2")]
    assert play(PanWatch(), *lines)[1] == ["287.4"]


def test_swing_through_zero_does_not_rearm():
    """A tared tray lifted off and one with a part put on passes zero without stopping."""
    swing = ["-50.0", "-20.0", "1.0", "60.0"]
    lines = [weight("287.4"), *(weight(v, MOVING) for v in swing), weight("110.0")]
    assert play(PanWatch(), *lines)[1] == ["287.4"]


def test_several_moving_lines_near_zero_rearm():
    near = [weight(v, MOVING) for v in ("1.0", "0.4", "0.2")]
    assert play(PanWatch(), weight("287.4"), *near, weight("110.0"))[1] == ["287.4", "110.0"]


def test_swinging_about_zero_does_not_rearm():
    swing = [weight(v, MOVING) for v in ("1.0", "-60.0", "2.0", "-40.0", "1.0", "90.0")]
    assert play(PanWatch(), weight("287.4"), *swing, weight("110.0"))[1] == ["287.4"]


def test_oil_left_behind_does_not_hold_up():
    """2 % of 287.4 g is 5.7 g: 0.7 g of oil clears the pan and is itself never caught."""
    lines = [weight("287.4"), weight("0.7"), weight("0.7"), weight("290.0")]
    assert play(PanWatch(), *lines)[1] == ["287.4", "290.0"]


def test_light_part_follows_a_heavy_one():
    """Once the pan has shown zero, 3 g counts although it is less than 2 % of 287.4 g."""
    for empty in ([weight("0.0")], [weight("0.7"), weight("0.0")]):
        watch = PanWatch()
        assert play(watch, weight("287.4"), *empty, weight("3.0"))[1] == ["287.4", "3.0"]


@pytest.mark.parametrize(
    "line",
    [
        weight("-12.3"),
        weight(None, Steadiness.OVERLOAD),
        weight(None, Steadiness.UNDERLOAD),
        weight("0.0"),
        weight("0.5"),
        weight("287.4", MOVING),
    ],
)
def test_what_is_no_load_is_never_caught(line):
    assert play(PanWatch(), *[line] * 20)[1] == []


def test_overload_neither_rearms_nor_counts():
    beyond = weight(None, Steadiness.OVERLOAD)
    assert play(PanWatch(), weight("287.4"), beyond, weight("287.4"))[1] == ["287.4"]


def test_silent_scale_needs_equal_weights_in_time():
    equal = [weight("287.4", SILENT)] * 4
    assert play(PanWatch(), *equal, step_s=0.5)[0] == [SETTLING] * 3 + [CAUGHT]
    assert play(PanWatch(), *equal * 5, step_s=0.51)[1] == []


def test_silent_scale_starts_anew_at_a_change():
    values = ["287.4", "287.4", "287.4", "287.5", "287.4", "287.4", "287.4"]
    watch = PanWatch()
    lines = [weight(v, SILENT) for v in values]
    assert play(watch, *lines)[1] == []
    assert play(watch, weight("287.4", SILENT), start_s=0.7)[1] == ["287.4"]


def test_silent_load_before_an_overload_is_forgotten():
    silent = weight("287.4", SILENT)
    beyond = weight(None, Steadiness.OVERLOAD)
    assert play(PanWatch(), silent, silent, beyond, silent, silent)[1] == []


def test_silence_of_a_speaking_scale_is_not_rest():
    lines = [weight("100.0", MOVING), *[weight("287.4", SILENT)] * 10]
    assert play(PanWatch(), *lines)[1] == []


def test_rule_can_be_chosen():
    rule = SteadyRule(equal_readings=2, within_s=10, clear_digits=1, clear_share=Decimal("0.5"))
    silent = [weight(v, SILENT) for v in ("0.2", "0.2", "0.1", "0.1", "0.1", "0.3", "0.3")]
    assert play(PanWatch(rule), *silent, step_s=5)[1] == ["0.2", "0.3"]


def test_unit_changed_on_the_scale_does_not_rearm():
    """0.2874 kg is the same load as 287.4 g, and not "near zero"."""
    lines = [weight("287.4"), weight("0.2874", unit="kilogram"), weight("287.4")]
    assert play(PanWatch(), *lines)[1] == ["287.4"]


def test_thresholds_use_exact_enough_grams():
    """NIST HB 44: 1 lb = 453.59237 g; 1 oz is a sixteenth of it, 1 gr a seven-thousandth."""
    pound = Decimal("453.59237")
    for unit, grams in (("pound", pound), ("ounce", pound / 16), ("grain", pound / 7000)):
        assert float(grams_per(unit)) == pytest.approx(float(grams), rel=1e-12)
    assert (grams_per("carat"), grams_per("milligram")) == (Decimal("0.2"), Decimal("0.001"))


@pytest.mark.parametrize(("value", "worth"), [("287.40", "0.01"), ("287", "1"), ("0.5", "0.1")])
def test_last_digit_is_its_worth(value, worth):
    assert last_digit(Decimal(value)) == Decimal(worth)


def test_press_of_the_key_counts_each_time():
    watch = PressWatch()
    lines = [weight("287.4", SILENT), weight("287.4"), weight("287.4", MOVING), weight("-1.0")]
    steps = [watch.feed(line, 0) for line in [*lines, weight(None, Steadiness.OVERLOAD)]]
    assert [s.caught is not None for s in steps] == [True, True, False, False, False]


LINES = st.lists(
    st.tuples(
        st.sampled_from([None, "-40.0", "-0.3", "0.0", "0.4", "0.9", "3.0", "100.0", "287.4"]),
        st.sampled_from([STABLE, MOVING, SILENT]),
    ),
    max_size=60,
)


@given(LINES)
def test_never_two_captures_without_near_zero(pairs):
    watch = PanWatch()
    between: list[Weight] | None = None
    for index, (value, steadiness) in enumerate(pairs):
        line = weight(value, steadiness if value else Steadiness.OVERLOAD)
        caught = watch.feed(line, index * 0.1).caught
        if caught is not None and between is not None:
            near = [
                w for w in between if w.said and abs(w.said.value) <= Decimal("5.75")
            ]  # 2 % of the heaviest load, 287.4 g
            assert near, "the pan never came back"
            assert any(w.steadiness is STABLE for w in near) or len(near) >= 3
        if caught is not None:
            between = []
        elif between is not None:
            between.append(line)


@given(LINES)
def test_only_resting_loads_are_caught(pairs):
    watch = PanWatch()
    spoke = False
    for index, (value, steadiness) in enumerate(pairs):
        line = weight(value, steadiness if value else Steadiness.OVERLOAD)
        spoke = spoke or line.steadiness in (STABLE, MOVING)
        step = watch.feed(line, index * 0.1)
        if step.caught is not None:
            assert step.caught is line
            assert step.capture is CAUGHT
            assert line.said is not None
            assert line.said.value > Decimal("0.5")
            assert line.steadiness is STABLE or (line.steadiness is SILENT and not spoke)
