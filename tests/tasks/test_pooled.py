"""The scatter of repeats, gathered from what is on the shelf. All numbers invented."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal
from itertools import count

import pytest

from benchlog.judge.rules_file import load_rules
from benchlog.measure.reading import Reading, Said
from benchlog.measure.state import State
from benchlog.measure.units import to_si
from benchlog.shelf import SqlShelf
from benchlog.tasks.draw_up import draw_up
from benchlog.tasks.pooled import pooled_scatter
from tests.small_trade import SMALL, small_lineup

NUMBERS = count(1)
EARLIER = datetime(2026, 4, 1, tzinfo=UTC)


def read(
    lineup: str,
    specimen: str,
    text: str,
    unit: str = "gram",
    attribute: str = "whole_mass",
    instrument: str | None = "scale-1",
    **more: object,
) -> Reading:
    number = next(NUMBERS)
    value = Decimal(text)
    si_value, si_unit = to_si(value, unit)
    made = Reading(
        f"p{number}", lineup, specimen, attribute, number, State.MEASURED, text,
        datetime(2026, 5, 4, tzinfo=UTC), float(number), said=Said(text, value, unit),
        si_value=si_value, si_unit=si_unit, instrument_id=instrument,
    )  # fmt: skip
    return replace(made, **more)


def put(shelf: SqlShelf, *readings: Reading) -> None:
    for reading in readings:
        shelf.add_reading(reading)


def scatter(shelf: SqlShelf) -> dict[tuple[str, str], tuple[float, int, int]]:
    found = pooled_scatter(shelf, shelf.lineup("l-1"), SMALL, shelf.readings("l-1"))
    return {key: (one.s, one.freedom, one.sets) for key, one in found.items()}


@pytest.fixture
def names(shelf: SqlShelf) -> list[str]:
    return [specimen.id for specimen in shelf.lineup("l-1").specimens]


def other(shelf: SqlShelf, name: str = "l-0", **more: object) -> None:
    shelf.save_lineup(small_lineup(**({"id": name, "created_at": EARLIER} | more)))


def test_specimens_of_one_lineup_pool(shelf: SqlShelf, names: list[str]) -> None:
    put(shelf, read("l-1", names[0], "300.0"), read("l-1", names[0], "300.2"))
    put(shelf, read("l-1", names[1], "280.1"), read("l-1", names[1], "280.1"))
    put(shelf, read("l-1", names[2], "299.9"))
    # by hand: (0.02 + 0)/(1 + 1) = 0.01
    assert scatter(shelf) == {("whole_mass", "scale-1"): (pytest.approx(0.1), 2, 2)}


def test_earlier_lineups_join_in_the_attribute_unit(shelf: SqlShelf, names: list[str]) -> None:
    other(shelf)
    put(shelf, read("l-0", names[0], "10.0", "ounce"), read("l-0", names[0], "10.1", "ounce"))
    # 0.1 oz apart: s = 0.1/√2 oz = 2.8349523125/√2 g (NIST SP 811: 1 oz = 28.349523125 g)
    expected = 2.8349523125 / math.sqrt(2)
    assert scatter(shelf) == {("whole_mass", "scale-1"): (pytest.approx(expected), 1, 1)}


@pytest.mark.parametrize(
    "more", [{"rehearsal": True}, {"created_at": datetime(2026, 6, 1, tzinfo=UTC)}]
)
def test_rehearsals_and_later_lineups_stay_out(
    shelf: SqlShelf, names: list[str], more: dict[str, object]
) -> None:
    other(shelf, **more)
    put(shelf, read("l-0", names[0], "10.0"), read("l-0", names[0], "10.4"))
    assert scatter(shelf) == {}


def test_only_standing_plain_readings_pool(shelf: SqlShelf, names: list[str]) -> None:
    first, wrong = read("l-1", names[0], "300.0"), read("l-1", names[0], "30.0")
    put(shelf, first, wrong, read("l-1", names[0], "300.2", supersedes=wrong.id))
    put(shelf, read("l-1", names[0], "290", state=State.ESTIMATE))
    interval = Said("290-310", Decimal(300), "gram", Decimal(290), Decimal(310))
    put(shelf, read("l-1", names[0], "300", said=interval))
    put(shelf, read("l-1", names[0], "305.0", instrument=None))
    put(shelf, read("l-1", names[0], "52", "count", "pleat_count"))
    put(shelf, read("l-1", names[0], "54", "count", "pleat_count"))
    expected = pytest.approx(0.2 / math.sqrt(2))
    assert scatter(shelf) == {("whole_mass", "scale-1"): (expected, 1, 1)}


def test_instruments_do_not_mix(shelf: SqlShelf, names: list[str]) -> None:
    for tool in ("scale-1", "tape-1"):
        put(shelf, read("l-1", names[0], "300.0", instrument=tool))
    assert scatter(shelf) == {}


def test_correction_in_an_earlier_lineup_is_seen(shelf: SqlShelf, names: list[str]) -> None:
    other(shelf)
    wrong = read("l-0", names[0], "310.0")
    put(shelf, read("l-0", names[0], "300.0"), wrong)
    before = scatter(shelf)["whole_mass", "scale-1"]
    put(shelf, read("l-0", names[0], "300.2", supersedes=wrong.id))
    after = scatter(shelf)["whole_mass", "scale-1"]
    assert before == (pytest.approx(10.0 / math.sqrt(2)), 1, 1)
    assert after == (pytest.approx(0.2 / math.sqrt(2)), 1, 1)


def test_unchanged_lineups_are_not_read_again(
    shelf: SqlShelf, names: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    other(shelf)
    put(shelf, read("l-0", names[0], "300.0"), read("l-0", names[0], "300.2"))
    first, here, lineup = scatter(shelf), shelf.readings("l-1"), shelf.lineup("l-1")
    asked: list[str] = []
    whole = shelf.readings
    monkeypatch.setattr(shelf, "readings", lambda name: asked.append(name) or whole(name))
    again = pooled_scatter(shelf, lineup, SMALL, here)
    assert asked == []
    assert {key: (one.s, one.freedom, one.sets) for key, one in again.items()} == first


def test_record_uses_the_pooled_scatter(shelf: SqlShelf, names: list[str]) -> None:
    other(shelf)
    for name in names:
        put(shelf, read("l-0", name, "300.0"), read("l-0", name, "300.2"))
    put(shelf, read("l-1", names[0], "287.4"))
    finding = draw_up(shelf, "l-1", SMALL, load_rules("bench_rules")).findings[
        "whole_mass", names[0]
    ]
    assert "pooled over 3 sets" in finding.scatter
    assert finding.quantity is not None
    parts = {v.tag: s for v, s in finding.quantity.magnitude.error_components().items() if s}
    assert parts[f"whole_mass/{names[0]}/repeats"] == pytest.approx(0.2 / math.sqrt(2))
