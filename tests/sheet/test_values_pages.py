from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from benchlog.measure.finding import Finding
from benchlog.measure.state import State
from benchlog.settings import BOTH, INCH, METRIC
from benchlog.sheet.value_rows import meaningful_in_unit, rows_of
from benchlog.sheet.value_words import figure_words, finding_words
from benchlog.tasks.value_text import NO_ANSWER
from benchlog.trade.component import Component
from tests.sheet.reading_back import plain, words, write
from tests.sheet.sample_record import (
    BYPASS,
    LENGTH,
    LOOK,
    MASS,
    SECTION,
    THICK,
    TURNS,
    WALL,
    quantity,
    record,
    state,
)


@pytest.fixture(scope="module")
def sheet(tmp_path_factory: pytest.TempPathFactory) -> str:
    return words(write(record(), tmp_path_factory.mktemp("values")))


@pytest.mark.parametrize(
    "said",
    [
        "287.40 ± 0.12 g", "n = 3", "1422.4 ± 1.6 mm", "1371.6 ± 1.6 mm", "0.510 ± 0.012 mm",
        "8 to 11 psi", "6 turns", "5.00 ± 0.59 turns", "bevelled", "square cut",
        "1293.5 ± 8.0 cm²", "foot 2 kPa", "foot 50 kPa",
    ],
)  # fmt: skip
def test_values_carry_their_doubt(sheet: str, said: str) -> None:
    assert said in sheet


def test_every_state_prints_as_its_word(sheet: str) -> None:
    values = sheet[sheet.index("± holds about") : sheet.index("The same numbers, drawn")]
    for word in ("not marked", "no answer yet", "could not tell", "not applicable", "spoiled",
                 "estimate"):  # fmt: skip
        assert word in values


def test_estimate_carries_its_interval(sheet: str) -> None:
    assert "~5 turns (4.5 to 5.5) estimate" in sheet


def test_refused_figure_says_why(sheet: str) -> None:
    assert "The hidden width could not be told." in sheet


def test_formula_stays_out_of_the_values(sheet: str) -> None:
    assert "hidden by both end caps" not in sheet
    assert "Worked out" not in sheet


def test_long_words_are_printed_in_full(sheet: str) -> None:
    full = record().findings[LOOK.key, "s2"].word
    assert full is not None
    assert "(in full below)" in sheet
    assert plain(f"{LOOK.label}, Birch: {full}") in sheet


def test_claims_stand_apart(sheet: str) -> None:
    start = sheet.index("Makers’ claims, not tested here")
    assert "99 % at 25 micron" in sheet[start : sheet.index("± holds about")]
    assert sheet.count("99 % at 25 micron") == 1


def test_no_words_a_bench_cannot_back(sheet: str) -> None:
    for never in ("filters better", "holds more dirt", "flows better", "fits"):
        assert never not in sheet.lower()


@pytest.mark.parametrize("which", [s for s in State if not s.has_value])
def test_state_is_never_blank(which: State) -> None:
    answered = replace(state("s1", WALL, which), readings=record().readings[:1])
    assert finding_words(answered, WALL).main == which.value


def test_slot_without_answer_says_so() -> None:
    for nobody in (None, state("s1", WALL, State.NOT_MEASURED)):
        printed = finding_words(nobody, WALL)
        assert printed.main == NO_ANSWER
        assert printed.is_state


def test_choice_prints_its_label() -> None:
    assert finding_words(record().findings[SECTION.key, "s1"], SECTION).main == "bevelled"


def test_estimated_word_is_marked() -> None:
    guess = replace(record().findings[SECTION.key, "s1"], state=State.ESTIMATE)
    assert finding_words(guess, SECTION).main == "~bevelled"


@pytest.mark.parametrize(
    ("units", "said"),
    [  # a strip of 56.0 in, 1 in = 25.4 mm exactly
        (METRIC, ["1422.4 ± 1.6 mm", "n = 1"]),
        (INCH, ["56.000 ± 0.062 in", "n = 1"]),
        (BOTH, ["1422.4 ± 1.6 mm", "56.000 ± 0.062 in", "n = 1"]),
    ],
)
def test_units_are_the_reviewers_choice(units: str, said: list[str]) -> None:
    printed = finding_words(record().findings[LENGTH.key, "s1"], LENGTH, units)
    told = (printed.main, printed.also, *printed.beneath)
    assert [plain(line) for line in told if line] == said


