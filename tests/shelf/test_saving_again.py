"""What may be saved again, what is logged of it, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import EntryRefused, PlanRefused
from benchlog.shelf import SqlShelf, open_shelf
from benchlog.trade.specimen import Paid
from tests import strategies
from tests.shelf import scenes
from tests.shelf.scenes import Folders

LATER = datetime(2026, 5, 5, 9, 0, tzinfo=UTC)


def logged(shelf: SqlShelf) -> list[tuple[str, str, str, str | None, str | None]]:
    return [(c.entity, c.entity_id, c.field, c.old, c.new) for c in shelf.changes()]


def test_each_changed_field_is_logged(folder: Path) -> None:
    with open_shelf(folder, now=lambda: LATER) as shelf:
        scenes.set_up(shelf)
        assert logged(shelf) == []
        answered = replace(scenes.BRAVO, paid=Paid.LENT, price=Decimal("0"))
        changed = replace(scenes.LINEUP, rehearsal=True, specimens=(scenes.ALFA, answered))
        shelf.save_lineup(changed)
        shelf.save_instrument(replace(scenes.SCALE, permissible_error=0.3))
        assert logged(shelf) == [
            ("lineup", "spring", "rehearsal", "0", "1"),
            ("specimen", "spring/bravo", "paid", "not answered", "lent"),
            ("specimen", "spring/bravo", "price", None, "0"),
            ("instrument", "scale", "permissible_error", "0.2", "0.3"),
        ]
        assert {one.at for one in shelf.changes()} == {LATER}
        assert shelf.lineup("spring") == changed


def test_saving_the_same_logs_nothing(shelf: SqlShelf) -> None:
    scenes.set_up(shelf)
    assert shelf.changes() == []


def test_trailing_zero_is_a_change(shelf: SqlShelf) -> None:
    dearer = replace(scenes.ALFA, price=Decimal("9.900"))
    shelf.save_lineup(replace(scenes.LINEUP, specimens=(dearer, scenes.BRAVO)))
    assert logged(shelf) == [("specimen", "spring/alfa", "price", "9.90", "9.900")]
    assert str(shelf.lineup("spring").specimens[0].price) == "9.900"


def test_new_order_of_specimens_stays(shelf: SqlShelf) -> None:
    turned = replace(scenes.LINEUP, specimens=(scenes.BRAVO, scenes.ALFA))
    shelf.save_lineup(turned)
    assert shelf.lineup("spring") == turned
    assert {one.field for one in shelf.changes()} == {"position"}


@given(st.data())
def test_last_saving_of_lineup_stands(new_folder: Folders, data: st.DataObject) -> None:
    first = data.draw(strategies.lineups)
    second = replace(data.draw(strategies.lineups), id=first.id)
    with open_shelf(new_folder()) as shelf:
        shelf.save_lineup(first)
        shelf.save_lineup(second)
        assert shelf.lineup(first.id) == second
        assert len(shelf.lineups()) == 1
        assert (first == second) or shelf.changes()


def test_specimen_without_records_may_go(shelf: SqlShelf) -> None:
    shelf.save_lineup(replace(scenes.LINEUP, specimens=(scenes.ALFA,)))
    assert shelf.lineup("spring").specimens == (scenes.ALFA,)
    assert ("specimen", "spring/bravo", "nickname", "Bravo", None) in logged(shelf)


@pytest.mark.parametrize("record", ["reading", "photo", "remark"])
def test_specimen_with_records_stays(shelf: SqlShelf, record: str) -> None:
    match record:
        case "reading":
            shelf.add_reading(scenes.reading("first"))
        case "photo":
            shelf.add_photo(scenes.photo(), scenes.PICTURE)
        case _:
            shelf.add_remark(scenes.remark("dent"))
    renamed = replace(scenes.LINEUP, name="Only one", specimens=(scenes.BRAVO,))
    with pytest.raises(PlanRefused, match="'Alfa' has readings, photos or remarks"):
        shelf.save_lineup(renamed)
    assert shelf.lineup("spring") == scenes.LINEUP
    assert shelf.changes() == []


def test_last_place_is_last_saved(folder: Path) -> None:
    with open_shelf(folder) as shelf:
        scenes.set_up(shelf)
        assert shelf.last_lineup() is None
        older = replace(scenes.LINEUP, id="autumn", created_at=scenes.NOON - timedelta(days=400))
        shelf.save_lineup(older)
        shelf.save_place(scenes.place())
        shelf.save_place(scenes.place(lineup_id="autumn"))
        assert shelf.last_lineup() == "autumn"
        shelf.save_place(scenes.place("cutting"))
    with open_shelf(folder) as shelf:
        assert shelf.last_lineup() == "spring"
        assert shelf.place("spring") == scenes.place("cutting")
        assert shelf.place("autumn") == scenes.place(lineup_id="autumn")


def test_broken_text_is_refused(shelf: SqlShelf) -> None:
    with pytest.raises(EntryRefused, match="broken character"):
        shelf.save_place(replace(scenes.place(), half_typed="\ud800"))
    assert shelf.place("spring") is None
