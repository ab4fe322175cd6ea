"""Which number a cell stands for, side by side and one below the other."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from benchlog.tasks.draft import Draft, save_draft, with_added
from benchlog.trade.component import Component
from benchlog.window.verdict.number_at import folded, keep_place, number_at
from benchlog.window.verdict.plain_table import PlainTable
from benchlog.window.verdict.verdict_place import VerdictPlace
from tests.derive.found import ALPHA

SUBJECTS = ["area", "weight"]


def specimens(many: int):
    return [replace(ALPHA, id=f"s{n}") for n in range(many)]


@pytest.fixture
def table(qtbot, themed) -> PlainTable:
    made = PlainTable("Values")
    qtbot.addWidget(made)
    return made


@pytest.mark.parametrize(
    ("cell", "number"),
    [((0, 0), ("area", "s0")), ((1, 1), ("weight", "s0")), ((1, 3), ("weight", "s2")),
     ((0, 4), ("area", "s2"))],
)  # fmt: skip
def test_side_by_side_a_column_is_a_specimen(table, cell, number) -> None:
    table.setRowCount(2)
    table.setColumnCount(5)
    table.setCurrentCell(*cell)
    assert number_at(table, SUBJECTS, specimens(3)) == number


@pytest.mark.parametrize(
    ("row", "number"), [(0, ("area", "s0")), (4, ("weight", "s0")), (7, ("weight", "s3"))]
)
def test_below_each_other_a_row_is_a_specimen(table, row, number) -> None:
    table.setRowCount(8)
    table.setColumnCount(3)
    table.setCurrentCell(row, 2)
    assert number_at(table, SUBJECTS, specimens(4)) == number


def test_nothing_chosen_is_no_number(table) -> None:
    assert number_at(table, SUBJECTS, specimens(2)) is None
    assert number_at(table, [], specimens(2)) is None


def test_place_is_kept_where_it_still_is(table) -> None:
    keep_place(table, (0, 0))
    assert table.currentRow() == -1
    table.setRowCount(2)
    table.setColumnCount(3)
    keep_place(table, (1, 2))
    assert (table.currentRow(), table.currentColumn()) == (1, 2)
    keep_place(table, (7, 2))
    assert (table.currentRow(), table.currentColumn()) == (0, 1)


def test_two_units_fold_into_two_lines() -> None:
    assert folded("2.5 cm · 1 in") == "2.5 cm\n1 in"
    assert folded("not measured") == "not measured"


def test_sum_of_a_fourth_specimen_is_reached(sample_desk, sit) -> None:
    draft, _fresh = with_added(Draft(sample_desk.teardown.lineup))
    save_draft(sample_desk.workshop.shelf, draft)
    sample_desk.reload()
    person = sit(VerdictPlace, sample_desk)
    person.until(lambda: person.place.watch.record is not None)
    scores = person.place.scores
    scores.setFocus()
    while scores.component is not Component.MEDIA:
        person.press(Qt.Key.Key_Down)
    person.press(Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    for _ in range(5):
        person.press(Qt.Key.Key_Down)
    key, who = person.place.sums.number_here()
    assert who == sample_desk.teardown.lineup.specimens[1].id
    person.press(Qt.Key.Key_Return)
    person.until(lambda: person.focus.window() is person.place.sum_dialog)
    label = person.place.watch.record.figures[key, who].kind.label
    assert person.place.sum_dialog.view.title.text() == f"Cobalt · {label}"
    person.press(Qt.Key.Key_Escape)