def test_no_inches_where_none_are_usual() -> None:
    for attribute, n in ((MASS, 3), (BYPASS, 1)):
        printed = finding_words(record().findings[attribute.key, "s1"], attribute, BOTH)
        assert [plain(line) for line in printed.beneath] == [f"n = {n}"]


def test_only_asked_or_found_is_shown() -> None:
    sample = record()
    asked = tuple(k for k in sample.lineup.attributes if k not in (TURNS.key, MASS.key))
    found = {k: f for k, f in sample.findings.items() if k[0] != TURNS.key}
    less = replace(sample, findings=found, lineup=replace(sample.lineup, attributes=asked))
    assert not rows_of(less, Component.THREAD)
    asked_for = [row.label for row in rows_of(less, Component.WHOLE) if not row.is_claim]
    assert asked_for == [MASS.label]


def row(component: Component, label: str):
    return next(r for r in rows_of(record(), component) if r.label == label)


def test_band_is_the_rules_difference() -> None:
    assert meaningful_in_unit(row(Component.CAN, WALL.label)) == 0.05
    # five per cent of the smaller area, 1293.5 cm²
    area = meaningful_in_unit(row(Component.MEDIA, "Exposed media area"))
    assert area == pytest.approx(64.675)
    assert meaningful_in_unit(row(Component.PLEATS, "Pleat count")) is None


def test_feet_that_differ_forbid_comparing(sheet: str) -> None:
    thick = row(Component.MEDIA, THICK.label)
    assert thick.note == "unlike feet: not compared"
    assert thick.note in sheet
    assert not row(Component.CAN, WALL.label).note


def test_remark_nobody_made_is_left_out() -> None:
    sample = record()
    unsaid = {k: f for k, f in sample.findings.items() if k[0] != LOOK.key}
    labels = [r.label for r in rows_of(replace(sample, findings=unsaid), Component.MEDIA)]
    assert LOOK.label not in labels
    assert LENGTH.label in labels


def test_bounded_estimate_prints_its_ends() -> None:
    figure = record().figures["exposed_area", "s1"]
    kind = replace(figure.kind, unit="kilopascal", inch_unit="psi", bounded=True)
    between = replace(
        figure, kind=kind, quantity=quantity(60.0, 9.0, "kilopascal"), low=20.0, high=100.0
    )
    printed = figure_words(between, units=BOTH)
    assert plain(printed.main) == "20 to 100 kPa"
    # NIST SP 811: 1 psi = 6.894757 kPa; 2.901 and 14.504, rounded outwards
    assert plain(printed.also) == "2.9 to 14.6 psi"
    assert "±" not in " ".join((printed.main, printed.also, *printed.beneath))


def test_money_prints_as_its_currency() -> None:
    figure = record().figures["exposed_area", "s1"]
    kind = replace(figure.kind, unit="centimeter ** 2 / money", inch_unit="")
    value = quantity(83.5, 0.4, "centimeter ** 2 / money")
    printed = figure_words(replace(figure, kind=kind, quantity=value), "EUR")
    assert plain(printed.main) == "83.50 ± 0.78 cm²/EUR"


def test_nothing_recorded_says_so(tmp_path: Path) -> None:
    sample = record(1)
    bare = replace(sample, findings={}, figures={}, readings=(),
                   lineup=replace(sample.lineup, attributes=()))  # fmt: skip
    assert "Nothing was recorded." in words(write(bare, tmp_path))


def test_text_that_nobody_noted_takes_no_row() -> None:
    noted = record()
    blank = {
        (LOOK.key, s.id): Finding(LOOK.key, s.id, State.NOT_MEASURED)
        for s in noted.lineup.specimens
    }
    unnoted = replace(noted, findings={**noted.findings, **blank})
    assert LOOK.label in [row.label for row in rows_of(noted, LOOK.component)]
    assert LOOK.label not in [row.label for row in rows_of(unnoted, LOOK.component)]
