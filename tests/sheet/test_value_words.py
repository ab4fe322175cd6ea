from __future__ import annotations

from dataclasses import replace

import pytest

from benchlog.measure.state import State
from benchlog.settings import BOTH
from benchlog.sheet.said_text import said, said_number
from benchlog.sheet.value_words import Printed, claim_words, figure_words, short_reason
from tests.sheet.reading_back import plain
from tests.sheet.sample_record import LENGTH, MASS, measured, quantity, record, state


@pytest.mark.parametrize(
    ("long", "short"),
    [
        ("No opening force of the bypass: spoiled.", "spoiled"),
        ("No wire: no answer yet. No coil: not marked.", "not worked out"),
        ("A rate wants two lengths.", "not worked out"),
        ("not marked", "not marked"),
    ],
)
def test_panels_give_the_reason_in_few_words(long: str, short: str) -> None:
    assert short_reason(Printed(long, is_state=True)) == short


def test_value_gives_no_reason() -> None:
    assert short_reason(Printed("No answer: 4.")) == "No answer: 4."


def test_claim_stands_as_it_was_said() -> None:
    claimed = measured("s1", LENGTH, 1422.4, 0.8, ("1422.4",))
    assert claim_words(claimed, LENGTH).main == "1422.4 mm"
    assert claim_words(state("s1", LENGTH, State.NOT_MARKED), LENGTH).is_state


def test_warnings_and_doubt_go_with_the_figure() -> None:
    figure = replace(
        record().figures["exposed_area", "s1"], warnings=("Count again.",), estimate=True,
        contact_pressure_kpa=20.0,
    )  # fmt: skip
    printed = figure_words(figure, units=BOTH, doubted=True)
    assert printed.doubted
    assert printed.warnings == ("Count again.",)
    assert plain(printed.main) == "~1293.5 ± 8.0 cm²"
    assert plain(printed.also) == "~200.5 ± 1.2 in²"
    assert [plain(line) for line in printed.beneath] == ["rests on an estimate", "foot 20 kPa"]


def test_word_figures_print_their_word() -> None:
    figure = replace(record().figures["exposed_area", "s1"], quantity=None, word="ample")
    assert figure_words(figure) == Printed("ample")


def test_missing_figure_says_so() -> None:
    assert figure_words(None).is_state
    refused = replace(record().figures["exposed_area", "s1"], quantity=None, refusal="No length.")
    assert figure_words(refused).main == "No length."
    assert figure_words(refused, refusal="No length: no answer yet.").main.endswith("yet.")


def test_feet_of_several_pressures_are_told() -> None:
    mixed = measured("s1", MASS, 5.0, 0.1, mixed_pressure=True)
    figure = record().figures["exposed_area", "s1"]
    assert "feet of several pressures" in claim_words(replace(mixed, readings=()), MASS).beneath
    assert "money" not in figure_words(
        replace(figure, kind=replace(figure.kind, unit="money", inch_unit=""),
                quantity=quantity(8.9, 0.1, "money")),
    ).beneath  # fmt: skip


def test_single_reading_keeps_its_digits_and_its_state() -> None:
    reading = measured("s1", MASS, 287.4, 0.1, ("287.40",)).readings[0]
    assert said(reading) == "287.40 g"
    assert said_number(reading, "gram") == "287.40"
    assert said_number(reading, "kilogram") == "287.40 g"
    assert said(replace(reading, said=None, state=State.SPOILED)) == "spoiled"
