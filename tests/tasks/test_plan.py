from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from benchlog.errors import PlanRefused
from benchlog.shelf import SqlShelf
from benchlog.tasks.plan import (
    MOST_SPECIMENS,
    added_specimen,
    check_lineup,
    fresh_specimen,
    new_lineup,
    save_plan,
    usual_attributes,
)
from benchlog.tasks.walk import Teardown
from benchlog.trade.specimen import Specimen
from tests.small_trade import SMALL, HandClock, small_lineup


def test_fresh_specimens_differ_in_tag() -> None:
    fresh = [fresh_specimen(n) for n in range(MOST_SPECIMENS)]
    for field in ("id", "nickname", "shape", "colour"):
        assert len({getattr(s, field) for s in fresh}) == MOST_SPECIMENS


def test_added_specimen_takes_a_free_tag() -> None:
    standing = [fresh_specimen(0), fresh_specimen(2)]
    assert added_specimen(standing).shape == fresh_specimen(1).shape
    assert added_specimen(standing).nickname == fresh_specimen(1).nickname


def test_seventh_specimen_is_refused() -> None:
    with pytest.raises(PlanRefused, match="at most 6"):
        added_specimen([fresh_specimen(n) for n in range(MOST_SPECIMENS)])


def test_new_line_up_asks_the_usual(clock: HandClock) -> None:
    made = new_lineup(clock, SMALL, name="Three")
    assert made.attributes == usual_attributes(SMALL)
    assert len(made.specimens) == 3
    check_lineup(made)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"name": "  "}, "no name"),
        ({"specimens": ()}, "one to 6"),
    ],
)
def test_line_up_that_cannot_stand(change: dict[str, object], said: str) -> None:
    with pytest.raises(PlanRefused, match=said):
        check_lineup(small_lineup(**change))


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("nickname", "COBALT ", "share the nickname"),
        ("nickname", " ", "no nickname"),
        ("shape", small_lineup().specimens[1].shape, "share the shape"),
        ("price", Decimal("-1"), "below zero"),
    ],
)
def test_specimen_that_cannot_stand(field: str, value: object, said: str) -> None:
    first, *others = small_lineup().specimens
    wrong: Specimen = replace(first, **{field: value})  # type: ignore[arg-type]
    with pytest.raises(PlanRefused, match=said):
        check_lineup(small_lineup(specimens=(wrong, *others)))


def test_refused_plan_is_not_saved(shelf: SqlShelf) -> None:
    with pytest.raises(PlanRefused):
        save_plan(shelf, small_lineup(name=""))
    assert shelf.lineup("l-1").name == "Three for one mount"


def test_read_specimen_stays_in_the_line_up(shelf: SqlShelf, bench: Teardown) -> None:
    bench.accept("287.4")
    with pytest.raises(PlanRefused, match="Amber has readings"):
        save_plan(shelf, small_lineup(specimens=small_lineup().specimens[1:]))
    save_plan(shelf, small_lineup(specimens=small_lineup().specimens[:1]))
    assert [s.nickname for s in shelf.lineup("l-1").specimens] == ["Amber"]
