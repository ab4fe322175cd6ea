"""Numbers of a whole line-up, as they are printed, against its record."""

from __future__ import annotations

import re
from functools import cache

import pytest

from benchlog.settings import BOTH, INCH, METRIC
from benchlog.sheet.numbers import exact_number
from benchlog.sheet.sheet_parts import Parts, parts_of
from benchlog.sheet.value_rows import Row, all_rows
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.tasks.value_text import SIDE_BY_SIDE, value_text
from tests.sheet.reading_back import plain
from tests.sheet.worked_record import worked, worked_pages, worked_words


@cache
def parts() -> Parts:
    return parts_of(all_rows(worked()))


def exact_part(row: Row) -> bool:
    return all(dot.shown is None or dot.shown.low == dot.shown.high for dot in row.dots)


@pytest.mark.parametrize("units", [METRIC, INCH, BOTH])
def test_every_number_is_the_records(units: str) -> None:
    record, text = worked(), worked_words(SheetWishes(units))
    printed = 0
    for row in parts().printed:
        for specimen, dot in zip(record.lineup.specimens, row.dots, strict=True):
            if dot.shown is None or exact_part(row):
                continue
            for said in value_text(record, row.key, specimen.id, units).split(SIDE_BY_SIDE):
                number = plain(said.replace("about ", "~"))
                assert number in text, (row.label, number)
                printed += 1
    assert printed > 150


def test_exact_sizes_lose_their_needless_digits() -> None:
    text = worked_words(SheetWishes(BOTH))
    # 3/4-16 UNF, basic: pitch diameter 0.7094 in, minor 0.6823 in (ASME B1.1, Table 4)
    for said in ("19.05 mm", "0.75 in", "18.019 mm", "0.7094 in", "17.331 mm", "0.6823 in"):
        assert said in text
    assert "18.0188" not in text


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (52.0, "count", "52"), (18.01888842875, "millimeter", "18.019"),
        (0.70940505, "inch", "0.7094"), (1.23456789, "dimensionless", "1.2346"),
        (16093.44, "kilometer", "16093"), (123456.0, "kilometer", "123456"),
    ],
)  # fmt: skip
def test_exact_numbers_are_short(value: float, unit: str, said: str) -> None:
    assert exact_number(value, unit) == said


def test_conditions_stand_beside_what_rests_on_them() -> None:
    text = worked_words()
    stated = text[text.index("Stated, not read") :]
    for said in ("flow 30 L/min", "temperature 80 °C", "pressure in the can 700 kPa", "15000 km"):
        assert said in stated[:400]


def test_wanting_figures_are_named_once() -> None:
    text = worked_words()
    line = re.search(r"Not worked out for want of readings: ([^.]*)\.", text)
    assert line is not None
    assert line[1] == ", ".join(row.label for row in parts().wanting)
    for row in parts().wanting:
        for cell in row.cells:
            assert cell.is_state
    record = worked()
    for (key, _), figure in record.figures.items():
        if not figure.refusal:
            assert key not in {row.key for row in parts().wanting}


def test_reason_for_all_is_given_once() -> None:
    rows = [r for r in parts().printed if r.key == "gasket_service"]
    assert len({cell.main for cell in rows[0].cells}) == 1
    assert worked_words().count(f"Gasket: usual temperatures {rows[0].cells[0].main}") == 1


def test_no_row_stands_twice() -> None:
    keys = [
        row.key for row in (*parts().claims, *parts().printed, *parts().stated, *parts().wanting)
    ]
    assert len(keys) == len(set(keys))
    assert set(keys) == {row.key for row in all_rows(worked())}


def test_what_must_stand_beside_does() -> None:
    record, text = worked(), worked_words()
    shown = {row.key for row in parts().printed}
    beside = {
        f.kind.beside for f in record.figures.values() if f.kind.key in shown and not f.refusal
    } - {""}
    assert beside
    for sentence in beside:
        assert plain(sentence) in text


def test_every_warning_has_its_footnote() -> None:
    record, text = worked(), worked_words()
    shown = {row.key for row in (*parts().printed, *parts().claims)}
    warnings = {
        w for f in record.figures.values() if f.kind.key in shown and not f.refusal
        for w in f.warnings
    }  # fmt: skip
    assert warnings
    for sentence in warnings:
        assert re.search(r"\[\d\] " + re.escape(plain(sentence)), text)


def test_bounded_figures_never_carry_plus_minus() -> None:
    bounded = [row for row in parts().printed if any(d.bounded for d in row.dots)]
    assert bounded
    for row in bounded:
        for cell, dot in zip(row.cells, row.dots, strict=True):
            assert not (dot.bounded and "±" in cell.main)


def test_tests_say_what_they_do_not_show() -> None:
    assert len(parts().tests) >= 4
    for test, _ in parts().tests:
        assert f"{test.label} What it does not show: {test.not_shown}" in worked_words()


def test_fit_card_names_unknowns() -> None:
    card = worked_words()
    card = card[card.index("Fit card") : card.index("± holds about")]
    assert "Bypass setting, as marked unknown: not marked 75.84 to 117.2 kPa" in card
    assert "Pressure that the can is made for: unknown for every specimen" in card


def test_claims_are_printed_as_said() -> None:
    claims = worked_words()
    claims = claims[claims.index("Makers’ claims") : claims.index("Fit card")]
    assert "Claimed percentage kept not marked 99 % not marked" in claims
    assert "±" not in claims


def test_sample_stays_within_its_pages() -> None:
    assert 12 <= len(worked_pages()) <= 18


def test_only_compared_values_are_drawn() -> None:
    rows = {row.key: row for row in parts().printed}
    assert rows["can_wall"].is_compared
    assert not rows["thread_basic_major"].is_compared  # the same exact size for all
    assert not rows["media_thickness"].is_compared  # feet of different pressure
    assert not rows["media_length"].is_compared  # an input, not judged


def test_nobody_says_k_is_two() -> None:
    assert "k = 2 " not in worked_words()
    assert "k follows from the effective degrees of freedom" in worked_words()
