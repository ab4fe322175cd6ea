"""Questions about unlikely values; the limits are invented unless a line says otherwise."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import AskAgain
from benchlog.measure.entry import parse_entry
from benchlog.measure.ranges import check_range
from benchlog.measure.units import convert

SOFT, HARD = (0.35, 1.2), (0.1, 4.0)  # media thickness in mm: common practice, no source


def ask(text: str, unit: str = "millimeter", *, sure: bool = False, reason: str = "") -> None:
    said = parse_entry(text, unit, "length")
    value = convert(float(said.value), said.unit, "millimeter")
    check_range(
        value, "millimeter", SOFT, HARD, "Media thickness", said=said, sure=sure, reason=reason
    )


@pytest.mark.parametrize("text", ["0.35", "0.7 mm", "1.2", "20 thou", "1/32 in", "0.4-0.5"])
def test_usual_value_asks_nothing(text: str) -> None:
    assert ask(text) is None


def test_unusual_value_wants_one_yes() -> None:
    with pytest.raises(AskAgain) as caught:
        ask("2 mm")
    assert not caught.value.reason_wanted
    assert caught.value.what == "Media thickness: 2 mm, outside the usual 0.35 to 1.2 mm."
    assert ask("2 mm", sure=True) is None
    assert ask("2 mm", reason="felt backing") is None


def test_unbelievable_value_wants_reason() -> None:
    with pytest.raises(AskAgain) as caught:
        ask("9 mm", sure=True)
    assert caught.value.reason_wanted
    assert "0.1 to 4 mm" in caught.value.what
    assert ask("9 mm", reason="three sheets glued") is None


def test_blank_reason_is_none() -> None:
    with pytest.raises(AskAgain):
        ask("9 mm", reason="   ")


SLIPS = [
    ("0.62 in", "millimeter", "0.62 in is 15.7 mm", "Did you mean 0.62 mm?"),
    ("20", "inch", "20 is 508 mm", "Did you mean 20 thou?"),
    ("20", "millimeter", "20 mm", "Did you mean 20 thou?"),
    ("510", "millimeter", "510 mm", "Did you mean 510 µm?"),
]


@pytest.mark.parametrize(("text", "usual", "shown", "question"), SLIPS)
def test_slip_of_unit_is_asked_about(text: str, usual: str, shown: str, question: str) -> None:
    with pytest.raises(AskAgain) as caught:
        ask(text, usual)
    assert shown in caught.value.what
    assert question in caught.value.what


def test_no_slip_no_question() -> None:
    with pytest.raises(AskAgain) as caught:
        ask("3000 mm")
    assert "Did you mean" not in caught.value.what


def test_either_end_of_interval_counts() -> None:
    with pytest.raises(AskAgain) as caught:
        ask("0.5-1.6 mm")
    assert "1.6 mm" in caught.value.what


def test_bare_count_is_checked_without_unit() -> None:
    with pytest.raises(AskAgain) as caught:
        check_range(99.0, "count", (30.0, 75.0), (8.0, 200.0), "Pleats")
    assert caught.value.what == "Pleats: 99, outside the usual 30 to 75."


def test_no_limits_take_anything() -> None:
    assert check_range(1e9, "millimeter", None, None, "Length") is None


def test_tiny_and_large_numbers_stay_plain() -> None:
    for value in (0.00002, 1234567.0):
        with pytest.raises(AskAgain) as caught:
            check_range(value, "meter", (1.0, 2.0), None, "Length")
        assert "e" not in caught.value.what.split(",")[0].removeprefix("Length")


@given(st.floats(-1e5, 1e5), st.floats(-1e3, 1e3), st.floats(0.1, 1e3))
def test_question_exactly_when_outside(value: float, low: float, width: float) -> None:
    limits = (low, low + width)
    outside = not low - 1e-5 <= value <= low + width + 1e-5
    well_inside = low <= value <= low + width
    if outside:
        with pytest.raises(AskAgain):
            check_range(value, "millimeter", limits, None, "Length")
    elif well_inside:
        assert check_range(value, "millimeter", limits, None, "Length") is None


@given(st.floats(0.0, 60.0))
def test_answer_does_not_depend_on_unit(millimetres: float) -> None:
    inches = tuple(convert(end, "millimeter", "inch") for end in SOFT)
    questions = []
    for value, unit, limits in (
        (millimetres, "millimeter", SOFT),
        (convert(millimetres, "millimeter", "inch"), "inch", (inches[0], inches[1])),
    ):
        try:
            check_range(value, unit, limits, None, "Media thickness")
        except AskAgain:
            questions.append(unit)
    assert questions in ([], ["millimeter", "inch"])
