from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from benchlog.errors import ShelfDamaged
from benchlog.tasks import rank_view
from benchlog.window.verdict.ranks_page import NO_PURPOSE, NO_TOTAL, WORKING
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.window.place_scenes import SIZES, Person, cut_off, settle, unnamed
from tests.window.verdict.judge_scenes import ALT, SPOKEN, cells, worked_out


def open_ranks(person: Person) -> None:
    person.press(Qt.Key.Key_K, ALT)
    assert person.focus is person.place.ranks.purposes


def declare(person: Person, label: str) -> None:
    """Walk down the purposes with the arrow keys, and wait for the ranks."""
    ranks = person.place.ranks
    for _ in range(ranks.purposes.count()):
        if ranks.purposes.currentItem().text() == label:
            break
        person.press(Qt.Key.Key_Down)
    person.until(lambda: ranks.shown is not None and ranks.shown.purpose.label == label)
    settle()


def test_without_a_purpose_there_is_no_total(judge: Person) -> None:
    open_ranks(judge)
    ranks = judge.place.ranks
    assert ranks.purposes.currentItem().text() == NO_PURPOSE
    assert ranks.summary.text() == "No ranks"
    assert ranks.nothing.text() == NO_TOTAL
    assert ranks.middle.currentWidget() is ranks.nothing
    assert ranks.shown is None


def test_declared_purpose_shows_chances(judge: Person) -> None:
    open_ranks(judge)
    declare(judge, "Price")
    ranks = judge.place.ranks
    assert ranks.summary.text() == ranks.shown.summary
    assert "of 100 000 draws" in ranks.summary.text()
    assert "seed" in ranks.made.text()
    assert "price paid 50 %" in ranks.about.text()
    table = ranks.tables.ranks
    for r, row in enumerate(ranks.shown.rows):
        assert table.item(r, 0).data(SPOKEN) == row.sentence
        assert cells(table, r)[1:] == [rank_view.percent(share) for share in row.shares]


def test_pairs_and_weights_are_told(judge: Person) -> None:
    open_ranks(judge)
    declare(judge, "Price")
    ranks = judge.place.ranks
    rows = ranks.shown.rows
    said = ranks.tables.before.item(0, 2).data(SPOKEN)
    assert said.startswith(f"{rows[0].nickname} before {rows[1].nickname} in ")
    assert ranks.tables.weights.item(0, 2).text() == rows[0].central
    never = next(n for n, row in enumerate(rows) if not row.central)
    assert ranks.tables.weights.item(never, 2).text() == "comes first for none"


def test_ranks_of_another_purpose_go_at_once(judge: Person) -> None:
    """While it is worked out, neither 'none declared' nor the last purpose's ranks stand there."""
    open_ranks(judge)
    ranks = judge.place.ranks
    for label in ("Long interval", "Cold starts"):
        judge.press(Qt.Key.Key_Down)
        assert ranks.purpose.label == label
        assert ranks.middle.currentWidget() is ranks.nothing
        assert ranks.nothing.text() == WORKING
        declare(judge, label)
        assert ranks.middle.currentWidget() is ranks.tables


def test_purpose_taken_back_shows_none(judge: Person) -> None:
    open_ranks(judge)
    declare(judge, "Long interval")
    judge.press(Qt.Key.Key_Home)
    assert judge.place.ranks.summary.text() == "No ranks"
    assert not judge.place.ranks.made.isVisible()


def test_ranks_follow_the_readings(judge: Person) -> None:
    open_ranks(judge)
    declare(judge, "Price")
    before = judge.place.ranks.shown
    with worked_out(judge):
        judge.desk.recorded.emit()
    judge.until(lambda: judge.place.ranks.shown is not before)
    assert judge.place.ranks.shown == before


def test_last_purpose_wins_when_hurried(judge: Person) -> None:
    open_ranks(judge)
    ranks = judge.place.ranks
    for row in range(1, ranks.purposes.count() - 1):
        ranks.purposes.setCurrentRow(row)
    judge.until(lambda: ranks.shown is not None and ranks.shown.purpose == ranks.purpose)
    settle()
    assert ranks.shown.purpose.label == "Nothing put first"


def test_failed_draws_are_told(judge: Person, monkeypatch) -> None:
    def fails(*_args: object, **_more: object) -> None:
        raise ShelfDamaged("No draws.", "Try again.")

    monkeypatch.setattr(rank_view, "ranks_shown", fails)
    open_ranks(judge)
    judge.press(Qt.Key.Key_Down)
    judge.until(lambda: judge.told)
    assert judge.told[0].what == "No draws."


def test_one_part_is_named_by_all_of_it(judge: Person) -> None:
    from dataclasses import replace

    open_ranks(judge)
    record = judge.place.watch.record
    one, two, three = record.lineup.specimens
    origin = {"origin_can": "", "origin_box": "", "origin_inferred": ""}
    one, three = (replace(s, maker="Larkfield", part_number="L", **origin) for s in (one, three))
    lineup = replace(record.lineup, specimens=(one, two, three))
    judge.place.ranks.show_record(replace(record, lineup=lineup))
    declare(judge, "Price")
    table = judge.place.ranks.tables.ranks
    assert {table.item(row, 0).text() for row in range(table.rowCount())} == {
        "Amber, Moss", "Cobalt",
    }  # fmt: skip
    assert "Several specimens of one part stand as one" in judge.place.ranks.made.text()


def test_refusal_stands_where_ranks_would(judge: Person) -> None:
    from dataclasses import replace

    open_ranks(judge)
    record = judge.place.watch.record
    alone = replace(record, lineup=replace(record.lineup, specimens=record.lineup.specimens[:1]))
    judge.place.ranks.show_record(alone)
    judge.place.ranks.purposes.setCurrentRow(1)
    judge.until(lambda: judge.place.ranks.shown is not None)
    assert "Fewer than two specimens" in judge.place.ranks.nothing.text()


@pytest.mark.parametrize("size", SIZES)
def test_ranks_are_named_and_not_cut_off(sample_desk, sit, size: str) -> None:
    person = sit(VerdictPlace, sample_desk, size)
    person.until(lambda: person.place.watch.record is not None)
    open_ranks(person)
    settle()
    assert cut_off(person.place) == []
    declare(person, "Cold starts")
    assert cut_off(person.place) == []
    assert unnamed(person.place) == []
